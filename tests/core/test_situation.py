"""One situation: what the owner keeps in the profile counts everywhere, and best moments are one."""

from datetime import UTC, date, datetime, timedelta

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.air.first_look import FirstLook
from core.ladder.contenders import Pick
from core.record.observer import DarkEnough, FirstLookBlur, Profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import Site
from tests.core.gear.examples import barlow, eyepiece, telescope

PORTO = Site(id="porto", name="Porto", latitude_deg=41.15, longitude_deg=-8.61, time_zone="Europe/Lisbon")
DULUTH = Site(
    id="duluth", name="Duluth", latitude_deg=46.79, longitude_deg=-92.1, time_zone="America/Chicago"
)
NOON = datetime(2026, 12, 5, 12, tzinfo=UTC)


def at(site: Site, evening: date, planet: Body, **profile: object) -> Situation:
    owner = Profile(sites=(site,), **profile)  # type: ignore[arg-type]  # passed on as they are
    return Situation(Choices(profile=owner, evening=evening, planet=planet), NOON)


def test_the_owner_s_dark_sky_decides_the_windows() -> None:
    usual = at(PORTO, date(2026, 12, 5), Body.SATURN)
    darker = at(PORTO, date(2026, 12, 5), Body.SATURN, dark=DarkEnough(saturn_deg=-12.0))

    starts = []
    for situation in (usual, darker):
        assert situation.night is not None
        starts.append(situation.night.of(Body.SATURN).windows[0].start)

    # The Sun takes some 40 minutes from 4 to 12 degrees down at 41 degrees north in December.
    assert timedelta(minutes=35) < starts[1] - starts[0] < timedelta(minutes=50)


def test_the_owner_s_first_looks_are_known_again_by_their_blur() -> None:
    own = FirstLookBlur(steady_arcsec=1.0, fair_arcsec=2.0, boiling_arcsec=4.0)
    situation = at(PORTO, date(2026, 12, 5), Body.SATURN, air=own)
    given = Situation(evolve(situation.choices, blur=Blur(overhead_arcsec=2.0)), NOON)

    assert (situation.first_look, given.first_look) == (None, FirstLook.FAIR)


def test_what_to_buy_is_the_same_in_any_air() -> None:
    owned = (eyepiece(25), eyepiece(10), eyepiece(8))
    usual = at(
        PORTO,
        date(2026, 12, 5),
        Body.SATURN,
        telescopes=(telescope(),),
        eyepieces=owned,
        barlows=(barlow(2),),
    )
    boiling = Situation(evolve(usual.choices, blur=Blur(overhead_arcsec=5.0)), NOON)

    for situation in (usual, boiling):
        assert situation.to_buy is not None
        assert situation.to_buy.thing.focal_length_mm == 6
        # What is only to buy is no rung of this night.
        assert situation.wished == ()
    tried = Situation(evolve(usual.choices, tried=eyepiece(6)), NOON)
    assert [round(rung.power) for rung in tried.wished] == [200, 400]


def test_what_to_buy_for_each_of_two_scopes_is_drawn_beside_it() -> None:
    short = telescope(id="short", name="Short", aperture_mm=130, focal_length_mm=650)
    usual = at(
        PORTO,
        date(2026, 12, 5),
        Body.SATURN,
        telescopes=(telescope(id="long"), short),
        eyepieces=(eyepiece(25), eyepiece(10)),
    )
    pair = Situation(evolve(usual.choices, first=Pick("long"), second=Pick("short")), NOON)

    for found, wished in zip(pair.compared_to_buy, pair.compared_wished, strict=True):
        assert found is not None
        assert wished
        # The drawn settings of a zoom differ from those it is weighed at, both ends do not.
        assert found.powers[0] <= wished[0].power * 1.001
        assert wished[-1].power <= found.powers[-1] * 1.001
    one, other = pair.compared_to_buy
    assert one != other


def test_ladder_and_answer_stand_at_one_best_moment_before_the_stop_line() -> None:
    situation = at(DULUTH, date(2027, 9, 19), Body.JUPITER)
    best, night = situation.best, situation.night
    assert best is not None
    assert night is not None
    assert night.sun.rise is not None

    # The Sun rises at 6:53 am there, 11:53 UTC (a case of its own; from memory).
    assert best.end <= night.sun.rise - timedelta(minutes=10)
    assert situation.best_aim.at is not None
    assert best.holds(situation.best_aim.at)
    assert situation.aim == situation.best_aim
    assert abs(situation.time - situation.best_aim.at) <= timedelta(seconds=30)  # the nearest full minute


@pytest.mark.parametrize("planet", [Body.SATURN, Body.MARS])
def test_a_time_by_day_is_answered_with_the_reason(planet: Body) -> None:
    situation = at(PORTO, date(2026, 12, 5), planet)
    by_day = Situation(evolve(situation.choices, time=datetime(2026, 12, 5, 15, 30, tzinfo=UTC)), NOON)
    asked = evolve(by_day.choices, time_is_asked=True)

    assert not Situation(asked, NOON).aim.is_offered


def test_the_order_of_an_evening_is_not_sought_anew_each_minute(monkeypatch: pytest.MonkeyPatch) -> None:
    owner = Profile(sites=(PORTO,), telescopes=(telescope(),))
    before = Situation(Choices(profile=owner), datetime(2026, 12, 5, 18, tzinfo=UTC))
    assert before.targets

    def seek_anew(*_args: object, **_more: object) -> None:
        pytest.fail("the order was sought anew")

    monkeypatch.setattr("core.situation.planet_in_hand.evening_targets", seek_anew)
    after = Situation(before.choices, before.now + timedelta(minutes=1), before=before)

    assert after.present != before.present
    assert after.targets is before.targets
