"""Oppositions, conjunctions and greatest elongations, of two libraries and of printed almanacs.

``phenomena.csv`` (2020 to 2032) has skyfield's times, whose definition is the program's own (apparent
geocentric ecliptic longitude, DE421), and astronomy-engine's, which lines planets up as seen from the Sun:
its rows allow for that. ``phenomena_published.csv`` was read in almanacs and lists, each named in its row.
"""

import re
from datetime import UTC, datetime, timedelta
from functools import cache

import ephem
import pytest

from core.sky.bodies import Body
from core.year.phenomena import Aspect, Phenomenon, find_phenomena
from tests.published.tables import Row, rows, utc

START, END = datetime(2020, 1, 1, tzinfo=UTC), datetime(2033, 1, 1, tzinfo=UTC)
# Half a minute but for planets right behind the Sun: positions read once a day miss how it bends light there.
OF_SKYFIELD = timedelta(minutes=2)
ELONGATION_DEG = 0.003
UNITS = {"min": "minutes", "h": "hours", "d": "days"}


def aspect_of(row: Row) -> Aspect | None:
    words = row["event"].partition(" (")[0]
    return Aspect(words) if words in list(Aspect) else None


ROWS = [row for row in rows("phenomena.csv") if aspect_of(row)]
PUBLISHED = rows("phenomena_published.csv")


@cache
def phenomena(body: Body, start: datetime, end: datetime) -> tuple[Phenomenon, ...]:
    return find_phenomena(body, start, end)


def nearest(row: Row, expected: datetime) -> Phenomenon:
    """Return the phenomenon of the row's kind that is nearest in time."""
    body = Body(row["body"].lower())
    if START <= expected < END:
        found = phenomena(body, START, END)
    else:
        found = find_phenomena(body, expected - timedelta(days=5), expected + timedelta(days=5))
    of_kind = [each for each in found if each.aspect is aspect_of(row)]
    return min(of_kind, key=lambda each: abs(each.time - expected))


def tolerance(row: Row) -> timedelta:
    """Return what a row allows in time; elongations and conjunctions may be told apart."""
    if "elongations" in row["tolerance"] and "conjunction" in row["event"]:
        return timedelta(minutes=30)
    number, unit = re.match(r"([\d.]+) (min|h|d)\b", row["tolerance"]).groups()  # type: ignore[union-attr]  # all do
    return timedelta(**{UNITS[unit]: float(number)})


def test_the_tables_are_whole() -> None:
    assert len(ROWS) == 309
    assert len(PUBLISHED) == 33
    assert all(aspect_of(row) for row in PUBLISHED)


@pytest.mark.parametrize(
    "body", [Body.MERCURY, Body.VENUS, Body.MARS, Body.JUPITER, Body.SATURN, Body.URANUS, Body.NEPTUNE]
)
def test_none_is_missing_and_none_invented(body: Body) -> None:
    expected = sorted(
        (utc(row["skyfield_utc"]), aspect_of(row)) for row in ROWS if row["body"] == body.heading
    )

    found = [each.aspect for each in phenomena(body, START, END) if each.aspect is not Aspect.HALF_LIT]
    assert found == [aspect for _, aspect in expected]


def test_venus_is_half_lit_where_another_library_has_half_of_it_lit() -> None:
    half_lit = [each for each in phenomena(Body.VENUS, START, END) if each.aspect is Aspect.HALF_LIT]

    # Twice in each of its rounds of 584 days (arithmetic).
    assert len(half_lit) == pytest.approx(2 * (END - START).days / 584, abs=1)
    for each in half_lit:
        assert ephem.Venus(each.time).phase == pytest.approx(50.0, abs=0.02), "PyEphem: lit percent"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['body']}-{row['event']}-{row['ae_utc'][:10]}")
def test_times_are_those_of_two_libraries(row: Row) -> None:
    found = nearest(row, utc(row["skyfield_utc"]))

    assert abs(found.time - utc(row["skyfield_utc"])) <= OF_SKYFIELD
    assert abs(found.time - utc(row["ae_utc"])) <= tolerance(row)
    if row["elongation_deg"]:
        assert found.elongation_deg == pytest.approx(float(row["elongation_deg"]), abs=ELONGATION_DEG)


@pytest.mark.parametrize("row", PUBLISHED, ids=lambda row: f"{row['body']}-{row['event']}-{row['time_ut']}")
def test_times_are_those_of_almanacs(row: Row) -> None:
    expected = utc(row["time_ut"])
    found = nearest(row, expected)

    if "T" in row["time_ut"]:
        assert abs(found.time - expected) <= tolerance(row)
    else:
        assert abs((found.time.date() - expected.date()).days) <= 1
    if row["value"]:
        assert found.elongation_deg == pytest.approx(float(row["value"]), abs=0.1)
