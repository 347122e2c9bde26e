"""The figures of two telescopes side by side as a table, by hand."""

import pytest
from attrs import evolve

from core.gear.numbers import Unit
from core.ladder.compare import Comparison, compare
from core.ladder.winner import Winner
from core.record.observer import LengthUnit, Preferences
from core.sky.bodies import Body
from core.words.comparison_rows import FigureRow, rows_of
from core.words.units import Units
from tests.core.gear.examples import telescope
from tests.core.ladder.side_by_side import BINOCULARS, comparison, ladder, lens

CLEAR = telescope("Clear", 200, 1000, obstruction_mm=0, driven=True)


def rows(found: Comparison, units: Units | None = None) -> dict[str, FigureRow]:
    return {row.label: row for row in rows_of(found, units or Units(), to_buy=(None, None))}


def test_two_telescopes_in_fair_air_overhead() -> None:
    """Areas as 4 to 1; 116 over the aperture; 232 over 1.045 arcsec; 45 arcsec at 222x are 166 arcmin."""
    found = evolve(comparison(CLEAR, lens(100), 1.45, 90), planet=Body.JUPITER)

    told = {label: (row.a, row.b, row.winner) for label, row in rows(found).items()}

    assert told["Aperture"] == ("200 mm", "100 mm", None)
    assert told["Light, against the other"] == ("4 times", "0.25 times", Winner.A)
    assert told["Resolution (Dawes)"] == ("0.58″", "1.2″", None)
    assert told["Finest detail in this air"] == ("1″", "1.4″", Winner.A)
    assert told["Details across Jupiter"] == ("about 43", "about 31", Winner.A)
    assert told["Jupiter at the ceiling"] == ("166′ across", "120′ across", None)
    # 5 mm, had it been there, would give more; of 25, 10, 6 mm and a 2x the last under the ceiling.
    assert told["Climb to"] == ("200x", "100x", None)
    assert told["Jupiter at that power"] == ("150′ across", "75′ across", None)
    assert told["Lowest power"] == ("40x", "40x", None)
    assert told["Widest field"] == ("1.3°", "1.3°", None)  # 52 over 40; neither is the better
    # 1.3 degrees at 15.041 arcsec a second are 311 s; the other follows the sky.
    assert told["Longest drift through it"] == ("none: driven", "5.2 min", None)
    assert told["Collimation"][1] == "No collimation needed."
    assert told["Collimation"][0].startswith("Check the collimation roughly by day, ")
    assert told["Mirror settled, an estimate"] == ("110 to 225 min", "–", None)
    assert told["What to buy, for many nights"][:2] == ("Nothing", "Nothing")
    assert told["Ceiling"] == (
        "222x, by aperture and air, mostly the air",
        "160x, by aperture and air, mostly the aperture",
        None,
    )
    # 200 and 100 mm, 17 °C over the air: the lens is ready far sooner (the rule of thumb).
    assert told["Usable, an estimate"] == ("25 to 55 min", "10 to 20 min", Winner.B)


def test_below_five_degrees_what_has_no_figure_is_a_dash() -> None:
    told = rows(comparison(BINOCULARS, lens(100), 1.45, 2))

    for label in ("Finest detail in this air", "Ceiling", "Climb to"):
        assert (told[label].a, told[label].b, told[label].winner) == ("–", "–", None)
    assert (told["Widest field"].a, told["Longest drift through it"].a) == ("unknown", "unknown")
    assert told["What to buy, for many nights"].a == "Nothing; its power is built in"


def test_a_built_in_power_under_the_ceiling_is_told_as_such() -> None:
    told = rows(comparison(BINOCULARS, lens(100), 1.45, 90))

    assert told["Ceiling"].a == "20x, built in"
    assert "built in" not in told["Ceiling"].b


def test_without_a_planet_no_disc_is_told() -> None:
    labels = list(rows(compare(ladder(CLEAR), ladder(lens(100)))))

    assert not [label for label in labels if "across" in label or " at " in label]
    assert labels[0] == "Aperture"


@pytest.mark.parametrize(
    ("length", "unit", "words"),
    [(LengthUnit.MM, Unit.MM, "203.2 mm"), (LengthUnit.INCH, Unit.INCH, "8 in")],
)
def test_apertures_are_told_in_the_owners_unit(length: LengthUnit, unit: Unit, words: str) -> None:
    units = Units(Preferences(length=length))
    found = comparison(telescope("Eight", 203.2, 1200), lens(100))

    assert units.length is unit
    assert rows(found, units)["Aperture"].a == words
