"""Views are thin: none of them chooses or edits anything while it shows what has changed."""

from collections.abc import Callable
from datetime import date

import pytest
from attrs import evolve
from PySide6.QtWidgets import QApplication

from core.ladder.contenders import Pick
from core.situation.choices import Choices
from core.sky.bodies import Body
from gui.gear.view import GearView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import SMALL, make_profile


@pytest.fixture
def watched(monkeypatch: pytest.MonkeyPatch) -> None:
    """Fail as soon as something is chosen while the views are being told of a change."""
    take = AppState._take
    telling: list[AppState] = []

    def take_once(self: AppState, choices: Choices, *, has_sky: bool | None = None) -> None:
        assert not telling, "a view has written while it was told of a change"
        telling.append(self)
        try:
            take(self, choices, has_sky=has_sky)
        finally:
            telling.pop()

    monkeypatch.setattr(AppState, "_take", take_once)


def acts(state: AppState) -> tuple[Callable[[], object], ...]:
    """Return what a person may do to a profile and to what is looked at, in an order that makes sense."""
    third = evolve(SMALL, name="Third", id="")

    def edit(**changes: object) -> Callable[[], None]:
        return lambda: state.edit_profile("Edit", evolve(state.profile, **changes))  # type: ignore[arg-type]

    return (
        lambda: state.edit_profile(
            "Add", evolve(state.profile, telescopes=(*state.profile.telescopes, third))
        ),
        lambda: state.edit_profile("Remove", evolve(state.profile, telescopes=state.profile.telescopes[:-1])),
        state.undo_stack.undo,
        state.undo_stack.undo,
        state.undo_stack.redo,
        edit(eyepieces=()),
        edit(sites=()),
        state.undo_stack.undo,
        state.undo_stack.undo,
        lambda: state.compare_second(Pick(state.profile.telescopes[1].id)),
        state.swap_compared,
        lambda: state.set_site(state.profile.sites[1].id),
        lambda: state.set_planet(Body.VENUS),
        lambda: state.set_evening(date(2027, 3, 1)),
        lambda: state.set_time(state.situation.time),
        lambda: state.set_rung(100.0),
        state.show_tonight,
        lambda: state.set_palette("night"),
        lambda: state.set_text_scale(1.15),
        lambda: state.load(make_profile(), None),
    )


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_nothing_is_written_while_views_are_told(watched: None, shell: Shell, view: int) -> None:
    for number in (GEAR, HEIGHT, LADDER):
        shell.show_view(number)
    shell.show_view(view)
    for act in acts(shell.state):
        act()
        QApplication.processEvents()


def test_two_scopes_side_by_side_write_nothing_either(watched: None, shell: Shell) -> None:
    shell.show_view(GEAR)
    gear = shell.current_view
    assert isinstance(gear, GearView)
    gear.show_side_by_side(True)
    for act in acts(shell.state):
        act()
        QApplication.processEvents()


def test_a_telescope_that_has_come_is_taken_in_hand_and_for_one_that_has_gone_its_neighbour(
    state: AppState,
) -> None:
    third = evolve(SMALL, name="Third", id="")
    state.edit_profile("Add", evolve(state.profile, telescopes=(*state.profile.telescopes, third)))
    names = [state.situation.scope.name if state.situation.scope else ""]
    state.edit_profile("Remove", evolve(state.profile, telescopes=state.profile.telescopes[:-1]))
    names.append(state.situation.scope.name if state.situation.scope else "")
    assert names == ["Third", "Small refractor"]
