"""What the commands offer by day, in twilight, below the horizon and where there is no window."""

import json
from typing import Any

import pytest

from gui.app import main

SAMPLE = "sample_profiles/balcony_greece.toml"
DAY, TWILIGHT, DOWN, NO_WINDOW = "not to be seen by day", "not dark enough", "below the horizon", "only while"
# Site time of Thessaloniki, two hours ahead of UTC in winter; positions as the program finds them elsewhere.
REFUSED = [
    ("saturn", "2026-12-05T15:30", DAY),
    ("uranus", "2026-12-05T17:15", TWILIGHT),
    ("saturn", "2026-12-06T03:00", DOWN),
    ("mars", "2027-01-12T13:00", DOWN),
    # Two days before superior conjunction Mercury stands within 15 degrees of the Sun.
    ("mercury", "2027-01-05T13:00", "of the Sun, which is up"),
]
BY_DAY = [
    ("venus", "2027-01-12T09:30"),
    ("jupiter", "2026-12-06T08:30"),
    ("moon", "2026-12-16T15:00"),
    ("mercury", "2027-02-03T14:00"),
]


def told(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main([words[0], SAMPLE, *words[1:]]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return out


def told_json(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    found = json.loads(told(capsys, *words, "--json"))
    assert isinstance(found, dict)
    return found


@pytest.mark.parametrize(("planet", "at", "reason"), REFUSED)
def test_a_time_at_which_nothing_is_offered_gets_the_reason(
    planet: str, at: str, reason: str, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ("--planet", planet, "--at", at)

    ladder, looks = told_json(capsys, "ladder", *asked), told_json(capsys, "looks", *asked)
    words = " ".join(told(capsys, "ladder", *asked).split())

    assert (ladder["rungs"], ladder["start"], ladder["climb_to"]) == ([], None, None)
    assert ladder["ceiling"]["power"] is None
    assert reason in ladder["ceiling"]["reason"]
    assert reason in words
    assert "exit pupil" not in words, "a table of rungs"
    assert looks["at"] == ladder["at"]
    assert (looks["rungs"], looks["expectations"]) == ([], [])


@pytest.mark.parametrize(("planet", "evening"), [("mercury", "2027-01-05"), ("venus", "2026-10-24")])
def test_without_a_window_there_is_no_moment_but_a_reason_and_the_next_date(
    planet: str, evening: str, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ("--planet", planet, "--evening", evening)

    ladder, looks = told_json(capsys, "ladder", *asked), told_json(capsys, "looks", *asked)
    a, b = "Six-inch reflector", "80 mm refractor"
    both = json.loads(told(capsys, "compare", a, b, *asked, "--json"))
    words = " ".join(told(capsys, "ladder", *asked).split())
    shown = told(capsys, "looks", *asked)

    for found in (ladder, both["a"], both["b"]):
        assert (found["at"], found["rungs"], found["start"], found["climb_to"]) == (None, [], None, None)
        assert NO_WINDOW in found["ceiling"]["reason"]
    assert both["at"] is None
    assert [looks[key] for key in ("at", "altitude_deg", "azimuth_deg", "path")] == [None] * 4
    assert (looks["rungs"], looks["expectations"]) == ([], [])
    assert "nothing is offered this evening" in words
    assert "in a dark sky" in words.lower(), "no next date"
    assert "nothing is offered" in shown.splitlines()[0]
    assert "high in the" not in shown


@pytest.mark.parametrize(("planet", "at"), BY_DAY)
def test_by_day_four_bodies_are_offered_with_the_caution(
    planet: str, at: str, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ("--planet", planet, "--at", at)

    ladder, looks = told_json(capsys, "ladder", *asked), told_json(capsys, "looks", *asked)
    words = " ".join(told(capsys, "ladder", *asked).split())

    assert ladder["rungs"]
    assert ladder["start"] is not None
    for caution in (looks["caution"], words):
        assert "shadow of something solid" in caution
        assert "Sunlight through any optics blinds at once." in caution
        assert ("very hard" in caution) == (planet == "mercury")


def test_every_evening_ends_with_the_cap_before_sunrise(capsys: pytest.CaptureFixture[str]) -> None:
    assert "Off the sky before sunrise: cap telescope and finder" in told(
        capsys, "heights", "--evening", "2026-12-05"
    )
