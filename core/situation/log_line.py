"""What a verdict or a note is written with: all that was in hand when it was given."""

from datetime import datetime

from core.gear.aperture import working_aperture_mm
from core.record.log_entry import LogEntry, UsedGear, Verdict
from core.situation.situation import Situation


def log_line(
    situation: Situation, *, at: datetime, verdict: Verdict | None = None, note: str = ""
) -> LogEntry:
    """Return a line for the log, written at a moment (aware); it carries figures and ids of what was used.

    A verdict is on the step from the rung that was in hand before to the one that is now; without a rung in
    hand there can be none. Raises ValueError where a line would tell nothing.
    """
    site, scope, ladder, rung = situation.site, situation.scope, situation.ladder, situation.rung
    aim, combination = situation.aim, None if rung is None else rung.combination
    eyepiece = None if combination is None else combination.eyepiece
    before = situation.power_before if rung is not None and situation.power_before != rung.power else None
    return LogEntry(
        profile_id=situation.profile.id,
        at=at,
        evening=situation.evening,
        time_zone="UTC" if site is None else site.time_zone,
        site_id="" if site is None else site.id,
        site_name="" if site is None else site.name,
        planet=aim.planet,
        altitude_deg=aim.altitude_deg,
        path=aim.path,
        scope_id="" if scope is None else scope.id,
        scope_name="" if scope is None else scope.name,
        aperture_mm=None if scope is None else working_aperture_mm(scope),
        focal_length_mm=None if scope is None else scope.focal_length_mm,
        eyepiece_id="" if eyepiece is None else eyepiece.id,
        eyepiece_name="" if eyepiece is None else eyepiece.name,
        eyepiece_focal_length_mm=None if combination is None else combination.eyepiece_focal_length_mm,
        barlows=()
        if combination is None
        else tuple(
            UsedGear(id=each.id, name=each.name, figure=each.measured_factor or each.factor)
            for each in combination.barlows
        ),
        filters=()
        if situation.filter_in is None
        else (UsedGear(id=situation.filter_in.id, name=situation.filter_in.name),),
        power=None if rung is None else rung.power,
        from_power=before if verdict is not None else None,
        verdict=verdict,
        ceiling_power=None if ladder is None else ladder.ceiling.power,
        band_low=None if ladder is None or ladder.limits.band is None else ladder.limits.band[0],
        band_high=None if ladder is None or ladder.limits.band is None else ladder.limits.band[1],
        blur_overhead_arcsec=None if ladder is None else ladder.blur.overhead_arcsec,
        blur_source="" if ladder is None else ladder.blur.source.value,
        dispersion_arcsec=aim.dispersion_arcsec,
        mirror_arcsec=None if ladder is None else ladder.limits.mirror_arcsec,
        mirror_is_cooling=situation.mirror_is_cooling(at),
        in_warm_air=aim.through is not None,
        note=note,
    )
