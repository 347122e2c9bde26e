"""The one state: choices change what follows, edits can be taken back, and the sky is read beside it."""

import threading
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

import attrs
from PySide6.QtCore import QObject, Signal
from pytestqt.qtbot import QtBot

from core.air.blur import BlurSource
from core.air.first_look import FirstLook
from core.ladder.contenders import Pick
from core.record.observer import Profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from core.sky.bodies import Body
from gui.jobs import Jobs
from gui.state import AppState
from tests.gui.conftest import HandClock, make_profile
from tests.gui.differing import differing

# Edits.


def to_save(state: AppState) -> bool:
    return state.is_modified


def in_hand(state: AppState) -> tuple[str, str]:
    """Return planet and scope by their names."""
    return str(state.situation.planet), state.situation.scope.name if state.situation.scope else ""


def renamed(profile: Profile, name: str) -> Profile:
    return attrs.evolve(profile, observer=name)


def test_an_edit_is_named_and_can_be_taken_back_and_done_again(state: AppState) -> None:
    before = state.profile
    state.edit_profile("Rename the observer", renamed(before, "Rui"))
    assert state.profile.observer == "Rui"
    assert state.undo_stack.undoText() == "Rename the observer"
    assert to_save(state)

    state.undo_stack.undo()
    assert state.profile == before
    assert not to_save(state)

    state.undo_stack.redo()
    assert state.profile.observer == "Rui"


def test_letters_typed_one_after_another_are_taken_back_as_one(state: AppState) -> None:
    for text in ("R", "Ru", "Rui"):
        state.edit_profile("Rename", renamed(state.profile, text), merge_key="observer")
    state.edit_profile("Rename", renamed(state.profile, "Anna"), merge_key="another field")

    state.undo_stack.undo()
    assert state.profile.observer == "Rui"
    state.undo_stack.undo()
    assert state.profile.observer == "Ines"


def test_an_edit_that_changes_nothing_is_no_step(state: AppState) -> None:
    state.edit_profile("Nothing", state.profile)
    assert not state.undo_stack.canUndo()


def test_new_things_get_their_ids(make_state: Callable[..., AppState]) -> None:
    state = make_state(Profile())
    state.edit_profile("Add", make_profile())
    assert all(scope.id for scope in state.profile.telescopes)


def test_an_ampersand_in_a_label_is_shown_as_one(state: AppState) -> None:
    state.edit_profile("Rename tube & mount", renamed(state.profile, "X"))
    assert state.undo_stack.undoText() == "Rename tube && mount"


def test_taking_back_the_scope_in_hand_falls_back_to_the_first(state: AppState) -> None:
    state.set_planet(Body.SATURN)
    state.set_scope(state.profile.telescopes[1].id)
    state.edit_profile("Remove", attrs.evolve(state.profile, telescopes=state.profile.telescopes[:1]))
    assert in_hand(state) == ("saturn", "Six-inch")
    state.undo_stack.undo()
    assert in_hand(state) == ("saturn", "Small refractor")


# What follows from the choices.


def test_scope_and_air_and_planet_change_the_ladder(state: AppState) -> None:
    ladder = state.situation.ladder
    assert ladder is not None
    assert ladder.limits.aperture == 300  # 2x per mm of 150 mm; common practice
    state.set_scope(state.profile.telescopes[1].id)
    assert state.situation.ladder is not None
    assert state.situation.ladder.limits.aperture == 160
    assumed = state.situation.ladder.limits.tonight_air
    state.set_first_look(FirstLook.BOILING)
    assert state.situation.blur.source is BlurSource.GIVEN
    assert state.situation.ladder.limits.tonight_air < assumed  # type: ignore[operator]  # both are numbers here
    changed = differing(state, lambda: state.set_planet(Body.URANUS))
    assert Situation.planet in changed
    assert not changed & {Situation.night, Situation.site, Situation.scope}
    assert state.situation.aim.planet is Body.URANUS


def test_two_scopes_are_compared_and_never_one_with_itself(state: AppState) -> None:
    six_inch, small = state.profile.telescopes
    seen = [state.situation.comparison]
    state.compare_second(Pick(small.id))
    seen.append(state.situation.comparison)
    state.set_scope(small.id)  # the first one then stands beside it
    seen.append(state.situation.comparison)
    assert [comparison and comparison.b.scope for comparison in seen] == [small, small, six_inch]


def test_without_a_site_there_is_no_night_and_the_ladder_points_overhead(
    make_state: Callable[..., AppState],
) -> None:
    state = make_state(attrs.evolve(make_profile(), sites=()))
    assert state.situation.night is None
    assert state.situation.planet is None
    assert state.situation.ladder is not None
    assert state.situation.ladder.aim.overhead


def test_what_follows_is_computed_once(state: AppState) -> None:
    assert state.situation.night is state.situation.night
    assert state.situation.ladder is state.situation.ladder
    assert state.situation.answer is state.situation.answer
    assert state.situation.evening_steps is state.situation.evening_steps


def test_the_first_planet_is_the_evening_s_and_stays_chosen_by_hand(state: AppState) -> None:
    # Out until dawn: it is Neptune's turn, after Saturn's; Jupiter is best in the small hours.
    assert in_hand(state)[0] == "neptune"
    assert state.situation.chosen_planet is None
    assert state.situation.best_planet is Body.JUPITER
    state.set_planet(Body.URANUS)
    state.set_evening(date(2026, 12, 6))
    assert in_hand(state)[0] == "uranus"


def test_whoever_steps_up_keeps_the_planet_past_its_turn(state: AppState, clock: HandClock) -> None:
    clock.now = datetime(2026, 12, 5, 21, 30, tzinfo=UTC)
    state.beat()
    assert in_hand(state)[0] == "saturn"
    state.step_rung(1)

    clock.now = datetime(2026, 12, 5, 21, 50, tzinfo=UTC)
    state.beat()
    assert in_hand(state)[0] == "saturn"
    clock.now = datetime(2026, 12, 5, 22, 5, tzinfo=UTC)
    state.beat()
    assert in_hand(state)[0] == "neptune"


def test_by_day_the_ladder_is_for_the_planet_s_best_moment(state: AppState, clock: HandClock) -> None:
    # Saturn stands 15 degrees high in the south-east then, and the Sun is up.
    clock.now = datetime(2026, 12, 5, 15, 30, tzinfo=UTC)
    state.set_planet(Body.SATURN)
    state.beat()
    best_deg = state.situation.aim.altitude_deg
    assert best_deg is not None
    assert best_deg > 45
    # A moment chosen by hand counts all the same, and nothing is offered then.
    state.set_time(clock.now)
    chosen_deg = state.situation.aim.altitude_deg
    assert chosen_deg is not None
    assert 10 < chosen_deg < 20
    assert state.situation.ladder is not None
    assert state.situation.ladder.rungs == ()


# Jobs.


def test_the_sky_is_read_off_the_window_s_thread(qtbot: QtBot, qapp: object) -> None:
    state = AppState(Choices(profile=make_profile()), clock=HandClock())
    seen = [state.situation.night]
    with qtbot.waitSignal(state.changed, check_params_cb=lambda change: change.of(Situation.has_sky)):
        state.prepare_sky()
    seen.append(state.situation.night)
    state.jobs.close()
    assert [night is not None for night in seen] == [False, True]


class Handed(QObject):
    """What jobs hand over, as a signal to wait on."""

    over = Signal(object)


def test_a_result_that_has_become_stale_is_dropped(qtbot: QtBot) -> None:
    jobs, handed = Jobs(), Handed()
    got: list[object] = []
    handed.over.connect(got.append)
    first_may_end = threading.Event()

    # They run one after the other, so that what the first gives would come before the second.
    with qtbot.waitSignal(handed.over, check_params_cb=lambda result: result == "second"):
        jobs.submit("x", lambda: first_may_end.wait() and "first", handed.over.emit)
        jobs.submit("x", lambda: "second", handed.over.emit)
        first_may_end.set()
    with qtbot.waitSignal(handed.over):
        jobs.submit("x", lambda: "third", handed.over.emit)

    assert got == ["second", "third"]
    jobs.close()


def test_a_job_that_fails_hands_over_its_error_on_the_window_s_thread(qtbot: QtBot) -> None:
    jobs, handed = Jobs(), Handed()
    seen: list[tuple[str, threading.Thread]] = []

    def fail() -> None:
        raise ValueError("no luck")

    def note(error: Exception) -> None:
        seen.append((str(error), threading.current_thread()))
        handed.over.emit(error)

    with qtbot.waitSignal(handed.over):
        jobs.submit("x", fail, print, note)

    assert seen == [("no luck", threading.main_thread())]
    jobs.close()


# What changes and what does not.


def test_renaming_the_observer_touches_nothing_that_is_drawn(state: AppState) -> None:
    changed = differing(state, lambda: state.edit_profile("Rename", renamed(state.profile, "Rui")))
    assert changed == set()


def test_another_profile_forgets_what_was_chosen_and_keeps_the_window_s_looks(state: AppState) -> None:
    state.set_palette("night")
    state.set_planet(Body.URANUS)
    state.set_rung(240)
    state.load(make_profile(), None)
    assert state.choices == Choices(profile=state.profile, palette_name="night")


def test_a_step_is_judged_on_one_planet_through_one_telescope(make_state: Callable[..., AppState]) -> None:
    state = make_state()
    state.set_planet(Body.URANUS)  # up at this hour, as Saturn is
    judged = []
    for planet, scope in ((Body.SATURN, 0), (Body.SATURN, 1)):
        state.step_rung(1)
        judged.append(state.situation.can_be_judged)
        state.set_planet(planet)
        state.set_scope(state.profile.telescopes[scope].id)
        judged.append(state.situation.can_be_judged)
    assert judged == [True, False, True, False]


def test_a_rung_that_is_only_passed_by_is_not_what_the_next_is_judged_against(
    make_state: Callable[..., AppState], clock: HandClock
) -> None:
    state = make_state()
    state.set_rung(48.0)
    clock.move(timedelta(minutes=3))
    for power in (96.0, 120.0):  # keys through the ladder, a second apart
        state.set_rung(power)
        clock.move(timedelta(seconds=1))
    assert state.choices.power_before == 48.0

    clock.move(timedelta(minutes=2))
    state.set_rung(150.0)
    assert state.choices.power_before == 120.0

    # Up and straight back is no step at all.
    clock.move(timedelta(minutes=2))
    state.set_rung(240.0)
    state.set_rung(150.0)
    assert not state.situation.can_be_judged
