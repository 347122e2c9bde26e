"""Which telescope: a usual size, or one's own figures."""

from attrs import evolve
from PySide6.QtCore import QEvent, QSignalBlocker, QSize, Qt
from PySide6.QtWidgets import QBoxLayout, QListWidget, QListWidgetItem, QRadioButton, QVBoxLayout, QWidget

from core.gear.figures import FixedFigures, parse_aperture_mm, parse_fixed_instrument, parse_focal_length_mm
from core.gear.owned import Diagonal, Telescope, TelescopeKind
from core.gear.starter import StarterKit, kit_like, starter_kits
from core.problems import refuse
from core.record.observer import Profile
from core.words.cautions import TELESCOPE_AND_SUN
from core.words.gear_edits import TELESCOPE_NAME
from core.words.quantities import length_text
from core.words.set_up import (
    APERTURE_MISSING,
    FOCAL_LENGTH_MISSING,
    NO_SCOPE,
    OWN_FIGURES,
    POWER_AND_APERTURE,
    SCOPE_ADVICE,
    usual_size_text,
)
from gui.first_run.step import Hold, Step
from gui.widgets.folding_row import FoldingRow
from gui.widgets.in_room import InRoom
from gui.widgets.plain_label import PlainLabel
from gui.widgets.readings import figure, reads
from gui.widgets.signs import SignIcons, sign_size_px
from gui.widgets.typed_field import TypedField

_KIT = Qt.ItemDataRole.UserRole
# Around the sizes: space between, frame, scroll bar. So many of them are seen at least.
_AROUND_PX = 50
_LEAST_SIZES = 5
_KINDS = {
    TelescopeKind.REFLECTOR: "mirror, open tube (reflector)",
    TelescopeKind.REFRACTOR: "lens in front (refractor)",
    TelescopeKind.CATADIOPTRIC: "mirror, closed tube (catadioptric)",
    TelescopeKind.FIXED: "spotting scope or binoculars",
}


class ScopeStep(Step):
    """A kind, then a usual size of it or typed figures; typed figures win."""

    title = "Telescope"
    question = "Which telescope?"
    advice = SCOPE_ADVICE

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._scope: Telescope | None = None
        self._has_one = False
        self.kit: StarterKit | None = None
        self.kinds = {kind: QRadioButton(words, self) for kind, words in _KINDS.items()}
        self._icons = SignIcons()
        self.sizes = QListWidget(self)
        self.sizes.setAccessibleName("Usual sizes")
        self.sizes.setWordWrap(True)
        self.sizes.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.aperture = TypedField(
            "aperture_mm", "Aperture", read=reads(parse_aperture_mm), write=figure, optional=True, letters=9
        )
        self.focal_length = TypedField(
            "focal_length_mm",
            "Focal length",
            read=reads(self._parse_focal_length),
            write=figure,
            optional=True,
            letters=9,
        )
        self.power = TypedField(
            "power",
            "Power and aperture",
            read=reads(_parse_whole_instrument),
            write=str,
            optional=True,
            letters=11,
        )
        self._labels: dict[TypedField, PlainLabel] = {}
        self._lay_out()
        InRoom(self, self._arrange)
        self.setFocusProxy(self.sizes)
        self._choose_kind(TelescopeKind.REFLECTOR)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._draw_signs()

    def _draw_signs(self) -> None:
        side = sign_size_px(self.font())
        for kind, button in self.kinds.items():
            button.setIconSize(QSize(side, side))
            button.setIcon(self._icons.icon(kind, self.font()))

    def on_shown(self, profile: Profile) -> None:
        self._draw_signs()
        # The rows were measured before the style sheet gave them their room.
        self.sizes.doItemsLayout()
        self._has_one = bool(profile.telescopes)

    def settle(self) -> Hold | None:
        is_fixed = self.kind is TelescopeKind.FIXED
        fields = (self.power,) if is_fixed else (self.aperture, self.focal_length)
        for field in fields:
            if not field.reading.is_good:
                return Hold(field.reading.problem)
        if not is_fixed and self.aperture.is_blank != self.focal_length.is_blank:
            return Hold(APERTURE_MISSING if self.aperture.is_blank else FOCAL_LENGTH_MISSING)
        return None if self._scope or self._has_one else Hold(NO_SCOPE, may_pass=True)

    def added_to(self, profile: Profile) -> Profile:
        return evolve(profile, telescopes=(self._scope,) if self._scope else profile.telescopes)

    @property
    def kind(self) -> TelescopeKind:
        """The kind that is picked."""
        return next(kind for kind, button in self.kinds.items() if button.isChecked())

    def _lay_out(self) -> None:
        kinds, figures = QVBoxLayout(), QWidget()
        own = FoldingRow(figures, spacing=6)
        self._across = across = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        for kind, button in self.kinds.items():
            kinds.addWidget(button)
            button.clicked.connect(lambda _checked, kind=kind: self._choose_other_kind(kind))
        kinds.addStretch(1)
        across.addLayout(kinds)
        across.addWidget(self.sizes, 1)
        self.column.addLayout(across, 1)
        self.column.addWidget(PlainLabel(OWN_FIGURES, role="faint", wraps=True))
        for field, unit in ((self.aperture, "mm"), (self.focal_length, "mm"), (self.power, "")):
            field.set_unit(unit)
            label = PlainLabel(field.label)
            self._labels[field] = label
            own.addWidget(label)
            own.addWidget(field)
            field.edited.connect(self._take_figures)
        self.aperture.editor.returnPressed.connect(self.focal_length.setFocus)
        for field in (self.focal_length, self.power):
            field.editor.returnPressed.connect(self._finish_figures)
        self.column.addWidget(figures)
        self.column.addWidget(PlainLabel(TELESCOPE_AND_SUN, role="caution", wraps=True))
        # Selected, and not current: that the first one becomes as soon as the keyboard comes to the list.
        self.sizes.itemSelectionChanged.connect(self._take_selected)
        self.sizes.itemActivated.connect(self._take_at_once)

    def _arrange(self) -> None:
        # Where letters are large the sizes go under the kinds.
        wanted = max(button.sizeHint().width() for button in self.kinds.values())
        wanted += self.sizes.sizeHintForColumn(0) + _AROUND_PX
        directions = QBoxLayout.Direction
        self._across.setDirection(
            directions.LeftToRight if wanted <= self.width() else directions.TopToBottom
        )
        self.sizes.setMinimumHeight(_LEAST_SIZES * self.fontMetrics().lineSpacing())

    def _choose_other_kind(self, kind: TelescopeKind) -> None:
        """Go on to another kind; a size of the former one is no answer any more."""
        if self._scope is not None and self._scope.kind is not kind:
            self._scope = self.kit = None
        self._choose_kind(kind)
        self.answered.emit()

    def _choose_kind(self, kind: TelescopeKind) -> None:
        self.kinds[kind].setChecked(True)
        with QSignalBlocker(self.sizes):
            # A list that empties row by row picks each row's neighbour in turn.
            self.sizes.clear()
        for kit in starter_kits():
            if kit.telescope.kind is kind:
                item = QListWidgetItem(usual_size_text(kit.telescope))
                item.setData(_KIT, kit)
                self.sizes.addItem(item)
        is_fixed = kind is TelescopeKind.FIXED
        for field, label in self._labels.items():
            field.setVisible((field is self.power) is is_fixed)
            label.setVisible((field is self.power) is is_fixed)
        self._take_figures()

    def _take_selected(self) -> None:
        for item in self.sizes.selectedItems():
            self._take_kit(item)

    def _take_at_once(self, item: QListWidgetItem) -> None:
        self._take_kit(item)
        self.done.emit()

    def _take_kit(self, item: QListWidgetItem) -> None:
        for field in (self.aperture, self.focal_length, self.power):
            field.reset()
        self.kit = item.data(_KIT)
        assert self.kit is not None
        self._scope = self.kit.telescope
        self.answered.emit()

    def _take_figures(self) -> None:
        """Take the typed figures once they are whole; half of them changes nothing yet."""
        scope = self._fixed_instrument() if self.kind is TelescopeKind.FIXED else self._telescope()
        if scope is not None:
            self._scope, self.kit = scope, kit_like(scope)
            self.sizes.setCurrentRow(-1)
            self.answered.emit()

    def _finish_figures(self) -> None:
        """Go on once the typed figures are a telescope."""
        if self._fixed_instrument() is not None or self._telescope() is not None:
            self.done.emit()

    def _telescope(self) -> Telescope | None:
        aperture_mm, focal_length_mm = self.aperture.reading.value, self.focal_length.reading.value
        if aperture_mm is None or focal_length_mm is None:
            return None
        return Telescope(
            name=TELESCOPE_NAME.format(aperture=length_text(aperture_mm), kind=self.kind.value),
            kind=self.kind,
            aperture_mm=aperture_mm,
            focal_length_mm=focal_length_mm,
            diagonal=Diagonal.NONE if self.kind is TelescopeKind.REFLECTOR else Diagonal.STAR,
        )

    def _fixed_instrument(self) -> Telescope | None:
        stated: FixedFigures | None = self.power.reading.value
        if stated is None or stated.aperture_mm is None:
            return None
        is_range = stated.power_max is not None
        return Telescope(
            name=self.power.text.strip(),
            kind=TelescopeKind.FIXED,
            aperture_mm=stated.aperture_mm,
            power=None if is_range else stated.power_min,
            power_min=stated.power_min if is_range else None,
            power_max=stated.power_max,
        )

    def _parse_focal_length(self, text: str) -> float:
        return parse_focal_length_mm(text, aperture_mm=self.aperture.reading.value)


def _parse_whole_instrument(text: str) -> FixedFigures:
    """Return powers and aperture; both are needed here, since there is one line for them."""
    stated = parse_fixed_instrument(text)
    if stated.aperture_mm is None:
        raise refuse(POWER_AND_APERTURE)
    return stated
