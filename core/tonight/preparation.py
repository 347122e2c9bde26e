"""What to prepare before the first look, each at its time; common practice where nothing else is said."""

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Final

from attrs import field, frozen

from core.air.dew import Shelter
from core.air.dew_outlook import DewOutlook, shelter_of
from core.air.readiness import Readiness, estimated_at
from core.gear.collimation import collimation_of, is_check_due
from core.gear.owned import Telescope, TelescopeKind
from core.sky.bodies import Body
from core.sky.night import Night
from core.sky.spans import Span
from core.tonight.steps import (
    MOMENT_LASTS,
    UNMARKED,
    CarryOutItem,
    CollimationItem,
    CoversItem,
    DewItem,
    EveningItem,
    FinderItem,
    ItemKind,
    KitItem,
    Marks,
    PlaceItem,
    SettledItem,
    StarTestItem,
)

# The finder is aligned in this time, which ends so long before sunset (common practice, safety).
FINDER_TAKES: Final = timedelta(minutes=30)
FINDER_ENDS_BEFORE_SUNSET: Final = timedelta(minutes=10)
# Whoever is late with it needs so long at least (ours).
FINDER_TAKES_AT_LEAST: Final = timedelta(minutes=10)
# No target for the finder is nearer to the Sun than this (common practice, safety).
FINDER_FROM_SUN_DEG: Final = 30.0
# A telescope that need not be out until so long after its start is carried out in time for it all the same;
# for one that stays indoors longer, a lamp or a star will do later (ours).
OUT_FOR_FINDER: Final = timedelta(hours=2)
# How long after the first look, at least, one that was not said to be out is taken to be indoors (ours).
SAYS_SO_WITHIN: Final = timedelta(minutes=60)
# How long these take, and how long before dew is looked for the shield goes on (ours).
KIT_TAKES: Final = timedelta(minutes=10)
COLLIMATION_TAKES: Final = timedelta(minutes=15)
STAR_TEST_TAKES: Final = timedelta(minutes=10)
SHIELD_BEFORE_DEW: Final = timedelta(minutes=15)


@frozen(kw_only=True)
class Preparing:
    """All that the preparation of one evening rests on.

    It is for ``body`` at ``first_look``. ``outside_since`` is None for a telescope that is still to be
    carried out, ``dew`` None where the damp is not known; ``warm`` names what warms the air above the site,
    and ``last_look`` is when nothing is looked at any more. ``now`` is the present moment where it lies in
    the evening.
    """

    night: Night
    scope: Telescope
    readiness: Readiness
    body: Body
    first_look: datetime
    last_look: datetime
    outside_since: datetime | None = None
    dew: DewOutlook | None = None
    owns_filters: bool = False
    warm: tuple[str, ...] = ()
    marks: Marks = field(default=UNMARKED)
    now: datetime | None = None

    @property
    def sunset(self) -> datetime | None:
        """When the Sun sets."""
        return self.night.sun.set

    @property
    def out(self) -> datetime:
        """When the telescope goes out, or went."""
        if self.outside_since is not None:
            return self.outside_since
        return self.now if self.is_late and self.now is not None else self.planned_out

    @property
    def is_late(self) -> bool:
        """Whether its time to go out went by and nobody said that it is out: then it is now.

        A good while into the first target, whoever is there is taken to look through it, said or not.
        """
        is_out = self.outside_since is not None or ItemKind.CARRY_OUT.value in self.marks.done
        return not is_out and self.now is not None and self.planned_out < self.now < self.taken_to_be_out

    @property
    def taken_to_be_out(self) -> datetime:
        """From when on the telescope is taken to be out, whatever was said."""
        return taken_to_be_out_from(self.first_look, self.last_look, lead_minutes=self.readiness.lead_minutes)

    @property
    def planned_out(self) -> datetime:
        """When the telescope is to go out.

        So early that even the slow end of the estimate is over at the first look, and where it is for little
        longer, in time to align the finder by day.
        """
        out, finder = self._out_to_cool, self.finder_by_day
        is_own = self.moved(ItemKind.CARRY_OUT) is not None
        return out if finder is None or is_own else min(out, finder.start)

    @property
    def _out_to_cool(self) -> datetime:
        """When the telescope goes out as the owner says, else so that it is usable at the first look."""
        out = max(self.first_look - timedelta(minutes=self.readiness.lead_minutes), self.night.start)
        return self.moved(ItemKind.CARRY_OUT) or out

    @property
    def set_up(self) -> datetime:
        """By when everything else is at hand: what was to be done before it is carried out stays there."""
        return self.planned_out if self.is_late else self.out

    @property
    def finder_by_day(self) -> Span | None:
        """When the finder is aligned by day; None where there is no daylight for it, or only long before.

        None too where it went by unused, or too little of it is left to carry the telescope out for.
        """
        sunset, night = self.sunset, self.night
        if sunset is None or self.scope.kind is TelescopeKind.FIXED:
            return None
        last, moved = sunset - FINDER_ENDS_BEFORE_SUNSET, self.moved(ItemKind.FINDER)
        end = last if moved is None else moved + FINDER_TAKES
        if end > min(last, self.first_look) or end - FINDER_TAKES < night.start:
            return None
        is_indoors = self.outside_since is None
        too_late = end - FINDER_TAKES_AT_LEAST if is_indoors else end
        if self.now is not None and self.now > too_late and not self.is_finder_done:
            return None
        stays_indoors = is_indoors and self._out_to_cool - (end - FINDER_TAKES) > OUT_FOR_FINDER
        if moved is None and stays_indoors and not self.is_finder_done:
            return None
        return Span(start=end - FINDER_TAKES, end=end)

    @property
    def is_finder_done(self) -> bool:
        """Whether the finder was ticked off as aligned."""
        return ItemKind.FINDER.value in self.marks.done

    def moved(self, kind: ItemKind) -> datetime | None:
        """Return the time that the owner gave a step of a kind, None for its own; inside the evening."""
        return self.marks.time_of(kind, self.night)

    def is_by_day(self, moment: datetime) -> bool:
        """Tell whether a moment lies before sunset."""
        return self.sunset is not None and moment < self.sunset


def taken_to_be_out_from(first_look: datetime, last_look: datetime, *, lead_minutes: float) -> datetime:
    """Return from when on a telescope is taken to be out as planned, whatever was said.

    A good while into the first target whoever is there is taken to look through it.
    """
    return min(first_look + max(timedelta(minutes=lead_minutes), SAYS_SO_WITHIN), last_look)


def preparation(evening: Preparing) -> Iterator[EveningItem]:
    """Yield the steps of preparation; those of one time in the order of their kinds."""
    yield from _collimation(evening)
    yield _kit(evening)
    yield from _finder(evening)
    yield _place(evening)
    yield _carry_out(evening)
    yield _covers(evening)
    yield from _dew(evening)
    yield from _ready(evening)
    yield from _settled(evening)
    yield from _star_test(evening)


def _kit(evening: Preparing) -> KitItem:
    start = evening.moved(ItemKind.KIT) or max(evening.set_up - KIT_TAKES, evening.night.start)
    return KitItem(start=start, end=start, owns_filters=evening.owns_filters)


def _collimation(evening: Preparing) -> Iterator[EveningItem]:
    """Yield a rough check indoors, where it is due and the telescope is not out yet."""
    if evening.outside_since is not None or not is_check_due(evening.scope, evening.night.evening):
        return
    start = evening.moved(ItemKind.COLLIMATION)
    if start is None:
        finder = evening.finder_by_day
        first = evening.set_up if finder is None else min(evening.set_up, finder.start)
        start = max(first - KIT_TAKES - COLLIMATION_TAKES, evening.night.start)
    yield CollimationItem(
        start=start,
        end=start + COLLIMATION_TAKES,
        checked_on=evening.scope.collimated_on,
        caution=evening.is_by_day(start),
    )


def _finder(evening: Preparing) -> Iterator[EveningItem]:
    """Yield when to align the finder: by day, else on a lamp or a star just before the first look.

    On a lamp or a star too where the daylight has gone by unused.
    """
    night, sunset, first_look = evening.night, evening.sunset, evening.first_look
    if evening.scope.kind is TelescopeKind.FIXED:
        return
    day = evening.finder_by_day
    # Not before the telescope is out, whose finder it is.
    if day is not None:
        is_put_off = evening.is_late and not evening.is_finder_done
        start = max(day.start, evening.out) if is_put_off else day.start
        first_deg, last_deg = (night.position(Body.SUN, moment).azimuth_deg for moment in (start, day.end))
        yield FinderItem(start=start, end=day.end, sun_azimuths_deg=(first_deg, last_deg), caution=True)
        return
    moved = evening.moved(ItemKind.FINDER)
    dark = max(first_look - FINDER_TAKES, evening.out)
    if sunset is not None:
        dark = max(dark, sunset)
    if moved is not None and not evening.is_by_day(moved):
        dark = moved
    start = max(dark, night.start)
    yield FinderItem(start=start, end=max(first_look, start), sun_azimuths_deg=None)


def _place(evening: Preparing) -> PlaceItem:
    start = evening.moved(ItemKind.PLACE) or evening.set_up
    return PlaceItem(start=start, end=start, stands_on=evening.scope.stands_on, warm=evening.warm)


def _carry_out(evening: Preparing) -> CarryOutItem:
    in_shade = evening.is_by_day(evening.out)
    return CarryOutItem(
        start=evening.out,
        end=evening.out,
        is_outside=evening.outside_since is not None,
        is_late=evening.is_late,
        readiness=evening.readiness,
        body=evening.body,
        first_look=evening.first_look,
        in_shade=in_shade,
        caution=in_shade,
    )


def _covers(evening: Preparing) -> CoversItem:
    """Return when the covers come off: outside, and never while the Sun is up."""
    dark, planned = (
        out if evening.sunset is None else max(out, evening.sunset) for out in (evening.out, evening.set_up)
    )
    if evening.now is not None and evening.now < planned + MOMENT_LASTS:
        dark = planned
    start = max(evening.moved(ItemKind.COVERS) or dark, dark)
    return CoversItem(start=start, end=start)


def _dew(evening: Preparing) -> Iterator[EveningItem]:
    """Yield when to be ready for dew: where some settles, or where front glass stands in unknown damp."""
    outlook = evening.dew
    if outlook is None:
        if shelter_of(evening.scope) is not Shelter.BARE:
            return
        cooled = evening.out + timedelta(minutes=evening.readiness.usable.likely_minutes)
        start = max(_covers(evening).start, cooled)
    else:
        wet = [moment for moment in (outlook.wet_at, outlook.damp_at) if moment is not None]
        if not wet or min(wet) > evening.last_look:
            return
        start = max(min(wet) - SHIELD_BEFORE_DEW, _covers(evening).start)
    start = evening.moved(ItemKind.DEW) or start
    is_heated = outlook is None or (outlook.shelter is Shelter.BARE and outlook.shielded_wet_at is not None)
    yield DewItem(start=start, end=start, outlook=outlook, caution=is_heated)


def _ready(evening: Preparing) -> Iterator[EveningItem]:
    """Yield from when to when the telescope becomes usable by the rule of thumb."""
    readiness, usable = evening.readiness, evening.readiness.usable
    is_out = evening.outside_since is not None
    if readiness.never or (readiness.is_ready_at_once and is_out):
        return
    start = estimated_at(evening.out, usable.low_minutes)
    slow = estimated_at(evening.out, usable.high_minutes)
    is_just_in_time = evening.out >= evening.first_look - timedelta(minutes=readiness.lead_minutes)
    end = evening.first_look if is_just_in_time and not is_out and not evening.is_late else slow
    yield EveningItem(kind=ItemKind.READY, start=start, end=max(start, end))


def _settled(evening: Preparing) -> Iterator[EveningItem]:
    readiness, settled = evening.readiness, evening.readiness.settled
    if settled is None or readiness.never or not readiness.settles_later:
        return
    soonest, likely, latest = (
        estimated_at(evening.out, minutes)
        for minutes in (settled.low_minutes, settled.likely_minutes, settled.high_minutes)
    )
    if likely < evening.last_look:
        yield SettledItem(start=likely, end=likely, soonest=soonest, likely=likely, latest=latest)


def _star_test(evening: Preparing) -> Iterator[EveningItem]:
    """Yield a star test when the telescope is likely usable and stars are out, where it needs one."""
    if not collimation_of(evening.scope).is_needed or evening.readiness.never:
        return
    usable = estimated_at(evening.out, evening.readiness.usable.likely_minutes)
    dark = evening.night.sun.civil_dusk
    start = evening.moved(ItemKind.STAR_TEST) or max(filter(None, (usable, dark)))
    if start < evening.last_look:
        yield StarTestItem(start=start, end=start + STAR_TEST_TAKES)
