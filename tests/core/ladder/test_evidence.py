"""From lines of the log to evidence: what each carries along, and which lines are none."""

from datetime import timedelta
from typing import Any

import pytest

from core.ladder.belief import LineOfSight
from core.ladder.evidence import evidence_of
from core.record.log_entry import UsedGear, Verdict
from tests.core.record.log_lines import line


def test_a_line_becomes_evidence_with_its_step_and_its_line_of_sight() -> None:
    (found,) = evidence_of([line(dispersion_arcsec=0.7, mirror_arcsec=0.4)])

    assert (found.from_power, found.to_power, found.verdict) == (150, 240, Verdict.MORE)
    assert found.line == LineOfSight(aperture_mm=150, path=1.3, dispersion_arcsec=0.7, mirror_arcsec=0.4)
    assert found.unix_s == line().at.timestamp()
    assert found.weight == 1.0


# A filter lessens what is taken from it to 0.3, a cooling mirror by half, warm air to nothing (the plan's).
WEIGHTS = [
    ({"filters": (UsedGear(id="f", name="Blue"),)}, 0.3),
    ({"mirror_is_cooling": True}, 0.5),
    ({"mirror_is_cooling": True, "filters": (UsedGear(id="f", name="Blue"),)}, 0.15),
    ({"in_warm_air": True}, 0.0),
    ({"from_power": 240.0}, 0.0),  # no step
]


@pytest.mark.parametrize(("told", "weight"), WEIGHTS)
def test_what_makes_it_weigh_less(told: dict[str, Any], weight: float) -> None:
    (found,) = evidence_of([line(**told)])

    assert found.weight == pytest.approx(weight)


@pytest.mark.parametrize(
    "missing",
    [
        {"from_power": None},
        {"aperture_mm": None},
        {"path": None},
        {"verdict": None, "note": "dew"},
        {"verdict": Verdict.CANNOT_TELL},
    ],
)
def test_what_was_judged_without_a_step_a_telescope_or_an_air_path_is_none(
    missing: dict[str, Any],
) -> None:
    assert evidence_of([line(**missing)]) == ()


def test_evidence_stands_in_the_order_of_time() -> None:
    found = evidence_of([line(9), line(0), line(4)])

    assert [timedelta(seconds=each.unix_s - found[0].unix_s) for each in found] == [
        timedelta(0),
        timedelta(minutes=4),
        timedelta(minutes=9),
    ]
