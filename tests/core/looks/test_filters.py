"""Filters: numbers however written, cautions, and what stays unknown."""

import pytest

from core.gear.owned import Filter
from core.looks.filters import wratten_table
from core.looks.owned_filters import facts_of, is_dark, transmittance_of, used_as
from core.sky.bodies import Body
from core.words.cautions import FILTER_BY_DAY, filter_caution
from core.words.filters import kept_for_larger_text


@pytest.mark.parametrize("written", ["82A", "82a", "#82A", "No. 82 A", "W82A", "Wratten 82A"])
def test_a_wratten_number_however_written(written: str) -> None:
    facts = facts_of(Filter(name="Light blue", wratten=written))

    assert facts is not None
    assert facts.wratten == "82A"


def test_an_owners_own_transmittance_stands() -> None:
    assert transmittance_of(Filter(name="Moon filter", transmittance=0.13)) == 0.13


def test_an_unknown_number_stays_unknown() -> None:
    unknown = Filter(name="Odd", wratten="999Z")

    assert facts_of(unknown) is None
    assert transmittance_of(unknown) is None
    assert kept_for_larger_text(unknown, 60) is None


def test_deep_red_and_blue_are_for_larger_apertures() -> None:
    """Common practice: 25 and 38A from about 200 mm up, 82A on anything."""
    red = Filter(name="Red", wratten="25")

    assert kept_for_larger_text(red, 114) == (
        "Red passes 14% of the light and is usually kept for apertures from 200 mm up, a rule of thumb."
    )
    assert kept_for_larger_text(red, 200) is None
    assert kept_for_larger_text(Filter(name="Deep blue", wratten="38A"), 150) is not None
    assert kept_for_larger_text(Filter(name="Light blue", wratten="82A"), 60) is None


def test_uses_are_told_by_body() -> None:
    uses = {use.body: use.what for use in wratten_table()["25"].uses}

    assert uses[Body.MARS] == "surface markings, dust clouds, the edge of the polar cap"
    assert Body.NEPTUNE not in uses


def test_filters_named_for_daylight_carry_the_caution_and_only_they() -> None:
    for facts in wratten_table().values():
        speaks_of_day = any("day" in use.what for use in facts.uses)
        assert facts.daylight == speaks_of_day
    assert "never sweep near the Sun" in FILTER_BY_DAY


@pytest.mark.parametrize(
    ("owned", "dark"),
    [
        (Filter(name="Neutral", transmittance=0.5), True),
        (Filter(name="Deep blue", wratten="38A"), True),
        (Filter(name="Red", wratten="25"), True),
        (Filter(name="Light blue", wratten="82A"), False),
        (Filter(name="Of no table", wratten="999"), False),
    ],
)
def test_a_neutral_or_dark_filter_is_told_to_be_no_use_against_the_sun(owned: Filter, dark: bool) -> None:
    assert is_dark(owned) == dark
    caution = filter_caution(is_dark=dark)
    assert caution.startswith("No filter here makes the Sun safe to look at")
    assert ("neutral or a dark one" in caution) == dark


@pytest.mark.parametrize(
    ("owned", "number"),
    [
        (Filter(name="Red", wratten="25A"), "25"),
        (Filter(name="Light blue", transmittance=0.7), "82A"),
        (Filter(name="Moon filter", transmittance=0.25), "96-0.9"),
        (Filter(name="Φίλτρο Σελήνης", transmittance=0.13), "96-0.9"),
        (Filter(name="Clear glass", transmittance=0.9), None),
        (Filter(name="Odd", wratten="999Z"), None),
    ],
)
def test_a_filter_is_used_like_its_number_else_its_name_else_as_neutral_if_dark(
    owned: Filter, number: str | None
) -> None:
    facts = used_as(owned)

    assert (None if facts is None else facts.wratten) == number
