"""What to prepare before the first look, in sentences."""

import math
from datetime import timedelta
from typing import Final

from core.air.dew import Shelter
from core.gear.owned import Stand
from core.record.observer import TemperatureUnit
from core.tonight.preparation import FINDER_FROM_SUN_DEG
from core.tonight.steps import (
    CarryOutItem,
    CollimationItem,
    DewItem,
    FinderItem,
    KitItem,
    PlaceItem,
    SettledItem,
)
from core.words.cautions import FILTERS_AND_SUN, HEATERS
from core.words.cooling import readiness_text, time_outside_text
from core.words.dates import date_text
from core.words.dew import dew_text, temperature_text
from core.words.directions import compass_text
from core.words.names import listed
from core.words.quantities import angle_text
from core.words.site_clock import SiteClock

_KIT: Final = "Lay out a seat, the eyepiece case, a red light, warm clothes and something to write on."
_KIT_WITH_FILTERS: Final = (
    "Lay out a seat, the eyepiece case with the filters, a red light, warm clothes and something to write "
    "on. {filters_and_sun}"
)
_COLLIMATION: Final = (
    "Check the collimation roughly, indoors or in the shade and never towards the Sun; no date of the last "
    "check is noted. A star test follows when the telescope has cooled."
)
_COLLIMATION_AGAIN: Final = (
    "Check the collimation roughly, indoors or in the shade and never towards the Sun; it was last checked "
    "on {day}. A star test follows when the telescope has cooled."
)
_FINDER_BY_DAY: Final = (
    "Align the finder in daylight on something distant on the ground, more than {from_sun} from the Sun: "
    "the Sun is in the {sun_at}, so nothing between azimuths {left} and {right}. End by {end}. "
    "Never turn telescope or finder towards the Sun: it blinds at once. Cap both again afterwards."
)
_FINDER_BEFORE_OUT: Final = (
    "Take the telescope out for half an hour to align the finder in daylight on something distant on the "
    "ground, more than {from_sun} from the Sun: the Sun is in the {sun_at}, so nothing between azimuths "
    "{left} and {right}. End by {end}. Never turn telescope or finder towards the Sun: it blinds at once. "
    "Cap both again afterwards."
)
_FINDER_BY_NIGHT: Final = "Align the finder on a distant lamp or a bright star, at low power first."
# By what the telescope stands on.
_PLACES: Final = {
    Stand.GROUND: (
        "Choose grass rather than asphalt or concrete, which give off the day's heat for hours; keep away "
        "from vents, open windows and hot tubs."
    ),
    Stand.DECK: (
        "A deck shakes with every step on it: let nobody walk while you look, and try the telescope on the "
        "ground once."
    ),
    Stand.BALCONY: (
        "A balcony shakes with every step on it: let nobody walk while you look. Shut doors and windows, so "
        "that the room's warm air does not pass in front of the telescope."
    ),
}
_WARM_ABOVE: Final = "Warm air rises from {things}: stand where you look across as little of it as you can."
_CARRY_OUT: Final = "Carry the telescope out by {out} for {body} at {first_look}. {readiness}"
_CARRY_OUT_BY_DAY: Final = (
    "Carry the telescope out by {out} for {body} at {first_look}. "
    "Until sunset it stands in the shade with its caps on. {readiness}"
)
# When its time went by. By whether the Sun is up still.
_CARRY_OUT_LATE: Final = (
    (
        "Carry the telescope out now: it becomes usable for planets some time between {low} and {high} (an "
        "estimate). If it stands outside already, say so."
    ),
    (
        "Carry the telescope out now, into the shade with its caps on until sunset: it becomes usable for "
        "planets some time between {low} and {high} (an estimate). If it stands outside already, say so."
    ),
)
_CARRY_OUT_LATE_AND: Final = (
    "Carry the telescope out now. {readiness} If it stands outside already, say so.",
    (
        "Carry the telescope out now, into the shade with its caps on until sunset. {readiness} If it stands "
        "outside already, say so."
    ),
)
# In few words, and in fewer where there is little room; by whether the Sun is up still.
_CARRY_OUT_BRIEFLY: Final = (
    ("Carry the telescope out by {out}.", "Carry out by {out}."),
    (
        "Carry the telescope out by {out}, into the shade with its caps on until sunset.",
        "Carry the telescope out by {out}.",
        "Carry out by {out}.",
    ),
)
_CARRY_OUT_NOW_BRIEFLY: Final = (
    (
        "Carry the telescope out now: it is likely usable at about {likely} (an estimate).",
        "Carry the telescope out now: usable about {likely}.",
        "Carry the telescope out now.",
        "Carry out now.",
    ),
    (
        (
            "Carry the telescope out now, into the shade with its caps on until sunset: it is likely usable "
            "at about {likely} (an estimate)."
        ),
        "Carry the telescope out now: it is likely usable at about {likely} (an estimate).",
        "Carry the telescope out now: usable about {likely}.",
        "Carry the telescope out now.",
        "Carry out now.",
    ),
)
# Of one that never comes close to the air's temperature.
_CARRY_OUT_NOW_ALL_THE_SAME: Final = (
    ("Carry the telescope out now.", "Carry out now."),
    (
        "Carry the telescope out now, into the shade with its caps on until sunset.",
        "Carry the telescope out now.",
        "Carry out now.",
    ),
)
_OUTSIDE_BY_DAY: Final = "{outside} Until sunset it stands in the shade with its caps on."
COVERS_WORDS: Final = (
    "Once the Sun is down, take the cover off the finder and the whole front cover off the telescope, not "
    "only the small lid in it."
)
_DEW_UNKNOWN: Final = (
    "Put the dew shield on when the telescope has cooled a while, before the front glass is damp; gentle "
    "heat only after that. {heaters} With temperatures and humidity the program tells when to expect dew."
)
_DEW_POINT: Final = "{dew} The dew point is about {dew_point}."
_COVERED_MIRROR: Final = "{dew} The mirror itself, down its tube, stays dry longest."
PACK_UP_WORDS: Final = (
    "Before you go in, cap the telescope and its finder; if they stay out, they stay capped through the day. "
    "Let damp glass dry uncovered indoors before it is put away."
)
READY_WORDS: Final = (
    "Some time in this span the telescope has cooled enough to be usable for planets, by a rule of thumb."
)
_SETTLED: Final = (
    "The mirror has settled some time between {soonest} and {latest}, likely by {likely} (an estimate). "
    "It is usable before that, but until then its warmth may still soften the view."
)
STAR_TEST_WORDS: Final = (
    "Take a bright star high up, at high power in the middle of the field, a little out of focus. Its rings "
    "should be round and even; if they lean to one side, adjust the collimation."
)


def kit_words(item: KitItem) -> str:
    """Return what to lay out."""
    return _KIT_WITH_FILTERS.format(filters_and_sun=FILTERS_AND_SUN) if item.owns_filters else _KIT


def collimation_words(item: CollimationItem) -> str:
    """Return how to check the alignment of the optics before dark, and when it was checked last."""
    checked_on = item.checked_on
    return _COLLIMATION if checked_on is None else _COLLIMATION_AGAIN.format(day=date_text(checked_on))


def place_words(item: PlaceItem) -> str:
    """Return where to stand, and what warms the air there."""
    warm = _WARM_ABOVE.format(things=listed(item.warm)) if item.warm else None
    return " ".join(filter(None, (_PLACES[item.stands_on or Stand.GROUND], warm)))


def finder_words(item: FinderItem, clock: SiteClock) -> str:
    """Return what to align the finder on, by day with the sky to keep out of."""
    if item.sun_azimuths_deg is None:
        return _FINDER_BY_NIGHT
    first_deg, last_deg = item.sun_azimuths_deg
    # Going the short way round from one azimuth to the other, through north as well.
    turn_deg = (last_deg - first_deg + 180.0) % 360.0 - 180.0
    left_deg = first_deg + min(turn_deg, 0.0) - FINDER_FROM_SUN_DEG
    right_deg = first_deg + max(turn_deg, 0.0) + FINDER_FROM_SUN_DEG
    return (_FINDER_BEFORE_OUT if item.before_out else _FINDER_BY_DAY).format(
        from_sun=angle_text(FINDER_FROM_SUN_DEG),
        sun_at=compass_text(first_deg + turn_deg / 2),
        left=f"{math.floor(left_deg) % 360}°",
        right=f"{math.ceil(right_deg) % 360}°",
        end=clock.time(item.end),
    )


def carry_out_words(item: CarryOutItem, clock: SiteClock, unit: TemperatureUnit) -> str:
    """Return when the telescope goes out and when it is ready, or since when it stands outside."""
    if item.is_outside:
        outside = time_outside_text(item.readiness, item.start, clock, unit=unit)
        return _OUTSIDE_BY_DAY.format(outside=outside) if item.in_shade else outside
    if item.is_late:
        return _late_words(item, clock, unit)
    template = _CARRY_OUT_BY_DAY if item.in_shade else _CARRY_OUT
    return template.format(
        out=clock.time(item.start),
        body=item.body.label,
        first_look=clock.time(item.first_look),
        readiness=readiness_text(item.readiness, unit=unit),
    )


def carry_out_wordings(item: CarryOutItem, clock: SiteClock) -> tuple[str, ...]:
    """Return when the telescope goes out in few words, and in ever fewer where there is little room."""
    if not item.is_late:
        templates = _CARRY_OUT_BRIEFLY[item.in_shade]
        return tuple(template.format(out=clock.time(item.start)) for template in templates)
    likely = item.readiness.usable_at(item.start)
    if likely is None:
        return _CARRY_OUT_NOW_ALL_THE_SAME[item.in_shade]
    return tuple(
        template.format(likely=clock.time(likely)) for template in _CARRY_OUT_NOW_BRIEFLY[item.in_shade]
    )


def _late_words(item: CarryOutItem, clock: SiteClock, unit: TemperatureUnit) -> str:
    readiness, usable = item.readiness, item.readiness.usable
    if readiness.never or readiness.is_ready_at_once:
        return _CARRY_OUT_LATE_AND[item.in_shade].format(readiness=readiness_text(readiness, unit=unit))
    low, high = (
        clock.about(item.start + timedelta(minutes=minutes))
        for minutes in (usable.low_minutes, usable.high_minutes)
    )
    return _CARRY_OUT_LATE[item.in_shade].format(low=low, high=high)


def dew_words(item: DewItem, clock: SiteClock, unit: TemperatureUnit) -> str:
    """Return when dew settles on which glass, and what to do against it."""
    outlook = item.outlook
    if outlook is None:
        return _DEW_UNKNOWN.format(heaters=HEATERS)
    told = dew_text(outlook, clock)
    if outlook.shelter is Shelter.DOWN_A_TUBE:
        return _COVERED_MIRROR.format(dew=told)
    if outlook.risk is None:
        return told
    return _DEW_POINT.format(dew=told, dew_point=temperature_text(outlook.risk.dew_point_c, unit))


def settled_words(item: SettledItem, clock: SiteClock) -> str:
    """Return between when and when the mirror has settled."""
    return _SETTLED.format(
        soonest=clock.time(item.soonest), likely=clock.time(item.likely), latest=clock.time(item.latest)
    )
