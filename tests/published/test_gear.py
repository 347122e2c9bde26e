"""The arithmetic of telescope and eyepiece against ``data/gear.csv``.

The table names a source on each row: Hecht, Optics; Rutten and van Venrooij, Telescope Optics; Hess 1997,
telescope formulas; Nagler 1991. Rows marked common practice have no primary source.
"""

import re

import pytest

from core.air.blur import Blur
from core.gear.combinations import combinations
from core.gear.eye import Eye
from core.gear.optics import (
    aperture_limit,
    drift_s,
    exit_pupil_mm,
    power,
    true_field_deg,
    true_field_from_apparent_deg,
)
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.aim import aim_overhead
from core.ladder.ladder import build_ladder
from tests.published import tables

ROWS = tables.rows("gear.csv")
SMALL_ANGLE_TOLERANCE = 5e-4  # 57.2958 fs/F against the exact form, at 4 degrees


def rows(quantity: str) -> list[dict[str, str]]:
    chosen = [row for row in ROWS if row["quantity"] == quantity]
    assert chosen, f"no row speaks of {quantity}"
    return chosen


def inputs_of(row: dict[str, str]) -> dict[str, float]:
    return {name: float(value) for name, value in re.findall(r"(\w+)=([\d.]+)", row["inputs"])}


def telescope(aperture_mm: float, focal_length_mm: float) -> Telescope:
    return Telescope(
        name="test", kind=TelescopeKind.REFLECTOR, aperture_mm=aperture_mm, focal_length_mm=focal_length_mm
    )


@pytest.mark.parametrize("row", rows("magnification"), ids=lambda row: row["inputs"])
def test_power_is_focal_length_over_focal_length(row: dict[str, str]) -> None:
    given = inputs_of(row)

    assert power(given["F"], given["f"]) == pytest.approx(float(row["expected"]), abs=5e-5)


@pytest.mark.parametrize("row", rows("magnification with Barlow"), ids=lambda row: row["inputs"])
def test_a_barlow_multiplies_the_power_of_the_whole_combination(row: dict[str, str]) -> None:
    given = inputs_of(row)
    eyepiece = Eyepiece(name="e", focal_length_mm=given["f"])
    barlow = Barlow(name="b", factor=given["B"])

    found = combinations(telescope(100, given["F"]), [eyepiece], [barlow])

    with_barlow = [combination.power for combination in found if combination.barlows]
    assert with_barlow == [pytest.approx(float(row["expected"]), abs=5e-5)]


@pytest.mark.parametrize("row", rows("exit pupil"), ids=lambda row: row["inputs"])
def test_exit_pupil_both_ways(row: dict[str, str]) -> None:
    given = inputs_of(row)
    eyepiece = Eyepiece(name="e", focal_length_mm=given["f"])

    (combination,) = combinations(telescope(given["D"], given["F"]), [eyepiece], [])

    assert combination.exit_pupil_mm == pytest.approx(float(row["expected"]), abs=5e-5)
    assert given["f"] / (given["F"] / given["D"]) == pytest.approx(combination.exit_pupil_mm)


@pytest.mark.parametrize(
    "row", rows("true field from field stop (exact form)"), ids=lambda row: row["inputs"]
)
def test_true_field_from_the_field_stop(row: dict[str, str]) -> None:
    given = inputs_of(row)

    found = true_field_deg(given["fs"], given["F"])

    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


@pytest.mark.parametrize(
    "row", rows("true field from field stop (small-angle form)"), ids=lambda row: row["inputs"]
)
def test_true_field_stays_near_the_published_small_angle_form(row: dict[str, str]) -> None:
    given = inputs_of(row)

    assert true_field_deg(given["fs"], given["F"]) == pytest.approx(
        float(row["expected"]), rel=SMALL_ANGLE_TOLERANCE
    )


def test_true_field_from_the_apparent_field() -> None:
    (row,) = rows("true field from apparent field")
    given = inputs_of(row)

    found = true_field_from_apparent_deg(given["AFOV"], given["M"])

    assert found == pytest.approx(float(row["expected"]))


def test_aperture_limit_is_fifty_per_inch() -> None:
    (row,) = rows("upper magnification rule")

    assert aperture_limit(inputs_of(row)["D"]) == float(row["expected"])


def test_usual_air_holds_any_aperture_at_the_usual_ceiling() -> None:
    (row,) = rows("usual seeing ceiling")
    ladder = build_ladder(
        scope=telescope(500, 2000),
        eyepieces=[],
        barlows=[],
        aim=aim_overhead(),
        blur=Blur(overhead_arcsec=0.2),
    )

    assert ladder.ceiling.power == float(row["expected"])


def test_start_is_the_lowest_power_that_a_seven_millimetre_pupil_takes_in() -> None:
    (row,) = rows("lowest useful magnification")
    aperture_mm, lowest = inputs_of(row)["D"], float(row["expected"])
    powers = {"too wide": lowest * 0.95, "right": lowest * 1.01, "more": lowest * 3}

    ladder = build_ladder(
        scope=telescope(aperture_mm, 650.0),
        eyepieces=[Eyepiece(name=name, focal_length_mm=650.0 / each) for name, each in powers.items()],
        barlows=[],
        eye=Eye(pupil_mm=7.0),
        aim=aim_overhead(),
        blur=Blur.assumed(),
    )

    assert ladder.start == pytest.approx(powers["right"])


def test_two_per_mm_is_half_a_millimetre_of_exit_pupil() -> None:
    (row,) = rows("smallest comfortable exit pupil")

    assert exit_pupil_mm(130, aperture_limit(130)) == float(row["expected"])


def test_focal_ratio() -> None:
    (row,) = rows("focal ratio")
    given = inputs_of(row)

    assert telescope(given["D"], given["F"]).focal_ratio == float(row["expected"])


def test_drift_time_worked_example() -> None:
    """A star at declination +16.5 takes 120 s through 0.481 degrees (worked example, author unknown)."""
    assert drift_s(0.481, 16.5) == pytest.approx(120, abs=0.2)
