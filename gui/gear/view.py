"""The gear view: what is owned, the form of the chosen thing, and what it gives."""

from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QHBoxLayout, QVBoxLayout, QWidget

from core.ladder.contenders import offered_picks
from core.record.observer import Profile
from core.situation.situation import Situation
from core.words.gear_edits import COPY, MOVE_DOWN, MOVE_UP, REMOVE, REMOVED
from core.words.owned_kinds import LISTED, Kind
from gui.gear.columns import Columns
from gui.gear.form_column import FormColumn
from gui.gear.gives_panel import GivesPanel
from gui.gear.owned_edits import Thing, copied, moved, removed, things_of
from gui.gear.owned_list import NEW, OwnedList, OwnedRow
from gui.state import AppState, Change
from gui.widgets.in_sight import InSight
from gui.widgets.one_page import OnePage
from gui.widgets.scroll_column import ScrollColumn

if TYPE_CHECKING:
    from gui.gear.side_by_side import SideBySide

# What the right column depends on, and what the page of two scopes.
_GIVES_BY = (
    *(Situation.profile, Situation.ladder, Situation.to_buy, Situation.trial),
    *(Situation.first_pick, Situation.second_pick, Situation.evening, Situation.palette_name),
    Situation.appearance,
)
_SIDE_BY_SIDE_BY = (
    *(Situation.profile, Situation.first_pick, Situation.second_pick, Situation.comparison),
    *(Situation.compared_to_buy, Situation.compared_wished, Situation.evening, Situation.palette_name),
)
_COLUMNS, _TWO_SCOPES = range(2)
_MARGIN_PX = 12


class GearView(QWidget):
    """Three columns, and two scopes side by side on a page of their own."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.state = state
        self.owned = OwnedList()
        self.form_column = FormColumn(state)
        self.gives = GivesPanel(state)
        self._pages = OnePage()
        self._columns = QWidget()
        self._place: OwnedRow | None = None
        self._known_ids: dict[Kind, list[str]] = {}
        self._lay_out()
        self.owned.chosen.connect(self._open)
        self.owned.add_wanted.connect(self.add)
        self.owned.copy_wanted.connect(self._copy)
        self.owned.remove_wanted.connect(self._remove)
        self.owned.move_wanted.connect(self._move)
        self.form_column.add_wanted.connect(self.add)
        self.gives.side_by_side_wanted.connect(lambda: self.show_side_by_side(True))
        state.changed.connect(self._on_changed)
        InSight(self.gives, state, _GIVES_BY, self.gives.refresh)
        state.loaded.connect(self._take_up_profile)
        self._take_up_profile()

    @property
    def place(self) -> OwnedRow | None:
        """What is open: a thing, a kind, or None in an empty profile."""
        return self._place

    @cached_property
    def side_by_side(self) -> "SideBySide":
        """The page of two scopes, made when it is first shown."""
        from gui.gear.side_by_side import SideBySide

        page = SideBySide(self.state)
        page.refresh()
        page.left.connect(lambda: self.show_side_by_side(False))
        InSight(page, self.state, _SIDE_BY_SIDE_BY, page.refresh)
        return page

    @property
    def _shows_columns(self) -> bool:
        return self._pages.currentWidget() is self._columns

    def show_side_by_side(self, shown: bool) -> None:
        """Show two scopes side by side, or go back to the three columns."""
        situation = self.state.situation
        if shown and situation.second_pick is None:
            self.state.compare_second(offered_picks(situation.profile, beside=situation.first_pick)[0])
        if shown:
            self._pages.show_page(_TWO_SCOPES)
            self.side_by_side.back.setFocus()
        elif not self._shows_columns:
            self._pages.show_page(_COLUMNS)
            self.gives.show_side_by_side.setFocus()

    def add(self, kind: Kind) -> None:
        """Begin a new thing of a kind."""
        self._open(OwnedRow(kind, NEW))
        self.form_column.focus_form()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        # A window with a menu takes these before; on its own the view does.
        if event.matches(QKeySequence.StandardKey.Undo):
            self.state.undo_stack.undo()
        elif event.matches(QKeySequence.StandardKey.Redo):
            self.state.undo_stack.redo()
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        columns = QHBoxLayout(self._columns)
        columns.setContentsMargins(_MARGIN_PX, _MARGIN_PX, _MARGIN_PX, _MARGIN_PX)
        columns.addWidget(Columns((self.owned, self.form_column, ScrollColumn(self.gives))))
        self._pages.addWidget(self._columns)
        self._pages.add_later(lambda: self.side_by_side)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._pages)

    # What is open.

    def _take_up_profile(self) -> None:
        """Show a profile that has just been opened, beginning with the scope in hand."""
        profile, scope = self.state.profile, self.state.situation.scope
        self.form_column.forget()
        self._known_ids = _ids(profile)
        self._place = None
        if scope is not None:
            self._place = OwnedRow(Kind.TELESCOPE, profile.telescopes.index(scope))
        elif any(things_of(profile, kind) for kind in LISTED):
            self._place = OwnedRow(Kind.TELESCOPE)
        self.form_column.open(self._place)
        self._show_list()
        # An empty profile begins with its one obvious button.
        self.setFocusProxy(self.form_column.group_page.button if self._place is None else self.owned.tree)

    def _open(self, place: OwnedRow) -> None:
        """Open what a row stands for; a telescope or a site is taken in hand with it."""
        if place != self._place:
            self._show_place(place)
            self._take_in_hand()

    def _show_place(self, place: OwnedRow) -> None:
        self._place = place
        self.form_column.open(place)
        self._show_list()

    def _take_in_hand(self) -> None:
        thing, place = self._thing(), self._place
        if thing is None or place is None:
            return
        if place.kind is Kind.TELESCOPE and thing is not self.state.situation.scope:
            self.state.set_scope(thing.id)
        elif place.kind is Kind.SITE and thing is not self.state.situation.site:
            self.state.set_site(thing.id)

    def _thing(self) -> Thing | None:
        place = self._place
        if place is None or place.index in (None, NEW):
            return None
        things = things_of(self.state.profile, place.kind)
        assert place.index is not None
        return things[place.index] if place.index < len(things) else None

    def _show_list(self) -> None:
        in_hand = {
            thing.id for thing in (self.state.situation.scope, self.state.situation.site) if thing is not None
        }
        self.owned.show_profile(
            self.state.profile,
            in_hand=frozenset(in_hand),
            unfinished=self.form_column.unfinished,
            place=self._place,
        )

    # Edits of the list.

    def _copy(self) -> None:
        place, thing = self._place, self._thing()
        if place is not None and place.index is not None and thing is not None:
            self.state.edit_profile(
                COPY.format(name=thing.name), copied(self.state.profile, place.kind, place.index)
            )

    def _remove(self) -> None:
        place, thing = self._place, self._thing()
        if place is None or place.index is None:
            return
        if place.index == NEW:
            self.form_column.drop_new()
            self._open(OwnedRow(place.kind))
        elif thing is not None:
            self.state.edit_profile(
                REMOVE.format(name=thing.name), removed(self.state.profile, place.kind, place.index)
            )
            self.state.tell(REMOVED.format(name=thing.name))

    def _move(self, step: int) -> None:
        place, thing = self._place, self._thing()
        if place is not None and place.index is not None and thing is not None:
            after = moved(self.state.profile, place.kind, place.index, step)
            template = MOVE_UP if step < 0 else MOVE_DOWN
            self.state.edit_profile(template.format(name=thing.name), after)

    # What has changed.

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.profile):
            self._on_edited()
        elif change.of(Situation.scope, Situation.site):
            self._show_list()

    def _on_edited(self) -> None:
        """Keep what is open in sight after an edit, an undo or a redo."""
        before, self._known_ids = self._known_ids, _ids(self.state.profile)
        form, place = self.form_column.form, self._place
        if place is not None and place.index == NEW and form is not None and form.index is not None:
            # The new thing has just become complete.
            self._place = OwnedRow(place.kind, form.index)
            self.form_column.follow(self._place)
        elif place is not None and place.index not in (None, NEW) and form is not None and form.index is None:
            # What had come by the first letters of a figure is incomplete again.
            self._place = OwnedRow(place.kind, NEW)
            self.form_column.follow(self._place)
        elif QApplication.activeModalWidget() is not None:
            # Somebody is being set up, which ends with the telescope and what it gives.
            self._take_up_profile()
        elif self._shows_columns and (newcomer := _newcomer(before, self._known_ids)) is not None:
            # Another thing may have stood in this place a moment ago.
            self._place = None
            self._show_place(newcomer)
        elif place is not None and place.index not in (None, NEW):
            self._follow(place, before[place.kind])
        self.form_column.refresh()
        self._show_list()

    def _follow(self, place: OwnedRow, ids_before: list[str]) -> None:
        """Follow the thing that is open to its new place, or go to its neighbour when it is gone."""
        assert place.index is not None
        ids = self._known_ids[place.kind]
        own_id = ids_before[place.index]
        if own_id in ids:
            self._place = OwnedRow(place.kind, ids.index(own_id))
            self.form_column.follow(self._place)
        else:
            self.form_column.drop_new()
            self._place = None
            self._show_place(OwnedRow(place.kind, min(place.index, len(ids) - 1) if ids else None))


def _ids(profile: Profile) -> dict[Kind, list[str]]:
    return {kind: [thing.id for thing in things_of(profile, kind)] for kind in LISTED}


def _newcomer(before: dict[Kind, list[str]], after: dict[Kind, list[str]]) -> OwnedRow | None:
    """Return the place of the one thing that has come, if there is one."""
    for kind, ids in after.items():
        new = [index for index, thing_id in enumerate(ids) if thing_id not in before[kind]]
        if new:
            return OwnedRow(kind, new[0])
    return None
