"""Situations of an evening whose temperatures are told."""

from datetime import UTC, date, datetime

from attrs import evolve

from core.air.temperatures import Temperatures
from core.gear.owned import Telescope
from core.record.observer import Profile
from core.situation.choices import Choices, EveningTemperatures, ScopeOutside
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import Site
from tests.core.gear.examples import eyepiece, refractor, telescope

PORTO = Site(id="porto", name="Porto", latitude_deg=41.15, longitude_deg=-8.61, time_zone="Europe/Lisbon")
EVENING = date(2026, 12, 5)
AFTERNOON = datetime(2026, 12, 5, 16, 0, tzinfo=UTC)
SIX = telescope(id="six", name="Six")
LENS = evolve(refractor("Lens", 100, 900), id="lens")
FALLING = Temperatures(indoor_c=20.0, now_c=11.0, dusk_c=9.0, lowest_c=-1.0, humidity_pct=80.0)


def situation(
    temperatures: Temperatures | None = FALLING,
    *,
    scope: Telescope = SIX,
    now: datetime = AFTERNOON,
    out_since: datetime | None = None,
    warmer_by_c: float | None = None,
    planet: Body = Body.SATURN,
    **chosen: object,
) -> Situation:
    choices = Choices(
        profile=Profile(
            sites=(PORTO,),
            telescopes=(scope, LENS) if scope is not LENS else (LENS,),
            eyepieces=(eyepiece(25), eyepiece(10), eyepiece(6)),
        ),
        evening=EVENING,
        planet=planet,
        **chosen,  # type: ignore[arg-type]  # passed on as they are
    )
    if temperatures is not None:
        told = EveningTemperatures(
            evening=EVENING, site_id="porto", told_at=AFTERNOON, temperatures=temperatures
        )
        choices = choices.with_temperatures(EVENING, "porto", told)
    if out_since is not None:
        spot = (EVENING, "porto", scope.id)
        note = ScopeOutside(
            evening=EVENING, site_id="porto", scope_id=scope.id, since=out_since, warmer_by_c=warmer_by_c
        )
        choices = choices.with_outside(spot, note)
    return Situation(choices, now)
