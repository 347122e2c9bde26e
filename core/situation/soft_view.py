"""What is known of the view in hand when somebody asks why it is soft."""

from datetime import datetime

from core.air.blur import blur_at
from core.gear.aperture import working_aperture_mm
from core.situation.situation import Situation
from core.tonight.soft_view import KnownOfView


def known_of_view(situation: Situation) -> KnownOfView | None:
    """Return what the situation tells of the view at the rung in hand, None without a telescope."""
    scope, ladder, rung = situation.scope, situation.ladder, situation.rung
    if scope is None or ladder is None:
        return None
    aim, path = ladder.aim, ladder.aim.path
    blur_arcsec = None if path is None else float(blur_at(ladder.blur.overhead_arcsec, path))
    is_known_warm = situation.outside_since is not None or situation.mirror_course is not None
    days = None
    if scope.collimated_on is not None:
        days = float((situation.evening - scope.collimated_on).days)
    return KnownOfView(
        kind=scope.kind,
        aperture_mm=working_aperture_mm(scope),
        focal_ratio=scope.focal_ratio,
        standing=None if rung is None else rung.standing,
        exit_pupil_mm=None if rung is None else rung.exit_pupil_mm,
        altitude_deg=aim.altitude_deg,
        in_warm_air=aim.through is not None,
        is_cooling=situation.mirror_is_cooling(aim.at or situation.now) if is_known_warm else None,
        mirror_share=ladder.limits.mirror_arcsec / blur_arcsec if blur_arcsec else 0.0,
        blur_arcsec=blur_arcsec,
        is_wet=_is_wet(situation, aim.at or situation.now),
        days_since_collimation=days,
        stands_on=scope.stands_on,
        settles_s=scope.settles_s,
        glasses=situation.profile.eye.glasses,
        astigmatism=situation.profile.eye.astigmatism,
    )


def _is_wet(situation: Situation, moment: datetime) -> bool | None:
    dew = situation.dew
    if dew is None:
        return None
    return dew.wet_at is not None and dew.wet_at <= moment
