"""Profiles of any kind that is allowed, for property tests."""

import unicodedata
from datetime import date
from typing import Any

from hypothesis import strategies as st

from core.gear.eye import Eye
from core.gear.owned import BARRELS_MM, Barlow, Diagonal, Eyepiece, Filter, Stand, Telescope, TelescopeKind
from core.record.observer import (
    DarkEnough,
    FirstLookBlur,
    LengthUnit,
    Preferences,
    Profile,
    RedSpot,
    TemperatureUnit,
)
from core.sky.site import BlockedSky, Site, WarmAir

# Any character but half of a pair: quotes, controls, line ends and every script are allowed in a name.
texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
names = texts.filter(lambda text: bool(text.strip()))
dates = st.dates(min_value=date(1900, 1, 1), max_value=date(2100, 1, 1))
barrels = st.sampled_from(BARRELS_MM)


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    """Half of them whole, as most are in a file."""
    return st.one_of(st.integers(int(low) + 1, int(high)).map(float), st.floats(low, high))


def maybe(strategy: st.SearchStrategy[float]) -> st.SearchStrategy[float | None]:
    return st.none() | strategy


_common: dict[str, Any] = {
    "id": texts,
    "name": names,
    "aperture_mm": numbers(20.5, 2000),
    "barrel_mm": barrels,
    "diagonal": st.sampled_from(Diagonal),
    "closed_tube": st.none() | st.booleans(),
    "fan": st.booleans(),
    "driven": st.booleans(),
    "stack_barlows": st.booleans(),
    "mirror_thickness_mm": maybe(numbers(3, 200)),
    "binoviewer_factor": maybe(numbers(1, 4)),
    "settles_s": maybe(numbers(0.1, 60)),
    "stands_on": st.none() | st.sampled_from(Stand),
    "collimated_on": st.none() | dates,
    "notes": texts,
}
telescopes = st.one_of(
    st.builds(
        Telescope,
        kind=st.sampled_from([kind for kind in TelescopeKind if kind is not TelescopeKind.FIXED]),
        focal_length_mm=numbers(50, 20_000),
        obstruction_mm=maybe(numbers(0, 19)),
        **_common,
    ),
    st.builds(
        Telescope,
        kind=st.just(TelescopeKind.FIXED),
        power=numbers(1, 500),
        true_field_deg=maybe(numbers(0.1, 20)),
        **_common,
    ),
    st.builds(
        Telescope,
        kind=st.just(TelescopeKind.FIXED),
        power_min=numbers(1, 20),
        power_max=numbers(21, 500),
        mask_mm=st.none() | st.just(20.0),
        cooling_minutes=numbers(1, 1440),
        cooling_from_c=numbers(2, 60),
        **_common,
    ),
)
eyepieces = st.one_of(
    st.builds(
        Eyepiece,
        id=texts,
        name=names,
        focal_length_mm=numbers(2, 60),
        apparent_field_deg=maybe(numbers(20, 120)),
        field_stop_mm=maybe(numbers(1, 24)),
        barrel_mm=barrels,
        eye_relief_mm=maybe(numbers(1, 50)),
    ),
    st.builds(
        Eyepiece,
        id=texts,
        name=names,
        focal_length_min_mm=numbers(2, 10),
        focal_length_max_mm=numbers(11, 60),
        apparent_field_at_min_deg=maybe(numbers(20, 120)),
        apparent_field_at_max_deg=maybe(numbers(20, 120)),
        barrel_mm=barrels,
    ),
)
barlows = st.one_of(
    st.builds(Barlow, id=texts, name=names, factor=numbers(1.1, 5), measured_factor=maybe(numbers(1.1, 5))),
    st.builds(Barlow, id=texts, name=names, factor=st.floats(0.3, 0.95), barrel_mm=barrels),
)
filters = st.one_of(
    st.builds(Filter, id=texts, name=names, wratten=st.sampled_from(["12", "80A", "82A"])),
    st.builds(Filter, id=texts, name=names, transmittance=st.floats(0.0001, 1)),
)
_sector: dict[str, Any] = {
    "azimuth_from_deg": numbers(0, 360),
    "azimuth_to_deg": numbers(0, 360),
    "below_altitude_deg": numbers(0, 90),
    "what": texts,
}
sites = st.builds(
    Site,
    id=texts,
    name=names,
    latitude_deg=numbers(-90, 90),
    longitude_deg=numbers(-180, 180),
    elevation_m=numbers(-430, 6000),
    time_zone=st.sampled_from(["Europe/Lisbon", "Asia/Kathmandu", "America/Argentina/Mendoza", "UTC"]),
    blocked=st.lists(st.builds(BlockedSky, heated=st.booleans(), **_sector), max_size=3).map(tuple),
    warm_air=st.lists(st.builds(WarmAir, **_sector), max_size=2).map(tuple),
)


def own(things: st.SearchStrategy[Any]) -> st.SearchStrategy[tuple[Any, ...]]:
    """Lists of a kind, in which names differ, and ids where there are any."""
    different = (lambda thing: _normal(thing.name), lambda thing: _normal(thing.id) or object())
    return st.lists(things, max_size=3, unique_by=different).map(tuple)


def _normal(text: str) -> str:
    return unicodedata.normalize("NFC", text)


profiles = st.builds(
    Profile,
    id=st.just("") | st.uuids().map(str),
    observer=texts,
    eye=st.builds(Eye, pupil_mm=numbers(2, 9), glasses=st.booleans(), astigmatism=st.booleans()),
    preferences=st.builds(
        Preferences,
        length=st.sampled_from(LengthUnit),
        temperature=st.sampled_from(TemperatureUnit),
        clock=st.sampled_from([12, 24]),
        out_from=st.sampled_from(["dusk", "12:00", "19:05"]),
        out_until=st.sampled_from(["dawn", "23:30", "00:00", "11:59"]),
    ),
    air=st.builds(
        FirstLookBlur,
        steady_arcsec=numbers(0.2, 1),
        fair_arcsec=numbers(1.01, 2),
        boiling_arcsec=numbers(2.01, 8),
    ),
    dark=st.builds(DarkEnough, venus_deg=st.floats(-18, -0.833), moon_deg=st.floats(-18, -0.833)),
    red_spot=st.none() | st.builds(RedSpot, longitude_deg=numbers(0, 360), on=dates),
    sites=own(sites),
    telescopes=own(telescopes),
    eyepieces=own(eyepieces),
    barlows=own(barlows),
    filters=own(filters),
)
