"""How a planet looks at a moment: where it stands, the facts in a line, its moons, and why no picture."""

from datetime import UTC, date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from attrs import evolve

from core.air.dispersion import Dispersion
from core.ladder.aim import Refusal
from core.looks.happenings import Happenings
from core.looks.picture.subject import Subject, subject_at
from core.looks.planet_appearance import PlanetAppearance
from core.sky.bodies import Body
from core.sky.moons import Moon, MoonEvent, MoonEventKind, MoonPosition
from core.sky.site import Site
from core.sky.track import Position
from core.words.looks import (
    air_words,
    brief_words,
    facts,
    heading_words,
    no_picture_words,
    paragraphs,
    standing_words,
)
from core.words.site_clock import SiteClock
from tests.core.drawing.examples import NONE, aim, ladder

CLOCK = SiteClock(zone=ZoneInfo("Europe/Lisbon"))
AT = datetime(2026, 12, 5, 21, 30, tzinfo=UTC)
SITE = Site(name="Yard", latitude_deg=38.72, longitude_deg=-9.14, time_zone="Europe/Lisbon")
UP = Position(
    time=AT,
    altitude_deg=44.0,
    azimuth_deg=180.0,
    apparent_altitude_deg=44.0,
    path=1.44,
    declination_deg=0.0,
)
TOO_LOW = evolve(UP, altitude_deg=3.0, apparent_altitude_deg=3.2, path=None)
SPREAD = Dispersion(arcsec=1.26, altitude_deg=44.0, blue_nm=450.0, red_nm=650.0)


def looks(body: Body = Body.SATURN, *, disc: dict[str, Any] | None = None, **given: Any) -> PlanetAppearance:  # noqa: ANN401
    subject = subject_at(body, AT)
    bare = PlanetAppearance(
        site=SITE,
        evening=date(2026, 12, 5),
        planet=body,
        time=AT,
        aim=evolve(aim(planet=body), at=AT),
        position=UP,
        subject=evolve(subject, disc=evolve(subject.disc, **(disc or {}))),
    )
    return evolve(bare, **given)


NOTHING = evolve(aim(), at=None, refusal=Refusal.NOT_BY_DAY)


def test_the_heading_has_the_moment_or_the_evening_where_nothing_is_offered() -> None:
    assert heading_words(looks(Body.MOON), CLOCK) == "The Moon at 21:30, Sat 5 December 2026"
    # After midnight it is another day than the evening's.
    after = looks(time=AT + timedelta(hours=4))
    assert heading_words(after, CLOCK) == "Saturn at 01:30, Sun 6 December 2026"
    assert heading_words(evolve(after, aim=NOTHING), CLOCK) == (
        "Saturn, evening of Sat 5 December 2026: nothing is offered"
    )


@pytest.mark.parametrize(
    ("position", "words"),
    [
        (UP, "It stands 44° high in the south, 1.4 times the air overhead."),
        (TOO_LOW, "It stands 3° high in the south: too low to look."),
        (evolve(TOO_LOW, altitude_deg=0.0), "It stands 0° high in the south: too low to look."),
        (evolve(TOO_LOW, altitude_deg=-0.1), "It is below the horizon at this time."),
    ],
)
def test_where_it_stands(position: Position, words: str) -> None:
    assert standing_words(looks(position=position)) == words


def test_without_a_moment_the_figures_are_of_its_highest() -> None:
    assert standing_words(looks(aim=NOTHING)) == (
        "The figures are those of the moment at which it stands highest."
    )


def test_without_a_picture_the_reason_stands_there() -> None:
    refused = evolve(aim(), refusal=Refusal.NOT_BY_DAY)
    by_day = "Saturn is not to be seen by day: the Sun is up."

    assert no_picture_words(None) == (
        "Choose a site and a planet, and this page shows how the planet looks in the telescope."
    )
    assert no_picture_words(looks(aim=refused)) == by_day
    # With the words of safety that belong to the moment.
    assert no_picture_words(looks(aim=evolve(refused, sunrise_is_near=True))) == (
        f"{by_day} The Sun rises within minutes: off the planet, and cap the telescope and its finder."
    )
    assert no_picture_words(looks(ladder=ladder(kit=NONE))) == (
        "Add an eyepiece in Gear, and the powers that it gives Six-inch appear here."
    )
    for appearance in (
        looks(position=TOO_LOW, ladder=ladder(kit=NONE)),
        looks(position=TOO_LOW),
        looks(ladder=ladder()),
    ):
        assert no_picture_words(appearance) == (
            "It stands too low for a picture: no one can say what that much air does."
        )


@pytest.mark.parametrize(
    ("lit", "percent"), [(0.984, "98% lit"), (0.985, None), (0.5, "50% lit"), (1.0, None)]
)
def test_in_a_line_the_phase_is_told_unless_nearly_all_is_lit(lit: float, percent: str | None) -> None:
    words = brief_words(looks(Body.MARS, disc={"illuminated_fraction": lit}), CLOCK)

    assert ("lit" in words) is (percent is not None)
    assert percent is None or percent in words.split(" · ")


def test_in_a_line_the_planet_is_named_unless_a_heading_names_it() -> None:
    named, unnamed = (brief_words(looks(), CLOCK, is_named=named) for named in (True, False))

    assert named == f"Saturn: {unnamed}"


def test_in_a_line_what_only_some_have() -> None:
    lines = {
        body: brief_words(looks(body), CLOCK)
        for body in (Body.JUPITER, Body.SATURN, Body.MARS, Body.MOON, Body.VENUS)
    }

    assert [body for body, words in lines.items() if "· ring " in words] == [Body.SATURN]
    assert [body for body, words in lines.items() if "in the north" in words] == [Body.MARS]
    assert [body for body, words in lines.items() if "towards us" in words] == [Body.MARS]
    assert [body for body, words in lines.items() if "day meets night" in words] == [Body.MOON]
    # New Moon was on 9 December 2026 (any almanac).
    assert "waning crescent" in lines[Body.MOON].lower()
    assert all("magnitude" in words for words in lines.values())


@pytest.mark.parametrize(
    ("body", "line"),
    [
        # Systems I and II, whose turn can be seen; the third is that of radio.
        (Body.JUPITER, "39.8″ wide, 37.2″ high · magnitude −2.2 · central meridian I 328°, II 141°"),
        (
            Body.SATURN,
            "18.5″ wide, 16.7″ high · magnitude 0.6 · ring 6.1° open · central meridian I 32°, III 59°",
        ),
        (
            Body.MARS,
            (
                "8.3″ wide · 90% lit · magnitude 0.4 · central meridian 87° · north pole 22.9° towards us · "
                "mid spring in the north"
            ),
        ),
        (
            Body.MOON,
            (
                "30.1′ wide · 9% lit · magnitude −7.2 · waning crescent · day meets night at 50° west, the "
                "Sun sets there (colongitude 230°)"
            ),
        ),
        (Body.VENUS, "36.3″ wide · 32% lit · magnitude −4.8"),
    ],
)
def test_the_looks_in_a_line(body: Body, line: str) -> None:
    """5 December 2026, 21:30 UT; ``test_disc.py`` and its like hold the figures against tables."""
    assert brief_words(looks(body), CLOCK, is_named=False) == line


def test_in_a_line_the_next_thing_comes_last() -> None:
    event = MoonEvent(
        moon=Moon.IO,
        kind=MoonEventKind.TRANSIT,
        start=AT + timedelta(minutes=20),
        end=AT + timedelta(hours=2),
        start_seen=True,
        end_seen=True,
    )
    words = brief_words(looks(Body.JUPITER, happenings=Happenings(events_to_see=(event,))), CLOCK)

    assert words.split(" · ")[-1].startswith("Io")
    assert "21:50–23:30" in words


def moon(which: Moon, x_radii: float, **seen: bool) -> MoonPosition:
    return MoonPosition(
        moon=which,
        x_radii=x_radii,
        y_radii=0.0,
        z_radii=1.0,
        in_transit=seen.get("in_transit", False),
        occulted=seen.get("occulted", False),
        eclipsed=seen.get("eclipsed", False),
        shadow_x_radii=None,
        shadow_y_radii=None,
    )


def moons_fact(*moons: MoonPosition) -> list[str]:
    subject: Subject = evolve(subject_at(Body.JUPITER, AT), moons=moons)
    return dict(facts(subject))["moons, east to west"].split(", ")


def test_the_moons_stand_from_east_to_west_with_jupiter_among_them() -> None:
    """Places are counted towards the west."""
    told = moons_fact(
        moon(Moon.IO, 0.5), moon(Moon.EUROPA, -9.0), moon(Moon.GANYMEDE, 14.0), moon(Moon.CALLISTO, -0.5)
    )

    assert told == ["Europa", "Callisto", "Jupiter", "Io", "Ganymede"]


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        ({}, None),
        ({"in_transit": True}, "on the disc"),
        ({"occulted": True}, "behind"),
        ({"eclipsed": True}, "in shadow"),
        ({"eclipsed": True, "occulted": True}, "behind"),
        ({"in_transit": True, "eclipsed": True}, "on the disc"),
    ],
)
def test_where_a_moon_is_not_free_beside_jupiter_that_is_told(
    seen: dict[str, bool], words: str | None
) -> None:
    (name,) = [each for each in moons_fact(moon(Moon.IO, 0.5, **seen)) if each.startswith("Io")]

    assert name == ("Io" if words is None else f"Io ({words})")


def test_the_colours_that_the_air_parts() -> None:
    spread = "The air spreads its colours by 1.26″ (450 to 650 nm), blue up, red down."
    low = evolve(SPREAD, altitude_deg=15.0)

    assert air_words(looks()) == ""
    assert air_words(looks(dispersion=SPREAD)) == spread
    assert air_words(looks(dispersion=SPREAD, dispersion_limits=True)) == (
        f"{spread} At this height that, more than telescope and air, is what hides detail."
    )
    assert air_words(looks(dispersion=low)) == (
        f"{spread} A yellow filter (8, 12 or 15) cuts that by about 28%."
    )


def test_all_that_is_known_starts_with_the_cautions_and_ends_with_the_air() -> None:
    clear = list(paragraphs(looks(dispersion=SPREAD), CLOCK))
    near = list(paragraphs(looks(aim=evolve(aim(), at=AT, sunrise_is_near=True)), CLOCK))

    assert clear[0].startswith("Disc: ")
    assert clear[-1] == air_words(looks(dispersion=SPREAD))
    assert near[0].startswith("Caution: ")
    assert near[1].startswith("Disc: ")
    assert "nm" not in near[-1]
