"""An evening as a calendar (iCalendar, RFC 5545): one event for each item.

All times are UTC, so that they are right whatever the clocks do. An item's UID rests on profile, site,
evening and step, and each export counts as newer (minutes, as ``SEQUENCE``), so that a second import moves
what was imported before.
"""

from datetime import UTC, datetime, timedelta
from typing import Final
from uuid import NAMESPACE_URL, UUID, uuid5

from icalendar import Calendar, Event

from core.plain_text import printable
from core.situation.on_paper import targets_on_paper
from core.situation.situation import Situation
from core.tonight.steps import EveningItem
from core.words.evening import item_title
from core.words.evening_sheet import SheetStep, event_title, steps_of
from core.words.site_clock import SiteClock

_PRODUCT: Final = "-//Stillair//Evening//EN"
# Any fixed UUID will do, so long as it never changes.
_NAMESPACE: Final = uuid5(NAMESPACE_URL, "stillair:evening")
# A later export must carry a higher number: minutes since then (ours).
_COUNTED_FROM: Final = datetime(2020, 1, 1, tzinfo=UTC)


def evening_calendar(situation: Situation, *, with_place: bool = False) -> bytes:
    """Return an evening, which must have a night, as a calendar; coordinates only ``with_place``."""
    site = situation.site
    assert site is not None
    clock = SiteClock(zone=site.zone, hours=situation.preferences.clock)
    calendar = Calendar()
    calendar.add("prodid", _PRODUCT)
    calendar.add("version", "2.0")
    steps = steps_of(situation, targets_on_paper(situation), clock)
    for item, step in zip(situation.evening_steps, steps, strict=True):
        event = _event(item, step, situation)
        event.add("uid", str(_uid(item, situation)))
        event.add("location", printable(site.name))
        if with_place:
            event.add("geo", (site.latitude_deg, site.longitude_deg))
        calendar.add_component(event)
    content: bytes = calendar.to_ical()
    return content


def _event(item: EveningItem, step: SheetStep, situation: Situation) -> Event:
    event = Event()
    scope_name = "" if situation.scope is None else situation.scope.name
    event.add("summary", printable(event_title(item_title(item), scope_name)))
    if step.words:
        event.add("description", printable(step.words))
    start, end = (_nearest_minute(moment) for moment in (item.start, item.end))
    event.add("dtstart", start)
    if end > start:
        event.add("dtend", end)
    event.add("dtstamp", _whole_second(situation.now))
    event.add("last-modified", _whole_second(situation.now))
    event.add("sequence", max(int((situation.now - _COUNTED_FROM).total_seconds() // 60), 0))
    event.add("transp", "OPAQUE" if end > start else "TRANSPARENT")
    return event


def _uid(item: EveningItem, situation: Situation) -> UUID:
    """Return the same for a step of an evening at a site whenever it begins."""
    site = situation.site
    assert site is not None
    owner = situation.profile.id or situation.profile.observer
    return uuid5(_NAMESPACE, "\n".join((owner, site.id or site.name, str(situation.evening), item.key)))


def _nearest_minute(moment: datetime) -> datetime:
    """Return the full minute that the words tell too."""
    return (moment.astimezone(UTC) + timedelta(seconds=30)).replace(second=0, microsecond=0)


def _whole_second(moment: datetime) -> datetime:
    return moment.astimezone(UTC).replace(microsecond=0)
