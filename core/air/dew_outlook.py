"""From when on an evening dew or frost settles on one telescope, as the air cools and its water stays."""

from datetime import datetime, timedelta
from typing import Final

from attrs import frozen

from core.air.dew import DampAir, DewRisk, Shelter
from core.air.mirror import AirCourse
from core.gear.owned import Telescope

_STEP: Final = timedelta(minutes=10)


@frozen(kw_only=True)
class DewOutlook:
    """When something first settles on the glass, and when behind a shield; None where it stays dry.

    ``risk`` is that of the first moment, ``damp_at`` when even shaded glass and eyepieces take dew.
    """

    shelter: Shelter
    wet_at: datetime | None
    risk: DewRisk | None
    shielded_wet_at: datetime | None
    damp_at: datetime | None


def shelter_of(scope: Telescope) -> Shelter:
    """Return what faces the sky: bare front glass, or a mirror down an open tube."""
    return Shelter.BARE if scope.has_lens or scope.is_closed else Shelter.DOWN_A_TUBE


def dew_outlook(
    damp: DampAir, air: AirCourse, *, shelter: Shelter, epoch: datetime, start: datetime, end: datetime
) -> DewOutlook:
    """Return when dew settles between two moments, in steps of 10 minutes; ``air`` counts from ``epoch``."""
    moments = [start + number * _STEP for number in range(max((end - start) // _STEP, 0) + 1)]
    airs = [
        (moment, damp.cooled_to(float(air.at((moment - epoch).total_seconds() / 60.0)))) for moment in moments
    ]

    def first(sheltered: Shelter) -> tuple[datetime, DewRisk] | None:
        risks = ((moment, each.risk(sheltered)) for moment, each in airs)
        return next((found for found in risks if found[1].wet), None)

    own, shielded, damp_air = first(shelter), first(Shelter.SHIELDED), first(Shelter.DOWN_A_TUBE)
    return DewOutlook(
        shelter=shelter,
        wet_at=None if own is None else own[0],
        risk=None if own is None else own[1],
        shielded_wet_at=None if shielded is None else shielded[0],
        damp_at=None if damp_air is None else damp_air[0],
    )
