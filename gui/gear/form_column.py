"""The middle of the gear view: the form of what is open, and what to add next."""

import importlib
from typing import Any

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QStackedWidget, QStyle, QVBoxLayout, QWidget

from core.words.gear_edits import NEW_THING
from core.words.owned_kinds import Kind
from gui.gear.form import OwnedForm
from gui.gear.group_page import GroupPage
from gui.gear.next_step import NextStepBar, next_step
from gui.gear.owned_edits import things_of
from gui.gear.owned_list import NEW, OwnedRow
from gui.state import AppState
from gui.widgets.plain_label import PlainLabel

_LEAST_LETTERS = 41
_MOST_LETTERS = 68


class FormColumn(QWidget):
    """One form for each kind, of which one is open; texts not accepted are kept while others are open.

    Signals
    -------
    add_wanted
        The kind of thing that a button asks to add.
    """

    add_wanted = Signal(object)

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.state = state
        self._forms: dict[Kind, OwnedForm[Any]] = {}
        self.group_page = GroupPage()
        self.next = NextStepBar()
        self._title = PlainLabel(role="heading", wraps=True)
        self._pages = QStackedWidget()
        self._page_of: dict[QWidget, QWidget] = {}
        self._place: OwnedRow | None = None
        # By kind and id; a new thing has none yet.
        self._unaccepted: dict[tuple[Kind, str], dict[str, str]] = {}
        self._add_page(self.group_page)
        self._limit_width()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._title)
        layout.addWidget(self._pages, 1)
        layout.addWidget(self.next)
        self.group_page.add_wanted.connect(self.add_wanted)
        self.next.wanted.connect(self.add_wanted)

    @property
    def form(self) -> OwnedForm[Any] | None:
        """The form that is open, or None."""
        place = self._place
        if place is None or (place.index is None and place.kind is not Kind.OBSERVER):
            return None
        return self.form_of(place.kind)

    @property
    def unfinished(self) -> frozenset[Kind]:
        """The kinds of which a new thing has been begun and is not complete."""
        begun = {kind for kind, thing_id in self._unaccepted if not thing_id}
        if self._place is not None and self._place.index == NEW:
            begun.add(self._place.kind)
        return frozenset(begun)

    def form_of(self, kind: Kind) -> OwnedForm[Any]:
        """Return the form of a kind, which is made when it is first needed."""
        if kind not in self._forms:
            self._forms[kind] = _form_class(kind)(self.state)
            self._add_page(self._forms[kind])
        return self._forms[kind]

    def open(self, place: OwnedRow | None) -> None:
        """Open a thing, a new one, the page of a kind, or with None the welcome."""
        self._put_away()
        self._place = place
        form = self.form
        if form is not None and place is not None:
            texts = self._unaccepted.pop((place.kind, self._id()), None)
            form.open(None if place.index == NEW else place.index, texts)
            scroll = self._page_of[form]
            assert isinstance(scroll, QScrollArea)
            scroll.verticalScrollBar().setValue(0)
        self._pages.setCurrentWidget(self._page_of[form or self.group_page])
        self.refresh()

    def follow(self, place: OwnedRow) -> None:
        """Take note that what is open now has another place; what is typed stays."""
        self._place = place
        if (form := self.form) is not None:
            form.index = None if place.index == NEW else place.index

    def refresh(self) -> None:
        """Bring in what has changed in the profile."""
        profile, place, form = self.state.profile, self._place, self.form
        if form is not None:
            form.refresh()
        elif place is None:
            self.group_page.welcome(Kind.SITE)
        else:
            self.group_page.show_kind(profile, place.kind)
        self._title.setText(self._heading())
        step = next_step(profile)
        is_offered_here = form is None and place is not None and step is not None and step.kind is place.kind
        is_begun = place is None or place.index == NEW
        self.next.show_step(None if is_offered_here or is_begun else step)

    def focus_form(self) -> None:
        """Put the keyboard into the first field."""
        if (form := self.form) is not None:
            next(iter(form.fields.values())).setFocus()

    def drop_new(self) -> None:
        """Forget the new thing that is open."""
        self._place = None

    def forget(self) -> None:
        """Forget all that has been typed and not accepted: another profile is open now."""
        self._place = None
        self._unaccepted.clear()

    def _add_page(self, page: QWidget) -> None:
        self._page_of[page] = _scrolling(page)
        self._pages.addWidget(self._page_of[page])
        self._limit_width()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self._limit_width()

    def _limit_width(self) -> None:
        """Leave the room of a wide window to the table; lines of words stay easy to read."""
        letter_px = self.fontMetrics().averageCharWidth()
        bar_px = self.style().pixelMetric(QStyle.PixelMetric.PM_ScrollBarExtent)
        widest = max((page.minimumSizeHint().width() for page in self._page_of), default=0)
        least = max(_LEAST_LETTERS * letter_px, widest + bar_px)
        self.setMinimumWidth(least)
        self.setMaximumWidth(max(_MOST_LETTERS * letter_px, least))

    def _put_away(self) -> None:
        """Keep what has been typed and not accepted for when the thing is opened again."""
        form = self.form
        if form is not None and self._place is not None and (texts := form.unaccepted):
            self._unaccepted[self._place.kind, self._id()] = texts

    def _id(self) -> str:
        """Return the id of what is open; a new thing has none."""
        place = self._place
        if place is None or place.index is None:
            return Kind.OBSERVER.value
        return "" if place.index == NEW else things_of(self.state.profile, place.kind)[place.index].id

    def _heading(self) -> str:
        place = self._place
        if place is None:
            return "Welcome"
        if place.index is None:
            return place.kind.heading
        if place.index == NEW:
            return NEW_THING.format(kind=place.kind.singular)
        return things_of(self.state.profile, place.kind)[place.index].name


def _form_class(kind: Kind) -> type[OwnedForm[Any]]:
    """Return the form of a kind, from the file that is named for it."""
    importlib.import_module(f"gui.gear.{kind.stem}_form")
    return next(form for form in OwnedForm.__subclasses__() if form.kind is kind)


def _scrolling(page: QWidget) -> QScrollArea:
    area = QScrollArea()
    area.setWidget(page)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    page.setObjectName("page")
    return area
