"""An evening as calendar, CSV and file, read back by other libraries."""

import csv
import io
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from attrs import evolve
from icalendar import Calendar, Event

from core.drawing.paper_sizes import Paper
from core.export.evening_calendar import evening_calendar
from core.export.evening_csv import evening_csv
from core.export.evening_file import write_evening
from core.problems import ProblemsError
from core.record.observer import Preferences, Profile, TemperatureUnit
from core.situation.choices import Choices, EveningSteps
from core.situation.situation import Situation
from core.tonight.steps import OwnStep
from core.words.evening import item_title
from tests.core.drawing.examples import BERLIN, FEW, SIX_INCH, TROMSO

NOW = datetime(2026, 10, 1, 12, tzinfo=UTC)
# The clocks of Berlin went back at 01:00 UTC on Sunday, 25 October 2026 (the EU's rule: the last one of the
# month), in the middle of this evening.
CLOCKS_GO_BACK = date(2026, 10, 24)
ZONE = ZoneInfo("Europe/Berlin")


def situation(
    evening: date = CLOCKS_GO_BACK,
    *,
    until: str = "dawn",
    now: datetime = NOW,
    name: str = "Yard",
    own: tuple[OwnStep, ...] = (),
    moved: tuple[tuple[str, datetime], ...] = (),
) -> Situation:
    eyepieces, barlows = FEW
    profile = Profile(
        id="3f0c1f6e-8a54-4d0b-9d3c-5e2f7a61b0d4",
        observer="Noa",
        sites=(evolve(BERLIN, id="here", name=name),),
        telescopes=(evolve(SIX_INCH, id="six"),),
        eyepieces=eyepieces,
        barlows=barlows,
        preferences=Preferences(out_until=until, temperature=TemperatureUnit.FAHRENHEIT),
    )
    steps = EveningSteps(evening=evening, site_id="here", own=own, moved=moved)
    return Situation(Choices(profile=profile, evening=evening).with_steps(steps), now)


def events(which: Situation) -> list[Event]:
    found = Calendar.from_ical(evening_calendar(which)).walk("VEVENT")
    return [event for event in found if isinstance(event, Event)]


def start(event: Event) -> datetime:
    moment = event.decoded("dtstart")
    assert isinstance(moment, datetime)
    return moment


def titles(found: list[Event]) -> list[str]:
    return [str(event["summary"]).split(" · ")[0] for event in found]


def test_every_step_is_one_event_at_its_time() -> None:
    which = situation()
    found = events(which)

    assert len(found) == len(which.evening_steps)
    for event, item in zip(found, which.evening_steps, strict=True):
        assert abs(start(event) - item.start) <= timedelta(seconds=30)
        assert start(event).tzinfo is not None


def test_times_are_right_on_both_sides_of_the_change_of_the_clocks() -> None:
    # Sunrise in Berlin on the next day 06:46 winter time, to some minutes (from memory): the stop comes ten
    # minutes before it. The finder is for the half hour before the first target, which stands well from
    # about nine summer time on.
    found = events(situation())
    by_key = dict(zip((item.key for item in situation().evening_steps), found, strict=True))
    finder, stop = (start(by_key[key]).astimezone(ZONE) for key in ("finder", "stop"))

    assert (finder.utcoffset(), stop.utcoffset()) == (timedelta(hours=2), timedelta(hours=1))
    assert (finder.date(), finder.hour) == (date(2026, 10, 24), 20)
    assert (stop.date(), stop.hour) == (date(2026, 10, 25), 6)
    # What the words say is the time on the wall, and how to find it is among them.
    assert "Saturn at " in str(by_key["target:saturn"]["description"])
    assert f"by {stop:%H:%M}" in str(by_key["stop"]["description"])


def test_a_second_import_replaces_the_first() -> None:
    before = events(situation(until="23:30"))
    later = events(situation(until="22:30", now=NOW + timedelta(minutes=5)))

    # As a calendar does it: by UID, the higher sequence wins.
    kept = {str(event["uid"]): event for event in before}
    for event in later:
        earlier = kept.get(str(event["uid"]))
        assert earlier is None or event.decoded("sequence") > earlier.decoded("sequence")
        kept[str(event["uid"])] = event

    assert len(kept) == len({*titles(before), *titles(later)})
    assert start(kept[str(later[-1]["uid"])]) == start(later[-1])


def test_a_step_that_was_moved_keeps_its_uid() -> None:
    to = datetime(2026, 10, 24, 16, tzinfo=UTC)
    title = item_title(next(item for item in situation().evening_steps if item.key == "kit"))
    before, after = events(situation()), events(situation(moved=(("kit", to),)))
    kit_before, kit_after = (found[titles(found).index(title)] for found in (before, after))

    assert kit_before["uid"] == kit_after["uid"]
    assert start(kit_after) == to != start(kit_before)


def test_uids_are_unique_and_differ_from_evening_to_evening() -> None:
    one, other = (
        {str(each["uid"]) for each in events(situation(day))} for day in (CLOCKS_GO_BACK, date(2026, 10, 25))
    )

    assert len(one) == len(situation().evening_steps)
    assert not one & other


def test_own_steps_are_text_and_nothing_else() -> None:
    text = "Tea; biscuits, \\milk\nBEGIN:VALARM\r\nEND:VEVENT\x1b[2J ☕"
    own = OwnStep(id="tea", text=text, at=datetime(2026, 10, 24, 20, tzinfo=UTC))
    content = evening_calendar(situation(own=(own,)))

    assert b"\x1b" not in content
    assert b"\nBEGIN:VALARM" not in content
    (tea,) = [each for each in events(situation(own=(own,))) if "Tea" in str(each["summary"])]
    assert str(tea["summary"]).startswith("Tea; biscuits, \\milk BEGIN:VALARM")
    assert max(map(len, content.split(b"\r\n"))) <= 75  # octets to a line: RFC 5545, 3.1


def test_the_place_is_left_out_unless_asked_for() -> None:
    assert b"GEO" not in evening_calendar(situation())
    assert b"GEO:52.5;13.4" in evening_calendar(situation(), with_place=True)
    for secret in ("52.5", "13.4"):
        assert secret not in evening_csv(situation())
        assert secret in evening_csv(situation(), with_place=True)


def test_python_reads_the_table() -> None:
    which = situation(name='=2+3 "Yard", back')
    text = evening_csv(which)
    assert text.startswith("\ufeff")
    rows = list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline="")))

    assert [row["kind"] for row in rows] == [item.kind.value for item in which.evening_steps]
    assert {row["site"] for row in rows} == {'\'=2+3 "Yard", back'}
    for row, item in zip(rows, which.evening_steps, strict=True):
        assert datetime.fromisoformat(row["start_utc"]) - item.start < timedelta(milliseconds=1)
        assert abs(datetime.fromisoformat(row["start"]) - item.start) < timedelta(seconds=1)
    targets = [row for row in rows if row["kind"] == "target"]
    assert targets
    assert all(10.0 <= float(row["altitude_deg"]) <= 90.0 for row in targets)
    saturn = next(row for row in targets if row["body"] == "saturn")
    # Opposition on 4 October 2026 at 8.5 au: 19.7 arcsec (almanacs, from memory).
    assert float(saturn["diameter_arcsec"]) == pytest.approx(19.5, abs=0.4)


@pytest.mark.parametrize(
    ("name", "begins"),
    [("a.pdf", b"%PDF-"), ("a.PNG", b"\x89PNG"), ("a.ics", b"BEGIN:VCALENDAR"), ("a.csv", b"\xef\xbb\xbf")],
)
def test_the_name_tells_the_kind_of_file(name: str, begins: bytes, tmp_path: Path) -> None:
    write_evening(tmp_path / name, situation(), Paper.A4)

    assert (tmp_path / name).read_bytes().startswith(begins)


def test_another_ending_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ProblemsError, match=r"a\.doc: must end in \.pdf, \.png, \.ics or \.csv"):
        write_evening(tmp_path / "a.doc", situation(), Paper.A4)

    assert list(tmp_path.iterdir()) == []


def test_without_anything_to_do_there_is_no_calendar(tmp_path: Path) -> None:
    profile = Profile(sites=(evolve(TROMSO, id="here"),))
    which = Situation(Choices(profile=profile, evening=date(2026, 6, 21)), NOW)

    with pytest.raises(ProblemsError, match="there is nothing to put into one"):
        write_evening(tmp_path / "a.ics", which, Paper.A4)

    assert list(tmp_path.iterdir()) == []
