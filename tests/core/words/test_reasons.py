"""Why the answer is as it is: the reasons as they are read, whole, and in their order."""

from datetime import date

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.air.readiness import readiness_in_still_air
from core.gear.owned import Stand
from core.ladder.ladder import build_ladder
from core.moments.best_minutes import BestMinutes
from core.record.observer import Preferences, TemperatureUnit
from core.sky.bodies import Body
from core.sky.site import Site
from core.tonight.answer import Answer
from core.words.cooling import readiness_text, time_outside_text
from core.words.reasons import answer_reasons, usual_powers
from core.words.site_clock import SiteClock
from core.words.units import Units
from tests.core.drawing.examples import BINOCULAR, MANY, TWELVE_INCH, aim, ladder
from tests.core.evenings import (
    BEHIND_ROOF,
    FAIRBANKS,
    GOOD,
    IN_THE_NIGHT,
    KIT,
    LISBON,
    OVER_CHIMNEY,
    SIX,
    TROMSO,
    night,
    place,
)
from tests.core.telling import answer, situation_of

BANDS = "The heights of 30° and 45° are rules of thumb."
SUN = "The Sun sets 17:15 and rises 07:40; it gets 74° below the horizon at most."
NO_TELESCOPE = "Without a telescope nothing can be said about power."
BLINDS = "Sunlight through any optics blinds at once."


def test_the_reasons_of_a_usual_evening_in_their_order() -> None:
    """Times and heights as ``test_events.py`` and its like hold them against other libraries."""
    assert answer(night(LISBON, GOOD), planet=Body.SATURN, **KIT).reasons == (
        "Saturn: rises 14:07, highest 20:11 at 52°, sets 02:16.",
        SUN,
        "17:33–18:26: from 30° to 45°, fair.",
        "18:26–21:57: above 45°, best.",
        "21:57–23:35: from 30° to 45°, fair.",
        "23:35–01:22: under 30°, low in thick air.",
        BANDS,
        "At 20:11 Saturn stands at 52°, through 1.3 times the air overhead.",
        (
            "Limits of power there: aperture 300x, usual air 300x, tonight's air (seeing) 221x (blur 1.45″ "
            "overhead, assumed fair), aperture and air together 178x; the lowest is the ceiling."
        ),
        "A ceiling is a rule of thumb: still moments may allow more, a poor hour less.",
        (
            "With this aperture observers use 180x to 225x most on a usual night (common practice); here the "
            "ceiling of about 178x comes first."
        ),
    )
    assert answer(None).reasons == (
        "When and how high a planet stands depends on the place, and no site is known yet.",
    )


@pytest.mark.parametrize(
    ("site", "evening", "planet", "reasons"),
    [
        # Up only while the Sun is.
        (
            FAIRBANKS,
            date(2016, 8, 16),
            Body.MERCURY,
            (
                (
                    f"Do not search for Mercury while the Sun is up. {BLINDS} Whoever must look by day "
                    "stands in the shadow of something solid."
                ),
                "Mercury: highest 15:34 at 27°, sets 21:51, rises 09:20.",
                "The Sun sets 22:05 and rises 05:46; it gets 12° below the horizon at most.",
                (
                    "No window in a dark enough sky and above 10°: up only while the Sun is up too or the "
                    "sky is still too bright."
                ),
            ),
        ),
        (
            TROMSO,
            date(2026, 6, 21),
            Body.SATURN,
            (
                "Saturn: sets 14:21, rises 00:56, highest 07:37 at 24°.",
                "The Sun does not set on this evening.",
                "No window in a dark enough sky and above 10°: never up in a dark sky, for the Sun stays up.",
            ),
        ),
        # 5.9 degrees from the Sun; Jupiter, brighter than any star, is easily taken for it.
        (
            place("London", 51.5, 0.0, "Europe/London"),
            date(2010, 10, 29),
            Body.VENUS,
            (
                (
                    f"Venus stands only 6° west of the Sun: never search for it while any of the Sun is up. "
                    f"{BLINDS}"
                ),
                "Venus: sets 16:55, rises 08:03, highest 12:00 at 20°.",
                "The Sun sets 17:39 and rises 07:50; it gets 52° below the horizon at most.",
                (
                    "No window in a dark enough sky and above 10°: up only while the Sun is up too or the "
                    "sky is still too bright."
                ),
                "What outshines every star 17:39–02:43, in the south, is Jupiter and not Venus.",
                "On this evening Jupiter is better placed: 20:19–23:58.",
            ),
        ),
        (
            OVER_CHIMNEY,
            GOOD,
            Body.SATURN,
            (
                "Saturn: rises 14:07, highest 20:11 at 52°, sets 02:16.",
                SUN,
                "17:33–18:26: from 30° to 45°, fair, through warm air (chimney).",
                "18:26–21:57: above 45°, best, through warm air (chimney).",
                "21:57–23:35: from 30° to 45°, fair, through warm air (chimney).",
                "23:35–01:22: under 30°, low in thick air, through warm air (chimney).",
                BANDS,
                "At 20:11 Saturn stands at 52°, through 1.3 times the air overhead.",
                NO_TELESCOPE,
            ),
        ),
        (
            BEHIND_ROOF,
            GOOD,
            Body.SATURN,
            (
                "Saturn: rises 14:07, highest 20:11 at 52°, sets 02:16.",
                SUN,
                (
                    "No window in a dark enough sky and above 10°: behind blocked sky (roof ridge) whenever "
                    "it is above 10° in a dark sky."
                ),
                "14:07–02:16: behind blocked sky (roof ridge).",
                "On this evening Uranus is better placed: 22:22–01:03.",
            ),
        ),
        (
            place("North", 80.0, 0.0, "UTC"),
            GOOD,
            Body.JUPITER,
            (
                "Jupiter is always up here on this evening: highest 04:58 at 23°.",
                "The Sun does not rise on this evening; it gets 32° below the horizon at most.",
                "12:00–12:14: under 30°, low in thick air.",
                "21:46–12:00: under 30°, low in thick air.",
                BANDS,
                "At 04:58 Jupiter stands at 23°, through 2.5 times the air overhead.",
                NO_TELESCOPE,
            ),
        ),
        (
            place("South", -80.0, 0.0, "UTC"),
            date(2026, 6, 5),
            Body.JUPITER,
            (
                "Jupiter is never up here on this evening: it stays below the horizon all the time.",
                "The Sun does not rise on this evening; it gets 33° below the horizon at most.",
                (
                    "No window in a dark enough sky and above 10°: never up, for it stays at least 11.5° "
                    "below the horizon."
                ),
            ),
        ),
    ],
)
def test_the_reasons_of_an_unusual_evening(
    site: Site, evening: date, planet: Body, reasons: tuple[str, ...]
) -> None:
    assert answer(night(site, evening), planet=planet).reasons == reasons


def test_until_dawn_the_stop_is_told() -> None:
    """Venus, up until dawn; the Sun rises 07:40 and the stop line is ten minutes before."""
    reasons = answer(night(LISBON, GOOD), planet=Body.VENUS).reasons

    assert "Off the planet by 07:30, before sunrise, and cap the telescope." in reasons


def found(answered: Answer | None, unit: TemperatureUnit = TemperatureUnit.CELSIUS) -> tuple[str, ...]:
    units = Units(Preferences(temperature=unit))
    return answer_reasons(answered, SiteClock(zone=LISBON.zone), units=units)


@pytest.mark.parametrize("unit", TemperatureUnit)
def test_when_the_telescope_is_ready_is_told_from_being_carried_out_or_by_the_clock(
    unit: TemperatureUnit,
) -> None:
    readiness = evolve(readiness_in_still_air(SIX), stays_warmer_c=3.0)
    inside = situation_of(night(LISBON, GOOD), planet=Body.SATURN, readiness=readiness, **KIT)
    outside = situation_of(
        night(LISBON, GOOD),
        planet=Body.SATURN,
        readiness=readiness,
        outside_since=IN_THE_NIGHT,
        now=IN_THE_NIGHT,
        **KIT,
    )

    assert readiness_text(readiness, unit=unit) in found(inside.answer, unit)
    clock = SiteClock(zone=LISBON.zone)
    assert time_outside_text(readiness, IN_THE_NIGHT, clock, unit=unit) in found(outside.answer, unit)


def test_a_mount_that_shakes_is_told_with_what_to_try_and_how_to_find_out() -> None:
    def told(stands_on: Stand | None = None, settles_s: float | None = None) -> tuple[str, ...]:
        kit = {**KIT, "scope": evolve(SIX, stands_on=stands_on, settles_s=settles_s)}
        return answer(night(LISBON, GOOD), planet=Body.SATURN, **kit).reasons

    deck = (
        "A deck shakes with every step on it.",
        "Let nobody walk while you judge the view, and try the telescope on the ground once.",
    )

    assert told(stands_on=Stand.DECK)[-3:] == (
        *deck,
        "Tap the tube and count how long the view trembles; entered in Gear, it replaces this guess.",
    )
    assert told(stands_on=Stand.GROUND, settles_s=4.0)[-2:] == (
        "The mount trembles: the view takes about 4 s to rest after a tap.",
        "Keep the legs short and every screw tight, focus with a light hand, and wait 4 s before you judge.",
    )
    assert told(stands_on=Stand.GROUND) == told()


def test_another_planet_is_better_placed_only_where_the_sky_is_what_limits() -> None:
    situation = situation_of(night(LISBON, GOOD), planet=Body.MERCURY)
    mercury = situation.answer
    assert mercury is not None
    better = "On this evening Jupiter is better placed: 02:46–07:30."

    assert found(mercury)[-1] == better
    # Nothing is better placed than what was seen already, and the Moon is no planet.
    over = BestMinutes(windows=night(LISBON, GOOD).of(Body.SATURN).windows[:1], rank=4)
    past = evolve(mercury, prospect=evolve(mercury.prospect, over=over))
    assert better not in found(past)
    assert mercury.prospect.served is not None
    moon = evolve(mercury.prospect, served=evolve(mercury.prospect.served, body=Body.MOON))
    assert not any("better placed" in reason for reason in found(evolve(mercury, prospect=moon)))


USUAL = "With this aperture observers use 122x to 153x most on a usual night (common practice)"
AIR = (
    "With so large an aperture the air decides: 180x to 225x is what observers use most on a usual night "
    "(common practice)"
)


@pytest.mark.parametrize(
    ("aperture_mm", "blur_arcsec", "planet", "sentences"),
    [
        (102, 0.4, Body.JUPITER, [f"{USUAL}."]),
        (102, 3.0, Body.JUPITER, [f"{USUAL}; here the ceiling of about 102x comes first."]),
        # The ladder goes up to 254x, and Jupiter is rarely viewed over 200x, Saturn over 250x.
        (
            305,
            0.4,
            Body.JUPITER,
            [f"{AIR}.", "Jupiter rarely gains from more than 200x (common practice)."],
        ),
        (
            305,
            0.4,
            Body.SATURN,
            [f"{AIR}.", "Saturn rarely gains from more than 250x (common practice)."],
        ),
        (305, 0.4, Body.MARS, [f"{AIR}."]),
        (305, 0.4, None, [f"{AIR}."]),
        (305, 3.0, Body.JUPITER, [f"{AIR}; here the ceiling of about 115x comes first."]),
    ],
)
def test_what_observers_use_with_such_an_aperture_and_on_such_a_planet(
    aperture_mm: float, blur_arcsec: float, planet: Body | None, sentences: list[str]
) -> None:
    """1.2 to 1.5x per mm, and what 150 mm use beyond that (common practice, no source)."""
    which = build_ladder(
        scope=evolve(TWELVE_INCH, aperture_mm=aperture_mm),
        eyepieces=MANY[0],
        barlows=MANY[1],
        aim=aim(60.0, planet),
        blur=Blur(overhead_arcsec=blur_arcsec),
    )

    assert list(usual_powers(which)) == sentences
    assert list(usual_powers(ladder(BINOCULAR))) == []
