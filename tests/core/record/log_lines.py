"""Lines of a log for tests; the observer, the site and the kit are invented."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

from core.record.log_entry import LogEntry, UsedGear, Verdict
from core.sky.bodies import Body

PROFILE = "3f0c1f6e-8a54-4d0b-9d3c-5e2f7a61b0d4"
OTHER_PROFILE = "9a0c1f6e-8a54-4d0b-9d3c-5e2f7a61b0d4"
_NINE = datetime(2026, 12, 5, 21, 4, tzinfo=UTC)


def line(minutes: float = 0.0, **others: Any) -> LogEntry:  # noqa: ANN401
    """Return a verdict on Saturn so many minutes after four past nine."""
    told: dict[str, Any] = {
        "profile_id": PROFILE,
        "at": _NINE + timedelta(minutes=minutes),
        "evening": date(2026, 12, 5),
        "time_zone": "Europe/Lisbon",
        "site_id": "terrace",
        "site_name": "Back terrace",
        "planet": Body.SATURN,
        "altitude_deg": 50.2,
        "path": 1.3,
        "scope_id": "six",
        "scope_name": "Six-inch reflector",
        "aperture_mm": 150.0,
        "focal_length_mm": 1200.0,
        "eyepiece_name": "10 mm",
        "eyepiece_focal_length_mm": 10.0,
        "barlows": (UsedGear(id="b2", name="2x", figure=2.0),),
        "power": 240.0,
        "from_power": 150.0,
        "verdict": Verdict.MORE,
    }
    return LogEntry(**(told | others))
