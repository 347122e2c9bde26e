"""The row that tells the ladder about tonight's air, and which filter is in."""

from functools import partial

from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QButtonGroup, QCheckBox, QHBoxLayout, QPushButton, QWidget

from core.air.blur import BLUR_ARCSEC, Blur, BlurSource
from core.air.first_look import SCALE_STEPS, FirstLook, ScaleStep
from core.air.usual_air import LIFTED_AIR_POWER, USUAL_AIR_POWER
from core.gear.numbers import parse_within
from core.situation.situation import Situation
from core.words.air import FIRST_LOOK_KEYS, judged_where_words, step_words
from core.words.controls import FIRST_LOOK, KEY, LIFT
from core.words.filters import FILTER_IN, filter_choices
from core.words.quantities import figures_text, power_text
from core.words.tips import BY_A_SCALE
from gui.state import AppState, Change
from gui.widgets.all_lines import AllLines
from gui.widgets.folding_row import FoldingRow
from gui.widgets.live_figure import LiveFigure
from gui.widgets.pickers import Picker
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_tip import plain_tip

_STEPS = ((None, "by a scale"), *((step, step_words(step)) for step in SCALE_STEPS))


class AirRow(AllLines):
    """A first look at the air, the owner's own figure, the lift of the usual limit; the filter that is in."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.first_look_buttons = {look: _choice(look) for look in FirstLook}
        self.group = QButtonGroup(self)
        self.where = PlainLabel(role="small")
        self.scales = Picker("The air (seeing) by a scale of five or ten steps", letters=12)
        self.scales.setToolTip(BY_A_SCALE)
        self.blur = LiveFigure(
            letters=5,
            read=_blur_of,
            take=state.set_blur,
            in_force=lambda: state.choices.blur,
            write=lambda: figures_text(state.situation.blur_now.overhead_arcsec, 3),
        )
        self.blur.setAccessibleName("Blur overhead, arcsec")
        self.problem = self.blur.problem
        self.lift = QCheckBox(LIFT.format(power=power_text(LIFTED_AIR_POWER)))
        self.lift.setAccessibleDescription("A rare steady night allows more than the usual 300x")
        self.filter = Picker(FILTER_IN, letters=8)
        self.with_filter = QWidget()
        self._lay_out()
        self._connect()
        state.changed.connect(self._on_changed)
        self._show()

    def _lay_out(self) -> None:
        row = FoldingRow(self, spacing=6)
        row.addWidget(PlainLabel("The air (seeing) looks"))
        for look, button in self.first_look_buttons.items():
            self.group.addButton(button)
            row.addWidget(button)
            button.setAccessibleDescription(FIRST_LOOK.format(look=look.value))
        row.addWidget(PlainLabel("or"))
        row.addWidget(self.scales)
        row.addWidget(self.where)
        row.addWidget(self._blur_with_words())
        row.addWidget(self.problem)
        row.addWidget(self.lift)
        row.addWidget(self.with_filter)
        filters = QHBoxLayout(self.with_filter)
        filters.setContentsMargins(0, 0, 0, 0)
        filters.addWidget(PlainLabel(FILTER_IN))
        filters.addWidget(self.filter)
        # Nothing has been said about the air at first, which a group of its own would not allow to show.
        self.group.setExclusive(False)

    def _blur_with_words(self) -> QWidget:
        """Return the field for a figure with its words, which stay on one line with it."""
        group = QWidget()
        row = QHBoxLayout(group)
        row.setContentsMargins(0, 0, 0, 0)
        for part in (PlainLabel("or blur"), self.blur, PlainLabel("″ overhead")):
            row.addWidget(part)
        return group

    def _connect(self) -> None:
        for look, button in self.first_look_buttons.items():
            key = FIRST_LOOK_KEYS[look]
            button.clicked.connect(partial(self._state.set_first_look, look))
            # A bare key, usable in gloves, wherever the keyboard is while this row is seen.
            QShortcut(QKeySequence(key), self).activated.connect(button.click)
            button.setToolTip(plain_tip(KEY.format(key=key)))
        self.scales.picked.connect(self._take_step)
        self.lift.toggled.connect(self._take_lift)
        self.filter.picked.connect(self._state.put_in_filter)

    def _take_step(self, step: ScaleStep | None) -> None:
        if step is None:
            self._show()
        else:
            self._state.set_scale_step(step)

    def _take_lift(self, on: bool) -> None:
        self._state.set_usual_air(LIFTED_AIR_POWER if on else USUAL_AIR_POWER)

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.blur_now, Situation.usual_air, Situation.aim) or change.of(
            Situation.filter_in, Situation.profile
        ):
            self._show()

    def _show(self) -> None:
        for look, button in self.first_look_buttons.items():
            button.setChecked(look is self._state.situation.first_look)
        self.where.setText(judged_where_words(self._state.situation.aim))
        self.scales.show_items(_STEPS, self._state.situation.scale_step)
        self.blur.refresh()
        filters, filter_in = self._state.profile.filters, self._state.situation.filter_in
        self.with_filter.setVisible(bool(filters))
        self.filter.show_items(filter_choices(filters), "" if filter_in is None else filter_in.id)
        self.lift.setChecked(self._state.situation.usual_air > USUAL_AIR_POWER)


def _blur_of(text: str) -> Blur:
    return Blur(overhead_arcsec=parse_within(text, BLUR_ARCSEC, what="Blur"), source=BlurSource.GIVEN)


def _choice(look: FirstLook) -> QPushButton:
    button = QPushButton(look.value.capitalize())
    button.setCheckable(True)
    return button
