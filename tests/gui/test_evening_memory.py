"""What was said and done of the evening is there again after a restart, whatever became of its file."""

import json
import os
import stat
from collections.abc import Callable
from datetime import UTC, datetime, time, timedelta
from pathlib import Path

import attrs
import pytest

from core.air.first_look import FirstLook, Scale, ScaleStep
from core.air.temperatures import Temperatures
from core.moments.hours import Twilight
from core.record.observer import Profile
from core.sky.bodies import Body
from core.tonight.steps import ItemKind
from gui.profile.evening_memory import EveningMemory
from gui.state import AppState
from tests.gui.conftest import EVENING_START, HandClock, make_profile

ID = "0b9c3cbe-54f2-4bd8-a7a8-8b1f5a3b0a10"


@pytest.fixture
def start(make_state: Callable[..., AppState], tmp_path: Path) -> Callable[[], AppState]:
    """Return a start of the program: a new state that remembers in the same folder."""
    profile: Profile = attrs.evolve(make_profile(), id=ID)

    def begin() -> AppState:
        state = make_state(profile)
        EveningMemory(state, tmp_path)
        return state

    return begin


def file_of(folder: Path) -> Path:
    (path,) = (folder / "evenings").glob("*.json")
    return path


def test_all_of_an_evening_is_there_again(start: Callable[[], AppState], tmp_path: Path) -> None:
    state = start()
    since = datetime(2026, 12, 5, 18, 0, tzinfo=UTC)
    state.set_outside(since, 12.0)
    state.set_temperatures(Temperatures(indoor_c=20, now_c=8, humidity_pct=80, breeze=True))
    state.set_first_look(FirstLook.STEADY)
    state.set_usual_air(400)
    state.set_hours(Twilight.DUSK, time(1, 0))
    state.set_planet(Body.URANUS)
    state.set_rung(120)
    state.tick_step("kit", done=True)
    notes = state.situation.step_notes.added("Tea", since).moved_to("finder", since)
    state.set_steps(notes)
    before = state.situation
    if os.name == "posix":
        assert stat.S_IMODE(file_of(tmp_path).stat().st_mode) == 0o600

    after = start().situation
    assert after.outside_since == since
    assert after.outside == before.outside
    assert after.temperatures == before.temperatures
    assert after.first_look is FirstLook.STEADY
    assert after.said_blur == before.said_blur
    assert after.usual_air == 400
    assert after.planet is Body.URANUS
    assert after.hours == before.hours
    assert after.rung is not None
    assert before.rung is not None
    assert after.rung.power == before.rung.power
    assert after.step_notes == notes
    assert {item.kind for item in after.evening_steps if item.is_done} == {ItemKind.KIT, ItemKind.CARRY_OUT}


def test_a_step_of_a_scale_is_kept_too(start: Callable[[], AppState]) -> None:
    start().set_scale_step(ScaleStep(Scale.TEN_STEPS, 7))

    assert start().situation.scale_step == ScaleStep(Scale.TEN_STEPS, 7)


def test_the_next_evening_begins_anew(start: Callable[[], AppState], clock: HandClock) -> None:
    state = start()
    state.set_first_look(FirstLook.BOILING)
    state.set_planet(Body.URANUS)
    state.set_outside(EVENING_START - timedelta(hours=1))
    state.tick_step("kit", done=True)
    clock.move(timedelta(days=1))

    after = start().situation
    assert after.first_look is None
    assert after.chosen_planet is None
    assert after.outside_since is None
    assert not any(item.is_done for item in after.evening_steps)


def test_old_evenings_are_dropped(start: Callable[[], AppState], clock: HandClock, tmp_path: Path) -> None:
    start().tick_step("kit", done=True)
    clock.move(timedelta(days=5))
    state = start()
    state.tick_step("place", done=True)

    kept = json.loads(file_of(tmp_path).read_text("utf-8"))
    assert [note["evening"] for note in kept["steps"]] == ["2026-12-10"]


@pytest.mark.parametrize(
    "damage",
    [
        b"",
        b"{",
        b"[1, 2]",
        b'"words"',
        b"\xff\xfe\x00",
        b"[" * 100_000,
        b'{"outside": 3, "steps": [{"evening": "2026-12-05"}], "blur": {"overhead_arcsec": 9}, "said_at": 7}',
        b'{"rung_power": NaN, "lifted_on": "soon", "hours": [{"evening": "2026-12-05", "start": "x"}]}',
        b'{"outside": [{"evening": "2026-12-05", "site_id": "", "scope_id": "", "since": "2026-12-05"}]}',
    ],
)
def test_a_damaged_file_costs_nothing_but_the_memory(
    start: Callable[[], AppState], tmp_path: Path, damage: bytes
) -> None:
    start().tick_step("kit", done=True)
    file_of(tmp_path).write_bytes(damage)

    state = start()
    assert state.situation.outside_since is None
    state.tick_step("kit", done=True)
    assert any(item.is_done for item in start().situation.evening_steps)


def test_one_damaged_part_leaves_the_others(start: Callable[[], AppState], tmp_path: Path) -> None:
    state = start()
    state.tick_step("kit", done=True)
    state.set_first_look(FirstLook.STEADY)
    path = file_of(tmp_path)
    kept = json.loads(path.read_text("utf-8"))
    kept["blur"] = "good"
    path.write_text(json.dumps(kept), encoding="utf-8")

    after = start().situation
    assert after.first_look is None
    assert [item.kind for item in after.evening_steps if item.is_done] == [ItemKind.KIT]


def test_each_profile_has_a_memory_of_its_own(
    start: Callable[[], AppState], make_state: Callable[..., AppState], tmp_path: Path
) -> None:
    start().tick_step("kit", done=True)
    # One never saved has none, for nothing tells it from the next.
    for _ in range(2):
        other = make_state(make_profile())
        EveningMemory(other, tmp_path)
        assert not any(item.is_done for item in other.situation.evening_steps)
        other.tick_step("kit", done=True)
    file_of(tmp_path)


@pytest.fixture
def without_id(make_state: Callable[..., AppState], tmp_path: Path) -> Callable[[Path], AppState]:
    """Return a start of the program with a file whose profile has no id yet."""

    def begin(path: Path) -> AppState:
        state = make_state(make_profile(), path=path)
        EveningMemory(state, tmp_path)
        return state

    return begin


def has_kit_packed(state: AppState) -> bool:
    return any(item.is_done for item in state.situation.evening_steps)


def test_without_an_id_a_file_is_known_however_it_is_spelled(
    without_id: Callable[[Path], AppState], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, link = tmp_path / "kit.toml", tmp_path / "link.toml"
    path.write_text("", encoding="utf-8")
    link.symlink_to(path)
    without_id(link).tick_step("kit", done=True)

    assert has_kit_packed(without_id(path))
    assert has_kit_packed(without_id(tmp_path / "evenings" / ".." / "kit.toml"))
    assert not has_kit_packed(without_id(tmp_path / "other.toml"))
    stat_of = Path.stat

    def stat_on_such_a_disk(path: Path, *, follow_symlinks: bool = True) -> os.stat_result:
        return stat_of(path.with_name(path.name.lower()), follow_symlinks=follow_symlinks)

    # A disk that takes capitals and small letters as one.
    monkeypatch.setattr(Path, "stat", stat_on_such_a_disk)
    assert has_kit_packed(without_id(tmp_path / "KIT.toml"))
    file_of(tmp_path)


def test_what_was_said_before_the_first_save_is_there_after_it(
    without_id: Callable[[Path], AppState],
    start: Callable[[], AppState],
    tmp_path: Path,
    make_state: Callable[..., AppState],
) -> None:
    path = tmp_path / "kit.toml"
    path.write_text("", encoding="utf-8")
    without_id(path).tick_step("kit", done=True)

    saved = make_state(attrs.evolve(make_profile(), id=ID), path=path)
    EveningMemory(saved, tmp_path)
    assert has_kit_packed(saved)
    assert not has_kit_packed(start())


def test_a_folder_that_cannot_be_written_is_no_trouble(
    make_state: Callable[..., AppState], tmp_path: Path
) -> None:
    (tmp_path / "evenings").write_text("in the way", encoding="utf-8")
    state = make_state(attrs.evolve(make_profile(), id=ID))
    EveningMemory(state, tmp_path)
    state.tick_step("kit", done=True)

    assert has_kit_packed(state)
    nameless = make_state(make_profile(), path=tmp_path / "kit.toml")
    EveningMemory(nameless, tmp_path)
    nameless.tick_step("kit", done=True)
    assert has_kit_packed(nameless)
