"""Whose optics must be kept aligned, how exactly, and when a check is due.

That fast mirrors are checked each evening and the tolerance goes with the cube of the focal ratio is common
practice, no source; the fortnight and the quarter of a year of the others are ours.
"""

from datetime import date, timedelta

import pytest

from core.gear.collimation import Collimation, collimation_of, is_check_due
from core.gear.owned import Telescope, TelescopeKind
from tests.core.gear.examples import fixed, refractor, telescope

EVENING = date(2026, 12, 5)
FAST, JUST_SLOW, SLOW = telescope("f/4.9", 200, 980), telescope("f/5", 200, 1000), telescope("f/8", 150, 1200)
CLOSED = telescope("Closed", 203, 2030, TelescopeKind.CATADIOPTRIC)
LENS = refractor("Lens", 100, 500)


@pytest.mark.parametrize(
    ("scope", "expected"),
    [
        (LENS, Collimation(is_needed=False)),
        (fixed(power=20), Collimation(is_needed=False)),
        (CLOSED, Collimation(is_needed=True)),
        (SLOW, Collimation(is_needed=True)),
        # Half the focal ratio of f/8, an eighth of its tolerance.
        (telescope("f/4", 200, 800), Collimation(is_needed=True, focal_ratio=4.0, times_as_exact=8.0)),
    ],
)
def test_how_exactly_it_is_to_be_kept(scope: Telescope, expected: Collimation) -> None:
    assert collimation_of(scope) == expected


# Days since the last check, None where none is noted, and whether one is due.
CHECKS = [
    (FAST, 0, False),
    (FAST, 1, True),
    (JUST_SLOW, 1, False),
    (SLOW, 14, False),
    (SLOW, 15, True),
    (CLOSED, 90, False),
    (CLOSED, 91, True),
    (LENS, None, False),
    (LENS, 1000, False),
    (SLOW, None, True),
    (CLOSED, None, True),
]


@pytest.mark.parametrize(("scope", "days", "is_due"), CHECKS)
def test_when_a_check_is_due(scope: Telescope, days: int | None, is_due: bool) -> None:
    checked_on = None if days is None else EVENING - timedelta(days=days)
    noted = telescope(
        scope.name, scope.aperture_mm, scope.focal_length_mm, scope.kind, collimated_on=checked_on
    )

    assert is_check_due(noted, EVENING) is is_due
