"""Invented gear, and random kits for properties, shared by the tests of the kit."""

from hypothesis import strategies as st

from core.gear.owned import BARRELS_MM, Barlow, Eyepiece, Telescope, TelescopeKind


def telescope(
    name: str = "Six-inch",
    aperture_mm: float = 150,
    focal_length_mm: float | None = 1200,
    kind: TelescopeKind = TelescopeKind.REFLECTOR,
    **more: object,
) -> Telescope:
    return Telescope(
        name=name,
        kind=kind,
        aperture_mm=aperture_mm,
        focal_length_mm=focal_length_mm,
        **more,  # type: ignore[arg-type]
    )


def refractor(name: str, aperture_mm: float, focal_length_mm: float, **more: object) -> Telescope:
    return telescope(name, aperture_mm, focal_length_mm, TelescopeKind.REFRACTOR, **more)


def fixed(name: str = "Spotter", aperture_mm: float = 80, **more: object) -> Telescope:
    return telescope(name, aperture_mm, None, TelescopeKind.FIXED, **more)


def eyepiece(focal_length_mm: float, apparent_field_deg: float | None = None, **more: object) -> Eyepiece:
    return Eyepiece(
        name=f"{focal_length_mm:g} mm",
        focal_length_mm=focal_length_mm,
        apparent_field_deg=apparent_field_deg,
        **more,  # type: ignore[arg-type]
    )


def barlow(factor: float, **more: object) -> Barlow:
    return Barlow(name=f"{factor:g}x", factor=factor, **more)  # type: ignore[arg-type]


barrels = st.sampled_from(BARRELS_MM)
telescopes = st.builds(
    telescope,
    aperture_mm=st.floats(40, 500),
    focal_length_mm=st.floats(300, 4000),
    stack_barlows=st.booleans(),
    barrel_mm=barrels,
    driven=st.booleans(),
)
eyepieces = st.builds(
    eyepiece,
    st.floats(2, 60),
    st.none() | st.floats(30, 110),
    barrel_mm=barrels,
    eye_relief_mm=st.none() | st.floats(3, 30),
)
barlows = st.builds(barlow, st.floats(1.1, 5) | st.floats(0.3, 0.95), barrel_mm=barrels)
eyepiece_lists = st.lists(eyepieces, max_size=6)
barlow_lists = st.lists(barlows, max_size=3)
