"""Kinds of things owned: one for each list of a profile, named as one speaks of them."""

import pytest

from core.record.structure import KINDS
from core.words.owned_kinds import LISTED, Kind


def test_each_list_of_a_profile_is_a_kind() -> None:
    assert {kind.value for kind in LISTED} == set(KINDS)


@pytest.mark.parametrize("kind", LISTED)
def test_one_of_a_kind_is_named_with_its_article_and_what_is_enough_for_it(kind: Kind) -> None:
    article, _, name = kind.one_more.partition(" ")
    assert article == ("an" if name[0] in "aeiou" else "a")
    assert kind.singular == name
    assert kind.enough.endswith(".")


def test_headings_and_short_names() -> None:
    assert [kind.heading for kind in Kind] == [
        *("Telescopes", "Eyepieces", "Barlows", "Filters", "Sites", "Observer"),
    ]
    assert [kind.short for kind in LISTED] == ["telescope", "eyepiece", "Barlow", "filter", "site"]
