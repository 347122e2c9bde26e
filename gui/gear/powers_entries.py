"""Every power of a scope as an entry of a table: each rung of its ladder and each alternative."""

from attrs import frozen

from core.gear.eye import Eye
from core.gear.optics import moons_across, visible_detail_arcsec
from core.ladder.ladder import Ladder, Rung, rung_with
from core.words.notices import factor_text, notice_texts, rung_notice_texts
from core.words.powers import same_as_words, same_words
from core.words.quantities import drift_text
from core.words.units import Units


@frozen
class Entry:
    """A rung, or an alternative as a rung of its own with the one it is ``same_as``."""

    rung: Rung
    ladder: Ladder
    units: Units
    same_as: Rung | None = None

    @property
    def detail_arcsec(self) -> float:
        """The finest detail that the power shows, air left out."""
        return visible_detail_arcsec(self.ladder.scope.aperture_mm, self.rung.power)

    @property
    def moons(self) -> float | None:
        """How many Moons fit across the field."""
        field_deg = self.rung.true_field_deg
        return None if field_deg is None else moons_across(field_deg)


def entries_of(ladder: Ladder, eye: Eye, units: Units) -> tuple[Entry, ...]:
    """Return the rows of a ladder, lowest power first, alternatives after their rung."""
    entries = []
    for rung in ladder.rungs:
        entries.append(Entry(rung, ladder, units))
        entries += [
            Entry(rung_with(ladder, other, eye=eye), ladder, units, same_as=rung)
            for other in rung.alternatives
        ]
    return tuple(entries)


def drift_words(entry: Entry) -> str:
    """Return how long a planet takes through the field, or why it does not."""
    return drift_text(entry.rung.drift_s, driven=entry.ladder.scope.driven)


def words_about(entry: Entry) -> tuple[str, ...]:
    """Return what deserves a word about an entry; an alternative says only what is not said of its rung."""
    if entry.same_as is None:
        return rung_notice_texts(entry.rung, entry.ladder, entry.units)
    others = [notice for notice in entry.rung.notices if notice not in entry.same_as.notices]
    return (same_as_words(entry.same_as), *notice_texts(others, entry.units))


def words_in_full(entry: Entry) -> tuple[str, ...]:
    """Return all about an entry in hand: others like it as well, and how far its power is known."""
    words = [*words_about(entry)]
    if entry.rung.alternatives:
        words.append(same_words(entry.rung.alternatives))
    # What was measured, and what holds of every reducer, is among the notices already.
    marked = (
        barlow
        for barlow in entry.rung.combination.barlows
        if not barlow.is_reducer and barlow.measured_factor is None
    )
    words += [factor_text(barlow) for barlow in marked]
    return tuple(words)
