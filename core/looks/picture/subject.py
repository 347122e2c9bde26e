"""What a picture is of: one body with all that belongs on its disc at a time."""

from datetime import datetime

from attrs import frozen

from core.sky.bodies import Body
from core.sky.disc import Disc, disc_at
from core.sky.mars_season import MarsSeason, mars_season
from core.sky.moon_phase import MoonPhase, moon_phase
from core.sky.moons import MoonPosition, moon_positions
from core.sky.ring import Ring, ring_of
from core.sky.titan import TitanPosition, titan_position


@frozen(kw_only=True)
class Subject:
    """A body's disc, and what else is drawn with it: ``moons`` are Jupiter's, ``titan`` Saturn's.

    ``red_spot_longitude_deg`` is in System II, None when its owner has not said.
    """

    disc: Disc
    ring: Ring | None = None
    moons: tuple[MoonPosition, ...] = ()
    titan: TitanPosition | None = None
    red_spot_longitude_deg: float | None = None
    season: MarsSeason | None = None
    phase: MoonPhase | None = None

    @property
    def extent_arcsec(self) -> float:
        """Width of the body, its ring included, but not its moons."""
        return self.disc.equatorial_diameter_arcsec if self.ring is None else self.ring.major_axis_arcsec


def subject_at(body: Body, time: datetime, *, red_spot_longitude_deg: float | None = None) -> Subject:
    """Return what a picture of a body at a time (aware) is of."""
    disc = disc_at(body, time)
    return Subject(
        disc=disc,
        ring=ring_of(disc),
        moons=moon_positions(time) if body is Body.JUPITER else (),
        titan=titan_position(time) if body is Body.SATURN else None,
        red_spot_longitude_deg=red_spot_longitude_deg if body is Body.JUPITER else None,
        season=mars_season(time) if body is Body.MARS else None,
        phase=moon_phase(time) if body is Body.MOON else None,
    )
