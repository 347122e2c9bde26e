"""Telescopes picked for a comparison: how they are named, and with which eyepieces they are used."""

from datetime import UTC, date, datetime

import pytest
from attrs import evolve

from core.gear.starter import starter_kits
from core.ladder.contenders import Pick
from core.record.observer import Profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.words.contenders import pick_names, used_with_words
from tests.core.evenings import FULL_BOX, LISBON, SIX

KIT = next(kit for kit in starter_kits() if len(kit.eyepieces_mm) > 1)
OWNER = Profile(sites=(evolve(LISBON, id="s"),), telescopes=(evolve(SIX, id="six"),), eyepieces=FULL_BOX)


def test_a_usual_telescope_is_named_as_one_and_what_is_gone_has_no_name() -> None:
    picks = (Pick("six"), Pick(kit=KIT), Pick("sold"))

    assert pick_names(picks, OWNER) == (
        (picks[0], "reflector"),
        (picks[1], f"Usual: {KIT.telescope.name}"),
        (picks[2], ""),
    )


ONE = next(kit for kit in starter_kits() if len(kit.eyepieces_mm) == 1)


@pytest.mark.parametrize(
    ("usual", "first", "second"),
    [
        (
            True,
            "is used with the {lengths} mm eyepieces that mostly come with it.",
            "is used with the {lengths} mm eyepiece that mostly comes with it.",
        ),
        (False, "is used with your eyepieces.", "is used with your eyepieces."),
    ],
)
def test_with_which_eyepieces_usual_telescopes_are_used(usual: bool, first: str, second: str) -> None:
    choices = Choices(
        profile=OWNER,
        evening=date(2026, 12, 5),
        first=Pick(kit=KIT),
        second=Pick(kit=ONE),
        with_usual_eyepieces=usual,
    )
    words = used_with_words(Situation(choices, datetime(2026, 12, 5, 21, tzinfo=UTC)))

    *most, last = (f"{length:g}" for length in KIT.eyepieces_mm)
    several, single = f"{', '.join(most)} and {last}", f"{ONE.eyepieces_mm[0]:g}"
    assert words == (
        f"{KIT.telescope.name} {first.format(lengths=several)} "
        f"{ONE.telescope.name} {second.format(lengths=single)}"
    )


def test_of_telescopes_that_are_owned_nothing_is_said() -> None:
    choices = Choices(profile=OWNER, evening=date(2026, 12, 5), second=Pick("six"))

    assert used_with_words(Situation(choices, datetime(2026, 12, 5, 21, tzinfo=UTC))) == ""
