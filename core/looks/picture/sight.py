"""What one power of one telescope shows of a body: size at the eye, and the picture to scale."""

from functools import lru_cache
from typing import Final

import numpy as np
from attrs import evolve, field, frozen
from attrs.validators import optional

from core.arrays import Values
from core.checks import within
from core.gear.aperture import working_aperture_mm, working_obstruction_ratio
from core.gear.owned import Telescope
from core.looks.picture.blur import Blurring, blurred
from core.looks.picture.colours import BAND_WIDTH, parted
from core.looks.picture.companions import companions_of
from core.looks.picture.paint import Grid, painted
from core.looks.picture.stillness import MOTION_FOLLOWED, Stillness, stilled_arcsec
from core.looks.picture.subject import Subject
from core.looks.picture.turn import Turn, turning_of
from core.sky.bodies import Body

PICTURE_SIZE: Final = 400
# What a view may be of. Figures each in its range may together make a telescope that nobody has (50 mm of
# focal length for 2 m of aperture): of its powers and fields beyond these no picture is made (ours).
SHOWN_POWER: Final = within(0.1, 10_000, "x")
SHOWN_FIELD_DEG: Final = within(0.001, 40, "degrees")
# The widest apparent field of an eyepiece.
_WIDEST_APPARENT_DEG: Final = 120.0
# Pixels painted beyond each edge, so that what the blur carries over the edge is right.
_MARGIN: Final = 56

# What a good eye blurs by, full width at half maximum at the eyepiece: it parts two lines 2 arcminutes apart
# (normal acuity; ISO 8596).
EYE_BLUR_ARCSEC: Final = 120.0


@frozen(kw_only=True)
class Sight:
    """A body in one telescope at one power, in tonight's air.

    ``air_arcsec`` is the air's blur at the body's height, ``spread_arcsec`` how far the air parts its
    colours; ``zenith_angle_deg`` is the position angle of the zenith at the body, None when unknown: then
    north takes its place in the picture, and the colours' spread is left out. ``stillness`` tells which
    moments are shown.
    """

    subject: Subject
    scope: Telescope
    power: float = field(validator=SHOWN_POWER)
    air_arcsec: float = field(validator=within(0, 60, "arcsec"))
    spread_arcsec: float = field(default=0.0, validator=within(0, 60, "arcsec"))
    true_field_deg: float | None = field(default=None, validator=optional(SHOWN_FIELD_DEG))
    zenith_angle_deg: float | None = None
    stillness: Stillness = Stillness.MOSTLY

    @property
    def turn(self) -> Turn:
        """How the telescope turns the view."""
        return Turn(turning=turning_of(self.scope), up_angle_deg=self.zenith_angle_deg or 0.0)

    @property
    def apparent_diameter_arcmin(self) -> float:
        """How wide the disc looks through the eyepiece."""
        return self.subject.disc.equatorial_diameter_arcsec * self.power / 60.0

    @property
    def apparent_extent_deg(self) -> float:
        """How wide the body, with its ring, looks through the eyepiece."""
        return self.subject.extent_arcsec * self.power / 3600.0

    @property
    def overfills(self) -> bool:
        """Whether the disc is wider than the field, or than any eyepiece's where the field is unknown."""
        field_deg = _WIDEST_APPARENT_DEG / self.power if self.true_field_deg is None else self.true_field_deg
        return self.subject.disc.equatorial_diameter_arcsec > field_deg * 3600.0

    @property
    def blurring(self) -> Blurring:
        """What spreads each point of the picture before it comes to the eye."""
        is_known = self.zenith_angle_deg is not None
        return Blurring(
            aperture_mm=working_aperture_mm(self.scope),
            obstruction_ratio=working_obstruction_ratio(self.scope),
            air_arcsec=stilled_arcsec(self.air_arcsec, self.stillness),
            motion_followed=MOTION_FOLLOWED,
            spread_arcsec=self.spread_arcsec if is_known else 0.0,
            spread_direction=self.turn.direction(self.zenith_angle_deg or 0.0) if is_known else (0.0, 1.0),
        )

    @property
    def blurring_with_eye(self) -> Blurring:
        """What spreads each point of the picture, the eye's own blur at this power included."""
        return evolve(self.blurring, eye_arcsec=EYE_BLUR_ARCSEC / self.power)

    def coloured_window(
        self, width_deg: float, size: int = PICTURE_SIZE, *, with_eye: bool = False
    ) -> Values:
        """Return red, green and blue (size, size, 3) of a window so many degrees wide to the eye, read only.

        Brightness is against a matt white ball under the Sun; the air has parted the colours. A Moon that is
        wider than the window is looked at where day meets night. The eye's own blur belongs to a picture
        that is as large on the retina as the view itself; an enlarged one goes without.
        """
        blurring = self.blurring_with_eye if with_eye else self.blurring
        return see_coloured(self.subject, blurring, self._grid(width_deg, size))

    def _grid(self, width_deg: float, size: int) -> Grid:
        grid = Grid(size=size, pixel_arcsec=width_deg * 3600.0 / self.power / size, turn=self.turn)
        if self.subject.disc.body is Body.MOON and self.apparent_extent_deg > width_deg:
            return evolve(grid, centre_arcsec=self._terminator_arcsec())
        return grid

    def moon_places_arcsec(self) -> tuple[tuple[str, float, float], ...]:
        """Return the moons that show beside or before the planet: name, right and up from its middle."""
        disc = self.subject.disc
        radius = disc.equatorial_diameter_arcsec / 2.0
        right_west, up_west = self.turn.direction(disc.pole_angle_deg - 90.0)
        right_north, up_north = self.turn.direction(disc.pole_angle_deg)
        return tuple(
            (
                moon.name,
                radius * (moon.x_radii * right_west + moon.y_radii * right_north),
                radius * (moon.x_radii * up_west + moon.y_radii * up_north),
            )
            for moon in companions_of(self.subject)
        )

    def _terminator_arcsec(self) -> tuple[float, float]:
        """Return right and up from the middle of the disc to the middle of the terminator."""
        disc = self.subject.disc
        away = -disc.equatorial_diameter_arcsec / 2.0 * float(np.cos(np.radians(disc.phase_angle_deg)))
        right, up = self.turn.direction(disc.bright_limb_angle_deg)
        return right * away, up * away


@lru_cache(maxsize=16)
def see_coloured(subject: Subject, blurring: Blurring, grid: Grid) -> Values:
    """Return red, green and blue (N, N, 3) of a subject on a grid as blurred, read only; kept a while."""
    wide = evolve(grid, size=grid.size + 2 * _MARGIN)
    spread_px = blurring.spread_arcsec / grid.pixel_arcsec
    of_a_band = evolve(blurring, spread_arcsec=BAND_WIDTH * blurring.spread_arcsec)
    picture = np.maximum(blurred(painted(subject, wide), grid.pixel_arcsec, of_a_band), 0.0)
    inside = slice(_MARGIN, -_MARGIN)
    if spread_px == 0.0:
        return np.broadcast_to(picture[inside, inside, np.newaxis], (grid.size, grid.size, 3))
    coloured = parted(picture, _MARGIN, spread_px, blurring.spread_direction)
    coloured.flags.writeable = False
    return coloured


def window_for(subject: Subject, power: float) -> float:
    """Return a window, degrees wide to the eye, in which the body has room at a power; at most 12."""
    return min(1.3 * subject.extent_arcsec * power / 3600.0, 12.0)
