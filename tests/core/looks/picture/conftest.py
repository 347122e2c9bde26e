"""Planets in an eyepiece: where they stood at times that show much."""

import pytest

from core.looks.picture.subject import Subject, subject_at
from core.sky.bodies import Body
from tests.core.looks.picture.kits import utc


@pytest.fixture(scope="module")
def jupiter() -> Subject:
    # Io's shadow is on the disc, Io itself to the east of it.
    return subject_at(Body.JUPITER, utc("2026-11-24T03:00:00"), red_spot_longitude_deg=330.0)


@pytest.fixture(scope="module")
def saturn() -> Subject:
    return subject_at(Body.SATURN, utc("2029-11-24T03:00:00"))
