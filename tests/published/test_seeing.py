"""Blur with height, resolution and filters against ``data/seeing.csv`` and ``data/filters.csv``.

Sources stand on each row: Fried 1966, JOSA 56, 1372; Roddier 1981, Progress in Optics 19, 281; an
observatory's exposure-time documentation; Dawes 1867; Rayleigh 1879; A. C. Peed, Transmission of Wratten
Filters; MacAdam 1945, JOSA 35, 670.
"""

import re

import numpy as np
import pytest

from core.air.blur import blur_at
from core.air.finest_detail import finest_detail
from core.gear.optics import aperture_limit, dawes_arcsec
from core.gear.owned import Filter
from core.looks.filters import wratten_table
from core.looks.owned_filters import facts_of, transmittance_of
from tests.published import tables

ROWS = tables.rows("seeing.csv")
FILTER_ROWS = tables.rows("filters.csv")


def rows(topic: str) -> list[dict[str, str]]:
    chosen = [row for row in ROWS if row["topic"] == topic]
    assert chosen, f"no row speaks of {topic}"
    return chosen


def given(row: dict[str, str], name: str) -> float:
    match = re.search(rf"\b{name}=([\d.]+)", row["inputs"])
    assert match is not None
    return float(match[1])


@pytest.mark.parametrize("row", rows("Kolmogorov airmass scaling"), ids=lambda row: row["inputs"])
def test_blur_grows_with_the_path(row: dict[str, str]) -> None:
    assert blur_at(1.0, given(row, "X")) == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


def test_an_array_of_paths_gives_what_single_paths_give() -> None:
    paths = np.array([given(row, "X") for row in rows("Kolmogorov airmass scaling")])

    assert blur_at(1.45, paths) == pytest.approx([blur_at(1.45, float(path)) for path in paths])


@pytest.mark.parametrize("row", rows("Dawes limit"), ids=lambda row: row["inputs"])
def test_dawes_limit(row: dict[str, str]) -> None:
    assert dawes_arcsec(given(row, "D")) == pytest.approx(float(row["expected"]), rel=0.01)


@pytest.mark.parametrize("aperture_mm", [60.0, 114.3, 150.0, 254.0])
def test_perfect_air_bears_what_the_aperture_allows(aperture_mm: float) -> None:
    """The rule that ties 232 arcsec to 2x per mm (common practice, no source)."""
    perfect = finest_detail(aperture_mm=aperture_mm, blur_arcsec=0.0)

    assert perfect.power == pytest.approx(aperture_limit(aperture_mm))


@pytest.mark.parametrize("row", FILTER_ROWS, ids=lambda row: row["wratten_no"])
def test_luminous_transmittance_of_a_wratten_filter(row: dict[str, str]) -> None:
    owned = Filter(name="test", wratten=row["wratten_no"])

    transmittance = transmittance_of(owned)

    assert transmittance is not None
    tolerance = 0.005 if row["wratten_no"] == "47" else 0.01
    assert transmittance == pytest.approx(
        float(row["luminous_transmittance_pct_illum_C"]) / 100, abs=tolerance
    )
    if row["macadam_1945_Y_pct"]:
        assert transmittance == pytest.approx(float(row["macadam_1945_Y_pct"]) / 100, abs=0.01)


@pytest.mark.parametrize("row", FILTER_ROWS, ids=lambda row: row["wratten_no"])
def test_filter_uses_name_the_bodies_that_observers_name(row: dict[str, str]) -> None:
    """Common practice: amateur society guides, as gathered in the table."""
    facts = facts_of(Filter(name="test", wratten=row["wratten_no"]))
    assert facts is not None
    named = {
        word.lower() for word in re.findall(r"Mercury|Venus|Mars|Jupiter|Saturn|Moon", row["planet_uses"])
    }

    # "as 58, darker" names no body of its own.
    if row["wratten_no"] != "61":
        assert {use.body.value for use in facts.uses} == named


@pytest.mark.parametrize("row", FILTER_ROWS, ids=lambda row: row["wratten_no"])
def test_smallest_aperture_is_the_usual_one(row: dict[str, str]) -> None:
    """Common practice; where the table gives a range the lower end stands."""
    facts = facts_of(Filter(name="test", wratten=row["wratten_no"]))
    assert facts is not None
    match = re.search(r"\d+", row["usual_min_aperture"])

    assert facts.smallest_aperture_mm == (float(match[0]) if match else 0.0)


def test_every_filter_of_the_program_is_in_the_published_table() -> None:
    assert set(wratten_table()) == {row["wratten_no"] for row in FILTER_ROWS}
