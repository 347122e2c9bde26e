"""From the lines of the log to what they teach of the air."""

from collections.abc import Iterable

from core.ladder.belief import Evidence, LineOfSight
from core.record.log_entry import LogEntry, Verdict


def evidence_of(entries: Iterable[LogEntry]) -> tuple[Evidence, ...]:
    """Return the verdicts among lines of the log, in the order of time, as evidence on the air.

    Left out is what was judged without a known step, telescope or air path.
    """
    found = [_evidence(entry) for entry in entries]
    return tuple(sorted((each for each in found if each is not None), key=lambda each: each.unix_s))


def _evidence(entry: LogEntry) -> Evidence | None:
    if entry.verdict is None or entry.verdict is Verdict.CANNOT_TELL:
        return None
    if entry.power is None or entry.from_power is None or entry.aperture_mm is None or entry.path is None:
        return None
    return Evidence(
        unix_s=entry.at.timestamp(),
        line=LineOfSight(
            aperture_mm=entry.aperture_mm,
            path=entry.path,
            dispersion_arcsec=entry.dispersion_arcsec or 0.0,
            mirror_arcsec=entry.mirror_arcsec or 0.0,
        ),
        from_power=entry.from_power,
        to_power=entry.power,
        verdict=entry.verdict,
        filter_in=bool(entry.filters),
        mirror_cooling=entry.mirror_is_cooling,
        warm_air=entry.in_warm_air,
    )
