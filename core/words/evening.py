"""The steps of an evening in words: a title for a strip under a chart, and what to do in sentences."""

from datetime import datetime
from typing import Final

from attrs import frozen

from core.record.observer import TemperatureUnit
from core.sky.windows import Grade
from core.tonight.steps import (
    CarryOutItem,
    CollimationItem,
    DewItem,
    EveningItem,
    FinderItem,
    ItemKind,
    KitItem,
    OwnItem,
    PlaceItem,
    SettledItem,
    StopItem,
    TargetItem,
)
from core.words.obstacles import then_words
from core.words.preparation import (
    COVERS_WORDS,
    PACK_UP_WORDS,
    READY_WORDS,
    STAR_TEST_WORDS,
    carry_out_words,
    collimation_words,
    dew_words,
    finder_words,
    kit_words,
    place_words,
    settled_words,
)
from core.words.site_clock import SiteClock

OUTSIDE: Final = "Outside"
NOTHING_TO_PREPARE: Final = "Nothing to prepare: no planet has good minutes this evening."
_TITLES: Final = {
    ItemKind.COLLIMATION: "Check collimation",
    ItemKind.KIT: "Lay out the kit",
    ItemKind.FINDER: "Finder",
    ItemKind.PLACE: "Choose the place",
    ItemKind.CARRY_OUT: "Carry out",
    ItemKind.COVERS: "Covers off",
    ItemKind.DEW: "Against dew",
    ItemKind.READY: "Becomes usable",
    ItemKind.STAR_TEST: "Star test",
    ItemKind.SETTLED: "Mirror settled",
    ItemKind.PACK_UP: "Pack up",
    ItemKind.STOP: "Stop",
}
_PLAIN: Final = {
    ItemKind.COVERS: COVERS_WORDS,
    ItemKind.READY: READY_WORDS,
    ItemKind.STAR_TEST: STAR_TEST_WORDS,
    ItemKind.PACK_UP: PACK_UP_WORDS,
}
# What stands on the strip: what takes time or has its hour, not each thing to think of.
_ON_STRIP: Final = frozenset(
    {
        ItemKind.FINDER,
        ItemKind.CARRY_OUT,
        ItemKind.READY,
        ItemKind.OWN,
        ItemKind.TARGET,
        ItemKind.STOP,
    }
)

# By how high it stands; where it is low for a part of the time, when it is higher than that.
_TARGETS: Final = {
    Grade.BEST: "Above 45°.",
    Grade.FAIR: "Above 30°.",
    Grade.LOW: "Low, under 30°.",
    None: "Above 30° {higher}.",
}
_TARGETS_THEN: Final = {
    Grade.BEST: "Above 45°, then {what}.",
    Grade.FAIR: "Above 30°, then {what}.",
    Grade.LOW: "Low, under 30°, then {what}.",
    None: "Above 30° {higher}, then {what}.",
}
# By whether it is done.
_HEARD: Final = ("{when}, {title}: {words}", "Done: {when}, {title}. {words}")
_HEARD_OWN: Final = ("{when}, {words}", "Done: {when}, {words}")
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

    @property
    def is_done(self) -> bool:
        """Whether the owner ticked it off."""
        return self.item.is_done


def titled(items: tuple[EveningItem, ...]) -> tuple[TitledItem, ...]:
    """Return those steps that stand on a strip under a chart, with their titles."""
    return tuple(TitledItem(title=item_title(item), item=item) for item in items if item.kind in _ON_STRIP)


def item_title(item: EveningItem) -> str:
    """Return a word or two for a strip under a chart."""
    match item:
        case TargetItem():
            return item.body.heading
        case OwnItem():
            return item.step.text
        case CarryOutItem() if item.is_outside:
            return OUTSIDE
    return _TITLES[item.kind]


def item_words(item: EveningItem, clock: SiteClock, *, unit: TemperatureUnit) -> str:
    """Return what to do, or what there is to see, in one or more sentences; of an own step its own words."""
    match item:
        case CollimationItem():
            return collimation_words(item)
        case KitItem():
            return kit_words(item)
        case FinderItem():
            return finder_words(item, clock)
        case PlaceItem():
            return place_words(item)
        case CarryOutItem():
            return carry_out_words(item, clock, unit)
        case DewItem():
            return dew_words(item, clock, unit)
        case SettledItem():
            return settled_words(item, clock)
        case OwnItem():
            return item.step.text
        case TargetItem():
            return _target_words(item, clock)
        case StopItem():
            return _STOP.format(stop=clock.time(item.start), sunrise=clock.time(item.sunrise))
    return _PLAIN[item.kind]


def _target_words(item: TargetItem, clock: SiteClock) -> str:
    windows = item.best.windows
    grades = {window.grade for window in windows}
    higher = [window for window in windows if window.grade is not Grade.LOW]
    grade = next(iter(grades)) if len(grades) == 1 else Grade.FAIR if Grade.LOW not in grades else None
    then = then_words(item.best)
    template = (_TARGETS if then is None else _TARGETS_THEN)[grade]
    return template.format(what=then, higher=clock.span(higher[0].start, higher[-1].end) if higher else None)


def heard_words(item: EveningItem, clock: SiteClock, *, unit: TemperatureUnit) -> str:
    """Return a step for those who cannot see it: done or not, when, what, and its words."""
    template = _HEARD_OWN if isinstance(item, OwnItem) else _HEARD
    return template[item.is_done].format(
        when=clock.times(item.start, item.end),
        title=item_title(item),
        words=item_words(item, clock, unit=unit),
    )
