"""The moons that show in a picture, as small round spots: Jupiter's four, and Titan beside Saturn."""

from typing import Final

from attrs import frozen

from core.looks.picture.subject import Subject
from core.sky.bodies import FACTS, Body
from core.sky.moons import MOON_RADIUS_KM, RADIUS_KM, Moon
from core.sky.titan import TITAN_RADIUS_KM

# Geometric albedos (NASA planetary fact sheets, from memory).
_ALBEDO: Final = {Moon.IO: 0.63, Moon.EUROPA: 0.67, Moon.GANYMEDE: 0.43, Moon.CALLISTO: 0.17}
_TITAN_ALBEDO: Final = 0.22  # from the same


@frozen(kw_only=True)
class Companion:
    """A moon that shows beside or before its planet.

    Lengths are in the planet's equatorial radii: x west, y north along its axis, and its own radius.
    """

    name: str
    x_radii: float
    y_radii: float
    radius_radii: float
    albedo: float


def companions_of(subject: Subject) -> tuple[Companion, ...]:
    """Return the moons of a subject that show, from the innermost outwards."""
    found = [
        Companion(
            name=moon.moon.label,
            x_radii=moon.x_radii,
            y_radii=moon.y_radii,
            radius_radii=MOON_RADIUS_KM[moon.moon] / RADIUS_KM,
            albedo=_ALBEDO[moon.moon],
        )
        for moon in subject.moons
        if moon.is_visible
    ]
    titan = subject.titan
    if titan is not None and titan.is_visible:
        radius = TITAN_RADIUS_KM / FACTS[Body.SATURN].equatorial_radius_km
        found.append(
            Companion(
                name="Titan",
                x_radii=titan.x_radii,
                y_radii=titan.y_radii,
                radius_radii=radius,
                albedo=_TITAN_ALBEDO,
            )
        )
    return tuple(found)
