"""Questions to the kit: what to buy, what one more thing would give, and what gives a wanted power."""

from enum import StrEnum
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from core.gear.figures import parse_power
from core.gear.owned import Barlow, Eyepiece
from core.ladder.ladder import Ladder
from core.ladder.wishes import parse_thing
from core.words.buying import buying_sentence, wanted_sentence, what_if_sentence
from core.words.notices import claimed_power_text
from core.words.quantities import power_text
from core.words.tips import KIT_QUESTIONS
from core.words.units import Units
from gui.state import AppState
from gui.widgets.combo_box import CalmComboBox
from gui.widgets.field import Reading
from gui.widgets.plain_label import PlainLabel
from gui.widgets.readings import reads
from gui.widgets.typed_field import TypedField

_HIGHEST_POWER = 2000.0


class Question(StrEnum):
    """What can be asked, by the words shown."""

    WHAT_IF = "What if I had"
    WANTED = "What gives me"
    CLAIMED = "The box promises"


class Questions(QWidget):
    """A question to choose, a line to type its figure in, and the answer under it; nothing of it is kept.

    While nothing is typed the answer is what to buy. What is typed after "What if I had" is tried out: the
    ladder shows it dashed.
    """

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.state = state
        self.question = CalmComboBox()
        self.question.setAccessibleName("Question about the kit")
        self.question.setToolTip(KIT_QUESTIONS)
        self.question.addItems([question.value for question in Question])
        read_power = reads(partial(parse_power, high=_HIGHEST_POWER))
        self.fields = {
            Question.WHAT_IF: TypedField(
                "thing",
                "Eyepiece or Barlow not owned",
                read=self._read_thing,
                write=lambda thing: thing.name,
                optional=True,
                placeholder="6 mm or 2.5x",
            ),
            Question.WANTED: TypedField(
                "wanted", "Wanted power", read=read_power, write=power_text, optional=True, placeholder="200x"
            ),
            Question.CLAIMED: TypedField(
                "claimed",
                "Power promised by the maker",
                read=read_power,
                write=power_text,
                optional=True,
                placeholder="525x",
            ),
        }
        self.answer = PlainLabel(wraps=True)
        self._lay_out()
        self.question.currentIndexChanged.connect(lambda _index: self._choose())
        for field in self.fields.values():
            field.edited.connect(self._ask)
        self._choose()

    @property
    def asked(self) -> Question:
        """The question that is chosen."""
        return list(Question)[self.question.currentIndex()]

    @property
    def field(self) -> TypedField:
        """The line of the question that is chosen."""
        return self.fields[self.asked]

    def refresh(self) -> None:
        """Answer anew for the kit and the scope in hand."""
        ladder = self.state.situation.ladder
        value = self.field.reading.value
        self.answer.show_words("" if ladder is None else self._answer(ladder, value))

    def _lay_out(self) -> None:
        line = QHBoxLayout()
        line.addWidget(self.question, 0, Qt.AlignmentFlag.AlignTop)
        for field in self.fields.values():
            line.addWidget(field, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(line)
        column.addWidget(self.answer)

    def _choose(self) -> None:
        for question, field in self.fields.items():
            field.setVisible(question is self.asked)
        self._ask()

    def _ask(self) -> None:
        """Try out what is typed, and answer."""
        self.state.try_out(self.field.reading.value if self.asked is Question.WHAT_IF else None)
        self.refresh()

    def _answer(self, ladder: Ladder, value: object) -> str:
        if value is None:
            # What has been typed is no figure yet, which stands under the line.
            return buying_sentence(ladder.scope, self.state.situation.to_buy) if self.field.is_blank else ""
        if self.asked is Question.WHAT_IF:
            return what_if_sentence(ladder, self.state.situation.trial)
        assert isinstance(value, float)
        if self.asked is Question.WANTED:
            return wanted_sentence(ladder, self.state.profile.barlows, value)
        units = Units(self.state.profile.preferences)
        return claimed_power_text(value, ladder.scope.aperture_mm, units)

    def _read_thing(self, text: str) -> Reading[Eyepiece | Barlow]:
        return reads(partial(parse_thing, scope=self.state.situation.scope))(text)
