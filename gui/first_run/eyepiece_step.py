"""Which eyepieces, and which Barlow."""

from functools import partial

from attrs import evolve
from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from core.gear.figures import ZoomRange, parse_eyepiece_mm
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.gear.starter import (
    StarterKit,
    usual_barlow,
    usual_barlow_factors,
    usual_eyepiece,
    usual_eyepieces_mm,
)
from core.record.observer import Profile
from core.words.gear_edits import ZOOM_NAME
from core.words.quantities import length_text, trimmed_text
from core.words.set_up import EYEPIECE_ADVICE, NO_EYEPIECE, WHICH_EYEPIECES
from gui.first_run.step import Hold, Step
from gui.widgets.plain_label import PlainLabel
from gui.widgets.readings import reads
from gui.widgets.typed_field import TypedField

_BOXES_IN_A_ROW = 5


class EyepieceStep(Step):
    """Boxes for the usual focal lengths and factors, and a line for others."""

    title = "Eyepieces"
    question = WHICH_EYEPIECES
    advice = EYEPIECE_ADVICE

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._kit: StarterKit | None = None
        self._scope: Telescope | None = None
        self._by_hand: set[float] = set()
        self._has_some = False
        self.eyepieces = {length: QCheckBox(length_text(length), self) for length in usual_eyepieces_mm()}
        self.barlows = {
            factor: QCheckBox(f"{trimmed_text(factor, 2)}x", self) for factor in usual_barlow_factors()
        }
        self.others = TypedField(
            "others", "Other eyepieces", read=reads(_parse_eyepieces), write=str, optional=True
        )
        self.others.editor.setPlaceholderText("such as 6.3; 8-24; 30")
        self._lay_out()

    def on_shown(self, profile: Profile) -> None:
        self._scope = profile.telescopes[0] if profile.telescopes else None
        self._has_some = bool(profile.eyepieces)

    def take_kit(self, kit: StarterKit | None) -> None:
        """Tick what mostly comes with a scope, when another one has been picked; what a hand ticked stays."""
        if kit == self._kit:
            return
        self._kit = kit
        for length, box in self.eyepieces.items():
            if length not in self._by_hand:
                box.setChecked(kit is not None and length in kit.eyepieces_mm)

    def settle(self) -> Hold | None:
        if not self.others.reading.is_good:
            return Hold(self.others.reading.problem)
        needs_none = self._scope is None or self._scope.kind is TelescopeKind.FIXED
        if needs_none or self._has_some or self._eyepieces():
            return None
        return Hold(NO_EYEPIECE, may_pass=True)

    def added_to(self, profile: Profile) -> Profile:
        return evolve(
            profile,
            eyepieces=self._eyepieces() or profile.eyepieces,
            barlows=self._barlows() or profile.barlows,
        )

    def _eyepieces(self) -> tuple[Eyepiece, ...]:
        ticked = {length for length, box in self.eyepieces.items() if box.isChecked()}
        others: tuple[ZoomRange, ...] = self.others.reading.value or ()
        single = sorted(ticked | {other.low_mm for other in others if other.high_mm is None}, reverse=True)
        zooms = dict.fromkeys(other for other in others if other.high_mm is not None)
        return (
            *(usual_eyepiece(length, scope=self._scope) for length in single),
            *(_zoom(zoom) for zoom in zooms),
        )

    def _barlows(self) -> tuple[Barlow, ...]:
        return tuple(
            usual_barlow(factor, scope=self._scope) for factor, box in self.barlows.items() if box.isChecked()
        )

    def _lay_out(self) -> None:
        for words, boxes in (("Eyepieces", self.eyepieces), ("Barlow lenses", self.barlows)):
            self.column.addWidget(PlainLabel(words, role="heading"))
            grid = QGridLayout()
            for number, box in enumerate(boxes.values()):
                grid.addWidget(box, *divmod(number, _BOXES_IN_A_ROW))
                box.clicked.connect(lambda _checked: self.answered.emit())
            grid.setColumnStretch(_BOXES_IN_A_ROW, 1)
            self.column.addLayout(grid)
            if boxes is self.eyepieces:
                self.column.addWidget(
                    PlainLabel("Others, separated by semicolons; a zoom like 8-24", role="faint")
                )
                self.column.addWidget(self.others)
        for length, box in self.eyepieces.items():
            box.clicked.connect(partial(self._by_hand.add, length))
        self.others.edited.connect(self.answered)
        self.others.editor.returnPressed.connect(self.done)
        self.column.addStretch(1)
        self.setFocusProxy(next(iter(self.eyepieces.values())))


def _parse_eyepieces(text: str) -> tuple[ZoomRange, ...]:
    return tuple(parse_eyepiece_mm(part) for part in text.split(";") if part.strip())


def _zoom(zoom: ZoomRange) -> Eyepiece:
    assert zoom.high_mm is not None
    return Eyepiece(
        name=ZOOM_NAME.format(low=trimmed_text(zoom.low_mm, 2), high=length_text(zoom.high_mm)),
        focal_length_min_mm=zoom.low_mm,
        focal_length_max_mm=zoom.high_mm,
    )
