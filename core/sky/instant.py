"""From Unix seconds, in which a time axis counts, to moments."""

from datetime import UTC, datetime, timedelta
from typing import Final

_EPOCH: Final = datetime(1970, 1, 1, tzinfo=UTC)


def instant(unix_s: float) -> datetime:
    """Return the UTC time of Unix seconds, to the nearest millisecond.

    >>> instant(1796504400.0004).isoformat()
    '2026-12-05T21:00:00+00:00'
    """
    return _EPOCH + timedelta(milliseconds=round(float(unix_s) * 1000.0))
