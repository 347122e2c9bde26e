"""What the temperatures of an evening mean: first what is still needed to tell it, then all that is known."""

from datetime import UTC, datetime, timedelta

from attrs import evolve

from core.air.temperatures import Temperatures
from core.situation.situation import Situation
from core.words.site_clock import clock_of
from core.words.warmth import as_planned_words, taken_out_words, warmth_sentences
from tests.core.warm_evenings import LENS, SIX, situation

USABLE = "Usable for planets in about"
DAMP = "From about 18:35 the air is so damp that even shaded glass and eyepieces fog over (an estimate)"


def begins(sentences: tuple[str, ...], *beginnings: str) -> bool:
    return len(sentences) == len(beginnings) and all(
        sentence.startswith(beginning) for sentence, beginning in zip(sentences, beginnings, strict=True)
    )


def test_without_the_air_nothing_can_be_told() -> None:
    assert warmth_sentences(situation(None)) == (
        "With the air now, or at dusk, this tells when the telescope has cooled.",
    )


def test_without_a_site_or_a_telescope_there_is_nothing_to_tell_of() -> None:
    found = situation()

    for lacking in ({"sites": ()}, {"telescopes": ()}):
        profile = evolve(found.profile, **lacking)  # type: ignore[arg-type]
        assert warmth_sentences(Situation(evolve(found.choices, profile=profile), found.now)) == ()


def test_without_the_temperature_inside_the_warmth_is_assumed() -> None:
    assert begins(
        warmth_sentences(situation(Temperatures(now_c=5.0))),
        "With the temperature inside, this tells how far the mirror's own warmth still blurs the view.",
        USABLE,
    )


def test_with_all_of_them_it_is_told_when_it_is_ready_and_when_dew_settles() -> None:
    """Six inches in air that falls from 11 to -1 °C; a lens has bare glass in front."""
    assert begins(warmth_sentences(situation()), USABLE, DAMP)
    assert begins(
        warmth_sentences(situation(scope=LENS)),
        "Its lens is usable for planets in about 5 to 15 minutes (an estimate).",
        "Dew settles on the bare front glass from about 17:05, behind a shield from about 17:55",
    )


def test_one_that_nobody_said_to_be_out_is_reckoned_as_planned() -> None:
    later = situation(now=datetime(2026, 12, 5, 20, 0, tzinfo=UTC))
    clock, taken = clock_of(later), later.taken_out_at
    assert clock is not None
    assert taken is not None

    assert taken_out_words(taken, clock) == (
        "The mirror is reckoned as if it was carried out at 16:26, as planned, for nobody has said so."
    )
    assert as_planned_words(taken, clock) == "Out since 16:26, as planned"
    assert begins(
        warmth_sentences(later),
        taken_out_words(taken, clock),
        "The telescope has been outside since 16:26: usable for planets from",
        DAMP,
    )


def test_how_the_ceiling_climbs_as_a_large_mirror_cools_is_told_between_ready_and_dew() -> None:
    """Ten inches carried from 22 °C into 4 or 5: for three hours its warmth costs some of the ceiling."""
    out = datetime(2026, 12, 5, 18, 0, tzinfo=UTC)
    found = situation(
        Temperatures(indoor_c=22.0, now_c=5.0, dusk_c=4.0, lowest_c=0.0),
        scope=evolve(SIX, aperture_mm=254),
        out_since=out,
        now=out + timedelta(minutes=10),
    )

    assert begins(
        warmth_sentences(found),
        "The telescope has been outside since 18:00: usable for planets from",
        "As the mirror cools: about 155x at 20:09, 175x from about 21:10 (an estimate).",
    )
