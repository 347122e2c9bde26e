"""The form of a filter: its Wratten number, or how much light it lets through."""

from core.gear.aperture import working_aperture_mm
from core.gear.numbers import Candidate, DoubtfulFigureError, number_text, parse_number, tidy
from core.gear.owned import Filter
from core.looks.filter_names import filter_completions, wratten_number, wratten_typed
from core.looks.owned_filters import facts_of, is_dark
from core.words.cautions import FILTER_BY_DAY, FILTERS_AND_SUN, filter_caution
from core.words.filters import (
    CLEAR_GLASS,
    FILTER_NUMBER,
    NEUTRAL_FILTER,
    SMALL_GAIN,
    UNKNOWN_FILTER,
    filter_facts,
    kept_for_larger_text,
)
from core.words.names import capitalised
from core.words.owned_kinds import Kind
from core.words.quantities import percent_text
from gui.gear.form import OwnedForm, Values
from gui.widgets.choice_field import ChoiceField
from gui.widgets.field import Field
from gui.widgets.plain_label import PlainLabel
from gui.widgets.readings import figure, reads
from gui.widgets.typed_field import TypedField


class FilterForm(OwnedForm[Filter]):
    """Edits one filter and tells what it is used for."""

    kind = Kind.FILTER

    _named_number: str | None = None

    def build(self) -> None:
        self.add(
            ChoiceField(
                "known_by",
                "Known by",
                [("wratten", "colour number (Wratten)"), ("transmittance", "light let through")],
            )
        )
        wratten = TypedField(
            "wratten", "Number", read=reads(wratten_typed), write=str, letters=14, placeholder="80A or blue"
        )
        wratten.set_completions(filter_completions())
        self.add(wratten)
        self.add(
            TypedField(
                "transmittance",
                "Light let through",
                read=reads(_parse_transmittance),
                write=figure,
                letters=9,
                placeholder="0.13 or 13 %",
            )
        )
        self.add_name()
        self._facts = PlainLabel(role="small", wraps=True)
        self.add_row(self._facts)
        self._caution = PlainLabel(FILTERS_AND_SUN, role="caution", wraps=True)
        self.add_row(self._caution)

    def carry_over(self, field: Field) -> None:
        number = self.fields["wratten"]
        if field.name != "name" or number.reading.value != self._named_number:
            return
        # "Light blue" says which one it is; what was typed as a number stands.
        self._named_number = wratten_number(field.reading.value or "")
        if self._named_number is not None:
            number.sync(self._named_number)

    def shown(self, values: Values) -> set[str]:
        other = "transmittance" if values["known_by"] == "wratten" else "wratten"
        return set(self.fields) - {other}

    def values_of(self, thing: Filter) -> Values:
        return {
            "known_by": "transmittance" if thing.wratten is None else "wratten",
            "wratten": thing.wratten,
            "transmittance": thing.transmittance,
            "name": thing.name,
        }

    def make(self, values: Values, before: Filter | None) -> Filter:
        known_by = values["known_by"]
        return Filter(id=before.id if before else "", name=values["name"], **{known_by: values[known_by]})

    def name_for(self, values: Values) -> str:
        if values["known_by"] == "transmittance":
            passed = values["transmittance"]
            return "" if passed is None else NEUTRAL_FILTER.format(share=percent_text(passed))
        number = values["wratten"]
        if not number:
            return ""
        facts = facts_of(Filter(name="x", wratten=number))
        return capitalised(facts.colour) if facts else FILTER_NUMBER.format(number=number)

    def tell(self, values: Values, thing: Filter | None) -> None:
        self._facts.show_words(self._words_about(thing) if thing else "")
        is_neutral = values["known_by"] == "transmittance"
        self._caution.setText(filter_caution(is_dark=is_neutral or (thing is not None and is_dark(thing))))

    def _words_about(self, owned: Filter) -> str:
        facts = facts_of(owned)
        if facts is None:
            return "" if owned.wratten is None else UNKNOWN_FILTER
        words = [*filter_facts(facts), SMALL_GAIN]
        scope = self.state.situation.scope
        if scope is not None and (larger := kept_for_larger_text(owned, working_aperture_mm(scope))):
            words.append(larger)
        if facts.daylight:
            words.append(FILTER_BY_DAY)
        return "\n".join(words)


def _parse_transmittance(text: str) -> float:
    """Return the share of light, 0.0001 to 1, that a figure or a percentage means; 13 is asked about."""
    plain = tidy(text)
    number = plain.removesuffix("%").strip()
    if number != plain:
        return round(
            parse_number(number, low=0.01, high=100, what="The light let through", unit="%") / 100, 8
        )
    value = parse_number(number, low=0.0001, high=100, what="The light let through")
    if value >= 1:
        percent = f"{number_text(value)} %"
        question = CLEAR_GLASS.format(typed=plain, percent=percent)
        raise DoubtfulFigureError(question, (Candidate(percent, value / 100),))
    return value
