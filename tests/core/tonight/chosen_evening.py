"""An evening with something chosen, for tests of its steps."""

from datetime import date, datetime
from typing import Any

from attrs import evolve

from core.gear.owned import Eyepiece, Telescope, TelescopeKind
from core.record.observer import Profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.site import BlockedSky, Site
from core.tonight.steps import EveningItem, ItemKind
from core.words.evening import item_words
from core.words.site_clock import clock_of
from tests.core.telling import LONG_AGO

PORTO = Site(
    id="porto",
    name="Porto",
    latitude_deg=41.15,
    longitude_deg=-8.61,
    time_zone="Europe/Lisbon",
    blocked=(
        BlockedSky(
            azimuth_from_deg=190, azimuth_to_deg=230, below_altitude_deg=20, what="tiled roof", heated=True
        ),
    ),
)
OULU = Site(id="oulu", name="Oulu", latitude_deg=65.01, longitude_deg=25.47, time_zone="Europe/Helsinki")
TROMSO = Site(id="t", name="Tromso", latitude_deg=69.65, longitude_deg=18.96, time_zone="Europe/Oslo")
TEN_INCH = Telescope(
    id="ten", name="Ten", kind=TelescopeKind.REFLECTOR, aperture_mm=254, focal_length_mm=1200
)
LENS = Telescope(id="lens", name="Lens", kind=TelescopeKind.REFRACTOR, aperture_mm=80, focal_length_mm=900)
CLOSED = Telescope(
    id="eight", name="Eight", kind=TelescopeKind.CATADIOPTRIC, aperture_mm=203, focal_length_mm=2032
)
WINTER = date(2026, 12, 5)


def situation(
    scope: Telescope = TEN_INCH,
    *,
    site: Site = PORTO,
    evening: date = WINTER,
    now: datetime = LONG_AGO,
    **chosen: Any,  # noqa: ANN401 - the fields of Choices, which checks them
) -> Situation:
    profile = Profile(
        sites=(site,), telescopes=(scope,), eyepieces=(Eyepiece(name="25 mm", focal_length_mm=25),)
    )
    choices = Choices(profile=profile, site_id=site.id, scope_id=scope.id, evening=evening)
    return Situation(evolve(choices, **chosen), now)


def one(found: Situation, kind: ItemKind) -> EveningItem:
    (item,) = [item for item in found.evening_steps if item.kind is kind]
    return item


def kinds(found: Situation) -> list[ItemKind]:
    return [item.kind for item in found.evening_steps]


def words(found: Situation, item: EveningItem) -> str:
    clock = clock_of(found)
    assert clock is not None
    return item_words(item, clock, unit=found.preferences.temperature)
