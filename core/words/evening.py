"""The items of an evening in words: a title for a strip under a chart, and what to do in sentences."""

import math
from datetime import datetime
from typing import Final

from attrs import frozen

from core.sky.night import Grade
from core.tonight.plan import (
    FINDER_FROM_SUN_DEG,
    CarryOutItem,
    EveningItem,
    FinderItem,
    ItemKind,
    StopItem,
    TargetItem,
)
from core.words.cooling import readiness_text, time_outside_text
from core.words.directions import compass_text
from core.words.names import opening
from core.words.obstacles import then_words
from core.words.quantities import angle_text
from core.words.site_clock import SiteClock

FINDER: Final = "Finder"
CARRY_OUT: Final = "Carry out"
OUTSIDE: Final = "Outside"
READY: Final = "Ready"
STOP: Final = "Stop"

_FINDER_BY_DAY: Final = (
    "Align the finder in daylight on something distant on the ground, more than {from_sun} from the Sun: "
    "the Sun is in the {sun_at}, so nothing between azimuths {left} and {right}. End by {end}. "
    "Never turn telescope or finder towards the Sun: it blinds at once."
)
_FINDER_BY_NIGHT: Final = "Align the finder on a distant lamp or a bright star, at low power first."
_CARRY_OUT: Final = "Carry the telescope out by {out} for {body} at {first_look}. {readiness}"
_CARRY_OUT_BY_DAY: Final = (
    "Carry the telescope out by {out} for {body} at {first_look}. "
    "Until sunset it stands in the shade with its caps on. {readiness}"
)
_OUTSIDE_BY_DAY: Final = "{outside} Until sunset it stands in the shade with its caps on."
_READY: Final = "Usable for planets from somewhere in this time, by a rule of thumb."
_TARGETS: Final = {
    Grade.BEST: "{body} {span}, above 45°.",
    Grade.FAIR: "{body} {span}, above 30°.",
    Grade.LOW: "{body} {span}, low.",
}
_TARGETS_THEN: Final = {
    Grade.BEST: "{body} {span}, above 45°, then {what}.",
    Grade.FAIR: "{body} {span}, above 30°, then {what}.",
    Grade.LOW: "{body} {span}, low, then {what}.",
}
_STOP: Final = (
    "Off the planet by {stop}; the Sun rises at {sunrise}. "
    "Cap the telescope and its finder, and leave them capped while they stand out by day."
)


@frozen(kw_only=True)
class TitledItem:
    """An item of the evening with the word or two that name it."""

    title: str
    item: EveningItem

    @property
    def start(self) -> datetime:
        """When it begins."""
        return self.item.start

    @property
    def end(self) -> datetime:
        """When it ends."""
        return self.item.end

    @property
    def is_chosen(self) -> bool:
        """Whether it is the target in hand."""
        return isinstance(self.item, TargetItem) and self.item.is_chosen


def titled(items: tuple[EveningItem, ...]) -> tuple[TitledItem, ...]:
    """Return items with their titles."""
    return tuple(TitledItem(title=item_title(item), item=item) for item in items)


def item_title(item: EveningItem) -> str:
    """Return a word or two for a strip under a chart."""
    if isinstance(item, TargetItem):
        return item.body.heading
    if isinstance(item, CarryOutItem):
        return OUTSIDE if item.is_outside else CARRY_OUT
    return {ItemKind.FINDER: FINDER, ItemKind.READY: READY, ItemKind.STOP: STOP}[item.kind]


def item_words(item: EveningItem, clock: SiteClock) -> str:
    """Return what to do, or what there is to see, in one or more sentences."""
    match item:
        case FinderItem():
            return _finder_words(item, clock)
        case CarryOutItem():
            return _carry_out_words(item, clock)
        case TargetItem():
            return _target_words(item, clock)
        case StopItem():
            return _STOP.format(stop=clock.time(item.start), sunrise=clock.time(item.sunrise))
    return _READY


def _finder_words(item: FinderItem, clock: SiteClock) -> str:
    if item.sun_azimuths_deg is None:
        return _FINDER_BY_NIGHT
    first_deg, last_deg = item.sun_azimuths_deg
    # Going the short way round from one azimuth to the other, through north as well.
    turn_deg = (last_deg - first_deg + 180.0) % 360.0 - 180.0
    left_deg = first_deg + min(turn_deg, 0.0) - FINDER_FROM_SUN_DEG
    right_deg = first_deg + max(turn_deg, 0.0) + FINDER_FROM_SUN_DEG
    return _FINDER_BY_DAY.format(
        from_sun=angle_text(FINDER_FROM_SUN_DEG),
        sun_at=compass_text(first_deg + turn_deg / 2),
        left=f"{math.floor(left_deg) % 360}°",
        right=f"{math.ceil(right_deg) % 360}°",
        end=clock.time(item.end),
    )


def _carry_out_words(item: CarryOutItem, clock: SiteClock) -> str:
    if item.is_outside:
        outside = time_outside_text(item.readiness, item.start, clock)
        return _OUTSIDE_BY_DAY.format(outside=outside) if item.in_shade else outside
    template = _CARRY_OUT_BY_DAY if item.in_shade else _CARRY_OUT
    return template.format(
        out=clock.time(item.start),
        body=item.body.label,
        first_look=clock.time(item.first_look),
        readiness=readiness_text(item.readiness),
    )


def _target_words(item: TargetItem, clock: SiteClock) -> str:
    grades = {window.grade for window in item.best.windows}
    grade = Grade.BEST if grades == {Grade.BEST} else Grade.LOW if Grade.LOW in grades else Grade.FAIR
    then = then_words(item.best)
    template = _TARGETS[grade] if then is None else _TARGETS_THEN[grade]
    return template.format(
        body=opening(item.body), span=clock.span(item.best.start, item.best.end), what=then
    )
