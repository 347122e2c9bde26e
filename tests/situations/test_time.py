"""Civil days and clocks: two transits in a day, repeated hours, dates that never were, zones that are none.

The situations come from public questions and bug reports; unless a comment says otherwise, times were
computed with Skyfield 1.55 and DE421, zones are those of the IANA data.
"""

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.drawing.height import draw_height
from core.drawing.palette import load_palette
from core.problems import ProblemsError
from core.record.profile import loads_profile
from core.sky.bodies import TARGETS, Body
from core.sky.civil import evening_span, tonight
from core.sky.night import compute_night
from core.sky.places import search_places
from core.sky.site import Site
from core.sky.zones import zone_names
from core.words.dates import date_text
from core.words.site_clock import SiteClock
from gui.app import main
from tests.core.drawing.looking import page_of, words_of
from tests.situations.conftest import Ask, AskJson
from tests.situations.owners import LONDON, owner, place, scope

KIRITIMATI = place(1.87, -157.4, "Pacific/Kiritimati")
KATHMANDU = place(27.7, 85.3, "Asia/Kathmandu")
BERLIN = place(52.5, 13.4, "Europe/Berlin")
APIA = place(-13.83, -171.77, "Pacific/Apia")


# Both transits of one civil day, each in an evening of its own.
@pytest.mark.parametrize(
    ("site", "body", "day", "first", "second"),
    [
        (LONDON, Body.MARS, "2027-02-23", "00:02:00", "23:56:32"),
        (KATHMANDU, Body.SATURN, "2026-10-03", "00:04:11", "23:59:58"),
        (KIRITIMATI, Body.SATURN, "2026-10-10", "00:01:49", "23:57:36"),
    ],
)
def test_two_transits_of_one_day_belong_to_two_evenings(
    ask: Ask, ask_json: AskJson, site: Site, body: Body, day: str, first: str, second: str
) -> None:
    before = (date.fromisoformat(day) - timedelta(days=1)).isoformat()

    for evening, expected in ((before, first), (day, second)):
        told = ask_json(owner(site=site), "heights", "--evening", evening)
        (found,) = (each for each in told["bodies"] if each["body"] == body.value)
        (transit,) = found["transits"]
        local = datetime.fromisoformat(transit["time"]).astimezone(site.zone)
        assert abs(local.replace(tzinfo=None) - datetime.fromisoformat(f"{day}T{expected}")) < timedelta(
            seconds=1.5
        )
        # The one at midnight is told with the date that it falls on.
        kit = owner(scope("reflector", 150, 1200), site=site)
        ladder = ask(kit, "ladder", "--planet", body.value, "--at", transit["time"])
        assert f" {date_text(date.fromisoformat(day))} " in ladder


@pytest.mark.parametrize("site", [BERLIN, KIRITIMATI], ids=["berlin", "kiritimati"])
def test_over_a_season_of_evenings_no_transit_is_lost_or_told_twice(site: Site) -> None:
    transits = [
        position.time
        for days in range(90)
        for position in compute_night(site, date(2026, 9, 1) + timedelta(days=days), targets=(Body.SATURN,))
        .bodies[0]
        .transits
    ]

    # Saturn comes to the meridian 4 minutes earlier each day, and was opposite the Sun on 4 October 2026.
    gaps = {round((after - before).total_seconds()) for before, after in pairwise(transits)}
    assert 86_100 < min(gaps) <= max(gaps) < 86_300
    by_day = [time.astimezone(site.zone).date() for time in transits]
    assert len(by_day) - len(set(by_day)) == 1  # one civil day has two


# How long the evening of a clock change lasts, and which hour of it the clocks show twice.
@pytest.mark.parametrize(
    ("zone", "longitude_deg", "evening", "hours", "names"),
    [
        ("Europe/Berlin", 13.4, "2026-10-24", 25, ("CEST", "CET")),
        ("America/New_York", -74, "2026-10-31", 25, ("EDT", "EST")),
        ("Pacific/Auckland", 174.8, "2026-04-04", 25, ("NZDT", "NZST")),
        ("America/Santiago", -70.7, "2026-04-04", 25, ("UTC−3", "UTC−4")),
        ("Australia/Lord_Howe", 159.1, "2026-04-04", 24.5, ("UTC+11", "UTC+10:30")),
        ("Europe/Berlin", 13.4, "2027-03-27", 23, ("CET", "CEST")),
        ("America/New_York", -74, "2027-03-13", 23, ("EST", "EDT")),
    ],
)
def test_the_hours_of_a_chart_go_on_evenly_across_a_change(
    ask_json: AskJson, zone: str, longitude_deg: float, evening: str, hours: float, names: tuple[str, str]
) -> None:
    site = place(40.0, longitude_deg, zone)
    night = compute_night(site, date.fromisoformat(evening), targets=(Body.JUPITER,))

    chart = draw_height(page_of(1200, 640), night, palette=load_palette("day"), planet=Body.JUPITER)

    told = ask_json(owner(site=site), "heights", "--evening", evening)
    start, end = (datetime.fromisoformat(told[key]) for key in ("start", "end"))
    assert end - start == timedelta(hours=hours)
    words = " ".join(words_of(chart.drawing))
    assert all(name in words for name in names)
    steps = [chart.x_of(chart.start + timedelta(minutes=30 * number)) for number in range(20)]
    assert max(late - early for early, late in pairwise(steps)) == pytest.approx(steps[1] - steps[0])


@pytest.mark.parametrize(
    ("moment", "shown"),
    [("2026-10-25T00:30", "02:30 CEST"), ("2026-10-25T01:30", "02:30 CET"), ("2026-10-25T02:30", "03:30")],
)
def test_two_moments_of_one_name_are_told_apart(moment: str, shown: str) -> None:
    told = SiteClock(zone=BERLIN.zone).time(datetime.fromisoformat(moment).replace(tzinfo=UTC))

    assert told == shown


@settings(max_examples=100)
@given(
    st.sampled_from(["Europe/Berlin", "America/Santiago", "Australia/Lord_Howe", "America/St_Johns"]),
    st.integers(0, 2 * 365 * 24 * 60),
    st.integers(1, 180),
)
def test_no_two_moments_near_each_other_are_ever_told_alike(zone: str, into_2026: int, minutes: int) -> None:
    clock = SiteClock(zone=ZoneInfo(zone))
    early = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(minutes=into_2026)

    assert clock.time(early) != clock.time(early + timedelta(minutes=minutes))


def test_sunrise_and_sunset_of_new_year_s_day_in_colorado(ask_json: AskJson) -> None:
    # Golden: 07:21:46 and 16:46:50 MST on 1 January 2023; where in the town is not said.
    golden = place(39.755, -105.221, "America/Denver")

    old = ask_json(owner(site=golden), "heights", "--evening", "2022-12-31")["sun"]["rise"]
    new = ask_json(owner(site=golden), "heights", "--evening", "2023-01-01")["sun"]["set"]

    for told, expected in ((old, "2023-01-01T07:21:46-07:00"), (new, "2023-01-01T16:46:50-07:00")):
        assert abs(datetime.fromisoformat(told) - datetime.fromisoformat(expected)) < timedelta(seconds=20)


TOWNS = ("Lucknow", "Agra", "Singapore", "Madrid", "Honolulu", "Apia", "Auckland", "Kathmandu", "Lima")


@pytest.mark.parametrize("town", TOWNS)
@pytest.mark.parametrize("evening", ["2020-04-29", "2020-09-08", "2024-12-31"])
def test_sunset_falls_on_the_evening_s_date_and_sunrise_on_the_next(town: str, evening: str) -> None:
    found = search_places(town)[0]
    site = place(found.latitude_deg, found.longitude_deg, found.time_zone)
    asked = date.fromisoformat(evening)

    sun = compute_night(site, asked, targets=()).sun

    assert sun.set is not None
    assert sun.rise is not None
    assert sun.set.astimezone(site.zone).date() == asked
    assert sun.rise.astimezone(site.zone).date() == asked + timedelta(days=1)
    # Half an hour past midnight "tonight" is still the evening that began the day before.
    past_midnight = datetime.combine(asked + timedelta(days=1), datetime.min.time(), site.zone)
    assert tonight(site, past_midnight + timedelta(minutes=30)) == asked


# Dates that a zone left out when it moved across the date line (IANA time zone data).
@pytest.mark.parametrize(
    ("zone", "skipped"),
    [
        ("Pacific/Apia", "2011-12-30"),
        ("Pacific/Fakaofo", "2011-12-30"),
        ("Pacific/Kiritimati", "1994-12-31"),
        ("Pacific/Enderbury", "1994-12-31"),
        ("Pacific/Kwajalein", "1993-08-21"),
    ],
)
def test_a_date_that_never_was_is_refused_and_its_neighbours_are_not(
    zone: str, skipped: str, ask_json: AskJson, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    site = place(-10.0, -170.0, zone)
    missing = date.fromisoformat(skipped)
    day = timedelta(days=1)

    before = ask_json(owner(site=site), "heights", "--evening", (missing - day).isoformat())
    after = ask_json(owner(site=site), "heights", "--evening", (missing + day).isoformat())

    assert before["end"] == after["start"]
    assert main(["heights", str(tmp_path / "profile.toml"), "--evening", skipped]) == 2
    assert capsys.readouterr().err == (
        f"stillair: --evening: {skipped} does not exist in {zone}: the clocks there skipped that date\n"
    )


def test_a_planet_through_the_zenith_far_from_greenwich(ask_json: AskJson) -> None:
    (saturn,) = (
        body
        for body in ask_json(owner(site=KIRITIMATI), "heights", "--evening", "2026-10-04")["bodies"]
        if body["body"] == "saturn"
    )

    (transit,) = saturn["transits"]
    local = datetime.fromisoformat(transit["time"]).astimezone(KIRITIMATI.zone)
    assert f"{local:%Y-%m-%d %H:%M}" == "2026-10-05 00:22"
    assert transit["altitude_deg"] == pytest.approx(89.9, abs=0.05)
    assert 0 <= transit["azimuth_deg"] < 360


SITE = """schema = 1
[[sites]]
name = "Terrace"
latitude_deg = 20
longitude_deg = 75
time_zone = "{zone}"
"""


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("IST", "Asia/Kolkata"),
        ("Asia/Beijing", "Asia/Shanghai"),
        ("asia/kolkata", "Asia/Kolkata"),
        ("EUROPE/PARIS", "Europe/Paris"),
        ("Mumbai", "Asia/Kolkata"),
        ("Asia/Delhi", "Asia/Kolkata"),
        ("Europe/Munich", "Europe/Berlin"),
        ("America/Boston", "America/New_York"),
        ("New York", "America/New_York"),
        ("Sao Paulo", "America/Sao_Paulo"),
        ("Europe/Berln", "Europe/Berlin"),
        ("Amercia/Denver", "America/Denver"),
        ("PDT", "America/Los_Angeles"),
        ("AEDT", "Australia/Sydney"),
        ("CEST", "Europe/Paris"),
        ("MSK", "Europe/Moscow"),
        ("Eastern Standard Time", "America/New_York"),
    ],
)
def test_a_zone_that_is_none_is_refused_with_the_one_that_was_meant(typed: str, meant: str) -> None:
    with pytest.raises(ProblemsError) as refused:
        loads_profile(SITE.format(zone=typed))

    assert str(refused.value).endswith(f"not '{typed}'; did you mean {meant}?")


# An offset does not say when the clocks change, and a wild guess is worse than none.
@pytest.mark.parametrize("typed", ["UTC+2", "GMT-5", "+05:30", "UTC+5:30", "xyzzy", "", "Etc/Nowhere-at-all"])
def test_no_zone_is_guessed_for_what_names_no_place(typed: str) -> None:
    with pytest.raises(ProblemsError) as refused:
        loads_profile(SITE.format(zone=typed))

    assert str(refused.value).endswith("such as Europe/Lisbon")


@pytest.mark.parametrize("typed", ["Asia/Calcutta", "MST7MDT", "US/Pacific", "Europe/Kiev", "UTC"])
def test_older_names_of_the_iana_data_work(typed: str) -> None:
    (site,) = loads_profile(SITE.format(zone=typed)).sites

    assert evening_span(site, date(2026, 12, 5))[1] - evening_span(site, date(2026, 12, 5))[0] == timedelta(
        days=1
    )


@given(st.text(max_size=20))
def test_any_text_is_a_zone_or_refused_and_never_utc_in_silence(typed: str) -> None:
    if typed in zone_names():
        assert place(0.0, 0.0, typed).time_zone == typed
    else:
        with pytest.raises(ValueError, match="must be the name of an IANA time zone"):
            place(0.0, 0.0, typed)


def test_the_evening_before_a_date_that_never_was_is_whole() -> None:
    night = compute_night(APIA, date(2011, 12, 29))

    assert [body.body for body in night.bodies] == list(TARGETS)
    assert night.end - night.start == timedelta(days=1)
