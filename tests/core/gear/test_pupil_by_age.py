"""The pupil by age: the table's figures, straight lines between them, and nothing beyond its ends."""

import pytest

from core.gear.pupil_by_age import usual_pupil_mm


# Kadlecová and others 1958, as commonly quoted (from memory).
@pytest.mark.parametrize(
    ("age", "pupil_mm"), [(15, 8.0), (20, 8.0), (35, 6.5), (60, 4.1), (65, 3.65), (80, 2.5), (95, 2.5)]
)
def test_pupils_by_age(age: float, pupil_mm: float) -> None:
    assert usual_pupil_mm(age) == pytest.approx(pupil_mm)
