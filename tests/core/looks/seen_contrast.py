"""How much of a feature is left in a picture as it comes to the retina, measured in its brightness alone.

Contrasts are shares of the brightness beside, 0 where nothing shows. Planets stand with their north up and
their west on the right; places are in equatorial radii from the middle of the disc, right and up.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cached_property
from unittest import mock

import numpy as np
from attrs import evolve, frozen
from numpy.typing import NDArray

from core.gear.owned import Diagonal, Telescope, TelescopeKind
from core.looks.feature_rules import Feature
from core.looks.picture import globe, sight
from core.looks.picture.sight import Sight
from core.looks.picture.subject import Subject
from core.sky.bodies import FACTS, Body
from core.sky.ring import A_RING_KM, B_RING_KM
from tests.core.looks.measured import TrueScale, at_true_scale, star_picture

Places = NDArray[np.float64]
Values = NDArray[np.float64]

SATURN_KM = FACTS[Body.SATURN].equatorial_radius_km
MIDDLE_OF_B = sum(B_RING_KM) / 2.0 / SATURN_KM


def sight_of(
    subject: Subject, *, aperture_mm: float, power: float, air_arcsec: float, spread_arcsec: float
) -> Sight:
    """A telescope without an obstruction that shows the sky the right way up, the planet's north on top."""
    return Sight(
        subject=subject,
        scope=Telescope(
            name="one",
            kind=TelescopeKind.REFRACTOR,
            aperture_mm=aperture_mm,
            focal_length_mm=10.0 * aperture_mm,
            diagonal=Diagonal.ERECT,
        ),
        power=power,
        air_arcsec=air_arcsec,
        spread_arcsec=spread_arcsec,
        zenith_angle_deg=subject.disc.pole_angle_deg,
    )


@contextmanager
def painted_otherwise(place: object, name: str, instead: Callable[..., object]) -> Iterator[None]:
    """Paint without one thing for a while; pictures that are kept are painted anew."""
    sight.see_coloured.cache_clear()
    with mock.patch.object(place, name, instead):
        yield
    sight.see_coloured.cache_clear()


@frozen(eq=False, slots=False)
class View:
    """A planet at one power, and pictures of the same without one thing on it."""

    how: Sight

    @cached_property
    def seen(self) -> TrueScale:
        return at_true_scale(self.how)

    @cached_property
    def bare(self) -> TrueScale:
        """Without bands, spots, caps and markings."""
        with painted_otherwise(
            globe, "brightness", lambda _, latitude_deg, __: np.full_like(latitude_deg, 0.7)
        ):
            return at_true_scale(self.how)

    @cached_property
    def without_globe_shadow(self) -> TrueScale:
        with painted_otherwise(globe.Globe, "hides_sun", lambda _, x, y, z: np.zeros(x.shape, dtype=bool)):
            return at_true_scale(self.how)

    @cached_property
    def without_moons(self) -> TrueScale:
        return at_true_scale(evolve(self.how, subject=evolve(self.how.subject, moons=())))

    @property
    def tilt_deg(self) -> float:
        return self.how.subject.disc.sub_earth_latitude_planetocentric_deg

    @property
    def diameter_arcsec(self) -> float:
        return self.how.subject.disc.equatorial_diameter_arcsec

    def at(self, picture: TrueScale, places: Places) -> Values:
        """Brightness at places (N, 2), from the four pixels about each."""
        image = picture.brightness
        radius_px = self.diameter_arcsec / 2.0 / picture.pixel_arcsec
        middle = (image.shape[0] - 1) / 2.0
        across, down = middle + places[:, 0] * radius_px, middle - places[:, 1] * radius_px
        left, top = np.floor(across).astype(int), np.floor(down).astype(int)
        right, low = across - left, down - top
        upper = image[top, left] * (1.0 - right) + image[top, left + 1] * right
        lower = image[top + 1, left] * (1.0 - right) + image[top + 1, left + 1] * right
        return np.asarray(upper * (1.0 - low) + lower * low)

    def markings(self, places: Places) -> Values:
        """Brightness against the same planet without markings."""
        return self.at(self.seen, places) / self.at(self.bare, places)

    def down_the_middle(self, first_deg: float, last_deg: float) -> Places:
        """Places on the line through the poles, between two latitudes."""
        facts = FACTS[self.how.subject.disc.body]
        up = np.sin(np.radians(np.linspace(first_deg, last_deg, 40) - self.tilt_deg))
        return along_up(up * facts.polar_radius_km / facts.equatorial_radius_km)


def along_up(up: Values) -> Places:
    return np.stack([np.zeros_like(up), up], axis=1)


def along_right(first: float, last: float, up: float = 0.0) -> Places:
    right = np.linspace(first, last, 60)
    return np.stack([right, np.full_like(right, up)], axis=1)


def dip(middle: Values, one_side: Values, other_side: Values) -> float:
    """How far the darkest in the middle lies under what is beside it."""
    beside = (float(one_side.max()) + float(other_side.max())) / 2.0
    return max(1.0 - float(middle.min()) / beside, 0.0)


def belt(view: View, belt_deg: tuple[float, float], *sides: tuple[float, float]) -> float:
    one, other = (view.markings(view.down_the_middle(*side)) for side in sides)
    return dip(view.markings(view.down_the_middle(*belt_deg)), one, other)


def main_belts(view: View) -> float:
    """The fainter of both, for both are promised."""
    north = belt(view, (7, 18), (-4, 4), (19, 25))
    south = belt(view, (-18, -7), (-4, 4), (-27, -19))
    return min(north, south)


def thin_belts(view: View) -> float:
    north = belt(view, (23, 28), (18, 23), (29, 37))
    south = belt(view, (-34, -28), (-28, -20), (-42, -35))
    return max(north, south)


def globe_belt(view: View) -> float:
    """The belt on the half of the globe that no ring crosses."""
    side = 1.0 if view.tilt_deg > 0.0 else -1.0
    return belt(view, (side * 12, side * 24), (side * 2, side * 10), (side * 26, side * 42))


def red_spot(view: View) -> float:
    """The spot in the middle of the disc, with the brighter hollow on either side of it."""
    up = float(np.sin(np.radians(-21.0 - view.tilt_deg))) * 0.935
    left, middle, right = (
        view.markings(along_right(first, last, up))
        for first, last in ((-0.25, -0.08), (-0.06, 0.06), (0.08, 0.25))
    )
    return dip(middle, left, right)


def moon_shadow(view: View) -> float:
    shadow = next(moon for moon in view.how.subject.moons if moon.shadow_x_radii is not None)
    place = np.array([[shadow.shadow_x_radii, shadow.shadow_y_radii]], dtype=float)
    return max(1.0 - float(view.at(view.seen, place)[0] / view.at(view.without_moons, place)[0]), 0.0)


def ring(view: View) -> float:
    """The bright ring beside the globe against the middle of the globe."""
    ansa, middle = view.at(view.seen, np.array([[MIDDLE_OF_B, 0.0], [0.0, 0.0]]))
    return float(ansa / middle)


def ring_space(view: View) -> float:
    inner = B_RING_KM[0] / SATURN_KM
    return _notch(
        view, along_right(0.95, inner), along_right(0.5, 0.95), along_right(inner, MIDDLE_OF_B + 0.1)
    )


def ring_gap(view: View) -> float:
    """At the tip of the ring, against the rings on either side."""
    inner, outer, edge = (km / SATURN_KM for km in (B_RING_KM[1], A_RING_KM[0], A_RING_KM[1]))
    return _notch(view, along_right(inner, outer), along_right(MIDDLE_OF_B, inner), along_right(outer, edge))


def _notch(view: View, middle: Places, *sides: Places) -> float:
    """How far the darkest in the middle lies under the fainter of what is on either side."""
    fainter = min(float(view.at(view.seen, side).max()) for side in sides)
    return max(1.0 - float(view.at(view.seen, middle).min()) / fainter, 0.0)


def globe_shadow(view: View) -> float:
    """The most that it takes from the ring, of what would be there without it."""
    rows = along_right(-1.4, 1.4)
    places = np.concatenate([rows + np.array([0.0, up]) for up in np.linspace(-0.6, 0.6, 15)])
    whole = view.at(view.without_globe_shadow, places)
    bright = whole > 0.25 * whole.max()
    return float((1.0 - view.at(view.seen, places)[bright] / whole[bright]).max())


def dark_markings(view: View) -> float:
    """The darkest twentieth of the disc's middle against its usual ground."""
    right, up = np.meshgrid(np.linspace(-0.6, 0.6, 41), np.linspace(-0.6, 0.6, 41))
    inside = np.hypot(right, up) < 0.6
    darkest, usual = np.percentile(view.markings(np.stack([right[inside], up[inside]], axis=1)), (5, 50))
    return float(1.0 - darkest / usual)


def cap(view: View, side: float) -> float:
    """How much brighter the ground by the pole looks than the brightest elsewhere on the middle line."""
    by_the_pole = view.markings(along_up(side * np.linspace(0.7, 0.97, 60))).max()
    elsewhere = view.markings(along_up(side * np.linspace(-0.5, 0.5, 120))).max()
    return max(float(1.0 - elsewhere / by_the_pole), 0.0)


def phase(view: View) -> float:
    """By how many arcsec, at the eye, the disc is narrower towards the Sun than across."""
    disc = view.how.subject.disc
    angle = np.radians(disc.bright_limb_angle_deg - disc.pole_angle_deg)
    towards_sun = np.array([-np.sin(angle), np.cos(angle)])
    image = view.seen.brightness
    rows, columns = np.nonzero(image > image.max() / 4.0)
    across, along = (
        np.ptp(columns * way[0] - rows * way[1]) for way in (towards_sun[::-1] * (1.0, -1.0), towards_sun)
    )
    return float(max(across - along, 0.0)) * view.seen.apparent_pixel_arcsec


def small_disc(view: View) -> float:
    """How much wider the disc looks than a star, as a share."""
    size = view.seen.brightness.shape[0] - 1
    star = star_picture(size, view.seen.pixel_arcsec, view.how.blurring_with_eye)

    def width(image: NDArray[np.float32]) -> float:
        return float(np.sqrt((image > image.max() / 2.0).sum()))

    return width(view.seen.brightness) / width(star) - 1.0


MEASURES: dict[Feature, Callable[[View], float]] = {
    Feature.MAIN_BELTS: main_belts,
    Feature.THIN_BELTS: thin_belts,
    Feature.RED_SPOT: red_spot,
    Feature.MOON_SHADOW: moon_shadow,
    Feature.RING: ring,
    Feature.RING_LINE: ring,
    Feature.RING_SPACE: ring_space,
    Feature.RING_GAP: ring_gap,
    Feature.GLOBE_SHADOW: globe_shadow,
    Feature.GLOBE_BELT: globe_belt,
    Feature.DARK_MARKINGS: dark_markings,
    Feature.NORTH_CAP: lambda view: cap(view, 1.0),
    Feature.SOUTH_CAP: lambda view: cap(view, -1.0),
    Feature.PHASE: phase,
    Feature.SMALL_DISC: small_disc,
}
