"""A line for a figure that counts with every key, outside the forms of what is owned."""

from collections.abc import Callable
from typing import Generic, TypeVar

from PySide6.QtWidgets import QWidget

from core.problems import ProblemsError
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit

V = TypeVar("V")


class LiveFigure(PlainLineEdit, Generic[V]):
    """Takes what is typed at once; a text that is refused stays, and its reason stands in ``problem``.

    ``read`` turns a text into a value or raises ProblemsError, ``take`` puts a value in force, ``in_force``
    tells which is, and ``write`` gives it as text.
    """

    def __init__(
        self,
        *,
        letters: int,
        read: Callable[[str], V],
        take: Callable[[V], None],
        in_force: Callable[[], V],
        write: Callable[[], str],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent, letters=letters)
        self.problem = PlainLabel(role="problem")
        self._read = read
        self._put_in_force = take
        self._in_force = in_force
        self._write = write
        self._before = in_force()
        self.entered.connect(self._note)
        self.textEdited.connect(self._take)
        self.took_back.connect(self._show_figure)
        self.editingFinished.connect(self._note)
        self.editingFinished.connect(self.refresh)

    def refresh(self) -> None:
        """Write the figure that is in force, unless somebody is typing."""
        if not self.hasFocus() and not self.holds_unaccepted:
            self._show_figure()

    def _note(self) -> None:
        """Take note of what is in force before anything is typed."""
        self.holds_unaccepted = False
        self._before = self._in_force()

    def _take(self, text: str) -> None:
        try:
            value = self._read(text)
        except ProblemsError as error:
            self.problem.setText(str(error))
            self.holds_unaccepted = True
            # No digit of a refused figure stays in force.
            self._put_in_force(self._before)
            return
        self.problem.setText("")
        self.holds_unaccepted = False
        self._put_in_force(value)

    def _show_figure(self) -> None:
        self.holds_unaccepted = False
        self.setText(self._write())
        self.problem.setText("")
