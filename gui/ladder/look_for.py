"""What is worth looking for on the planet in hand, and which of the owner's filters helps, in words."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from core.looks.feature_rules import Likelihood
from core.looks.features import FeatureChance
from core.looks.filter_offers import FilterOffers
from core.looks.planet_appearance import PlanetAppearance
from core.words.controls import LOOK_FOR
from core.words.filters import filter_sentences, filters_heading
from core.words.looking_for import (
    expectation_text,
    feature_text,
    judged_text,
    likelihood_text,
    reason_text,
    short_text,
)
from core.words.looks import no_picture_words
from core.words.tips import NOTHING_TO_LOOK_FOR_YET
from gui.widgets.emptied import empty
from gui.widgets.plain_label import PlainLabel
from gui.widgets.reading_area import ReadingArea, reading_label

_BETWEEN_PX = 6
_ON_TOP = Qt.AlignmentFlag.AlignTop


class LookForPane(ReadingArea):
    """One entry for each thing: how likely, what, and why; the likeliest first, the unlikely in short."""

    def __init__(self, parent: QWidget | None = None) -> None:
        page = QWidget()
        super().__init__(page, parent)
        self.heading = reading_label(role="heading")
        self.judged = reading_label(role="small")
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(14)
        self._grid.setVerticalSpacing(1)
        self._grid.setColumnStretch(1, 1)
        column = QVBoxLayout(page)
        column.setContentsMargins(2, 2, 8, 4)
        column.setSpacing(8)
        column.addWidget(self.heading)
        column.addWidget(self.judged)
        column.addLayout(self._grid)
        self.filters_heading = reading_label(role="heading")
        self.filters = reading_label()
        column.addWidget(self.filters_heading)
        column.addWidget(self.filters)
        column.addStretch(1)
        self._shown: tuple[FeatureChance, ...] | None = None
        self._expected: tuple[str, ...] = ()

    def show_appearance(self, appearance: PlanetAppearance | None) -> None:
        """Show what to look for, or why nothing can be said."""
        self.heading.setText(_heading(appearance))
        self.setAccessibleName(self.heading.text())
        expectations = appearance.expectations if appearance is not None else ()
        judged = judged_text(expectations[0].seen) if expectations else ""
        self.judged.show_words(judged)
        self._expected = (judged, *map(expectation_text, expectations))
        self._describe()
        if expectations == self._shown:
            return
        self._shown = expectations
        empty(self._grid)
        for number, item in enumerate(expectations):
            first = 3 * number
            self._grid.addWidget(PlainLabel(likelihood_text(item.likelihood)), first, 0, _ON_TOP)
            if item.likelihood is Likelihood.UNLIKELY:
                self._grid.addWidget(reading_label(short_text(item), role="small"), first, 1)
            else:
                self._grid.addWidget(reading_label(feature_text(item), role="heading"), first, 1)
                self._grid.addWidget(reading_label(reason_text(item), role="small"), first + 1, 1)
            self._grid.setRowMinimumHeight(first + 2, _BETWEEN_PX)

    def show_filters(self, offers: FilterOffers | None) -> None:
        """Show what the owner's filters are good for; nothing without a filter."""
        sentences = () if offers is None else filter_sentences(offers)
        heading = filters_heading(offers) if offers is not None and sentences else ""
        self.filters_heading.show_words(heading)
        self.filters.show_words("\n".join(sentences))
        self._describe()

    def _describe(self) -> None:
        filters = (self.filters_heading.text(), self.filters.text()) if self.filters.text() else ()
        self.setAccessibleDescription(" ".join((*self._expected, *filters)))


def _heading(appearance: PlanetAppearance | None) -> str:
    if appearance is None or appearance.ladder is None:
        return NOTHING_TO_LOOK_FOR_YET
    if not appearance.expectations:
        return no_picture_words(appearance)
    return LOOK_FOR.format(planet=appearance.planet.label, scope=appearance.ladder.scope.name)
