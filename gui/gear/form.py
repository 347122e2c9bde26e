"""The form of one thing: every keystroke that makes sense goes into the profile as a named step."""

import itertools
import re
from collections.abc import Mapping
from datetime import date
from typing import Any, ClassVar, Generic, TypeVar, cast

from PySide6.QtWidgets import QWidget

from core.record.observer import Profile
from core.words.gear_edits import ADD, NAME_TAKEN, change_step, rename_step, still_needed_words
from core.words.names import as_sentence
from core.words.owned_kinds import Kind
from core.words.units import Units
from gui.gear.form_page import FormPage
from gui.gear.owned_edits import Thing, added, free_name, name_is_taken, replaced, things_of
from gui.state import AppState
from gui.widgets.field import Field, Reading
from gui.widgets.readings import plain_text, read_words
from gui.widgets.typed_field import TypedField

T = TypeVar("T")

_SESSIONS = itertools.count()

Values = dict[str, Any]


class OwnedForm(FormPage, Generic[T]):
    """The fields of one thing, or of a new one that joins the profile as soon as nothing is missing.

    A kind of thing says which fields there are, how a thing spreads over them (``values_of``) and how
    their values make a thing (``make``, which raises ValueError with the reason where they do not agree).
    ``derives_name`` says whether it gets a name from its figures until one is typed. ``index`` is the
    place of the open thing among its kind, None for a new one.
    """

    kind: ClassVar[Kind]
    derives_name: ClassVar[bool] = True

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.state = state
        self.units = Units(state.profile.preferences)
        self.index: int | None = None
        self._is_new = False
        # The profile without the thing that has come with this piece of typing, and that piece's key.
        self._before_coming: Profile | None = None
        self._coming_key = ""
        # Whether the name follows from the figures so far, and may change with them.
        self._name_is_derived = False
        self._session = next(_SESSIONS)
        self.build()
        self.end_page()

    # What a kind of thing says of itself.

    def build(self) -> None:
        """Add the fields."""
        raise NotImplementedError

    def values_of(self, thing: T) -> Values:
        """Return the value of each field."""
        raise NotImplementedError

    def make(self, values: Values, before: T | None) -> T:
        """Return the thing that the values make; ``before`` is the one in the profile, or None."""
        raise NotImplementedError

    def name_for(self, values: Values) -> str:
        """Return the name that a thing of such figures would get by itself; empty when it gets none."""
        return ""

    def shown(self, values: Values) -> set[str]:
        """Return which fields such a thing has."""
        return set(self.fields)

    def tell(self, values: Values, thing: T | None) -> None:
        """Bring up to date whatever small print follows from the values."""

    def carry_over(self, field: Field) -> None:
        """Let what was typed in one field fill another."""

    # What is open in the form.

    @property
    def thing(self) -> T | None:
        """The thing in the profile that is open, or None for a new one."""
        if self.index is None:
            return None
        things = things_of(self.state.profile, self.kind)
        return cast("T", things[self.index]) if self.index < len(things) else None

    def open(self, index: int | None, unaccepted: Mapping[str, str] | None = None) -> None:
        """Open one thing of the kind, or a new one, with texts that were left unaccepted the last time."""
        self.index = index
        self._is_new = self.thing is None
        self._session = next(_SESSIONS)
        self._use_units()
        for field in self.fields.values():
            field.reset()
        self._fill()
        for name, text in (unaccepted or {}).items():
            self.fields[name].restore(text)
        self._arrange()
        self._name_is_derived = self._stands_as_derived()
        if self._is_new:
            self._say_missing(self._missing())

    def refresh(self) -> None:
        """Bring in what has changed in the profile; a text that is being typed stays."""
        self._use_units()
        self._fill()
        self._arrange()

    def on_units(self) -> None:
        """Write the figures anew in other units."""
        for field in self.fields.values():
            if isinstance(field, TypedField):
                field.rewrite()

    @property
    def unaccepted(self) -> dict[str, str]:
        """What has been typed but is not in the profile, by field."""
        texts = {
            name: field.entry if self._is_new else field.unaccepted for name, field in self.fields.items()
        }
        return {name: text for name, text in texts.items() if text is not None}

    # For the kinds.

    def add_name(self) -> None:
        """Add the field for the name."""
        self.add(TypedField("name", "Name", read=self._read_name, write=plain_text))

    def today(self) -> date:
        """Return the calendar day at the site in hand, else on this computer."""
        site = self.state.situation.site
        return self.state.situation.now.astimezone(site.zone if site else None).date()

    def values(self) -> Values:
        """Return what stands in the fields: a refused text counts as what was there before the typing."""
        stored = {} if (thing := self.thing) is None else self.values_of(thing)
        return {
            name: field.reading.value if field.reading.is_good else self._before_typing(field, stored)
            for name, field in self.fields.items()
        }

    def fill(self, values: Values, step: str = "") -> None:
        """Fill in some of the fields, as an edit with a name of its own or that of the first field.

        It is one step with the fill before, unless ``begin_step`` was called in between.
        """
        for name, value in values.items():
            self.fields[name].sync(value)
        self._on_edited(self.fields[next(iter(values))], step)

    def begin_step(self) -> None:
        """Make what is edited next a step of its own."""
        self._session = next(_SESSIONS)

    # How an edit goes.

    def connect_field(self, field: Field) -> None:
        self.fields[field.name] = field
        field.entered.connect(self.begin_step)
        field.edited.connect(lambda: self._on_edited(field))

    def after(self, thing: T) -> Profile:
        """Return the profile with the thing in its place."""
        owned = cast("Thing", thing)
        if self.index is None:
            # A name that still grows with the figures would make an id that is out of date at once.
            has_name_to_stay = not self._name_is_derived
            return added(self.state.profile, self.kind, owned, id_from_name=has_name_to_stay)
        return replaced(self.state.profile, self.kind, self.index, owned)

    def step(self, field: Field) -> str:
        """Return the name of the step that an edit of a field is."""
        before = cast("Thing | None", self.thing)
        if before is None:
            return ADD.format(thing=self.kind.one_more)
        if field.name == "name":
            return rename_step(before.name)
        return change_step(field.label, before.name)

    def _on_edited(self, field: Field, step: str = "") -> None:
        if field.name == "name":
            self._name_is_derived = False
        self.carry_over(field)
        self._arrange()
        missing = self._missing()
        if missing:
            self._withdraw(field)
            self._say_missing(self._missing())
            return
        self._say_missing(missing)
        self._derive_name()
        before, values = self.thing, self.values()
        try:
            thing = self.make(values, before)
        except ValueError as error:
            if isinstance(field, TypedField) and field.reading.is_good:
                field.refuse(self.in_words(str(error)))
                self._go_back(field, values, step)
            return
        for other in self.fields.values():
            if isinstance(other, TypedField):
                other.accept()
        self._keep(thing, field, step)

    def _go_back(self, field: Field, values: Values, step: str) -> None:
        """Take out of the profile what a refused text has put there letter by letter."""
        if self._is_new:
            return
        try:
            thing = self.make(values | {field.name: field.settled}, self.thing)
        except ValueError:
            return  # another field does not agree either, and has said so
        self._keep(thing, field, step)

    def _withdraw(self, field: Field) -> None:
        """Take out again the thing that has only come with the letters of a text that is refused now."""
        key = self._key(field)
        if self._is_new or self._before_coming is None or key != self._coming_key:
            return
        before, self._before_coming = self._before_coming, None
        step = ADD.format(thing=self.kind.one_more)
        self.index, self._is_new = None, True
        self.state.edit_profile(step, before, merge_key=key)

    def _before_typing(self, field: Field, stored: Values) -> Any:  # noqa: ANN401 - of any kind
        if self._is_new:
            return None
        if field.has_settled:
            return field.settled
        has_come_with_it = self._before_coming is not None and self._key(field) == self._coming_key
        return None if has_come_with_it else stored.get(field.name)

    def _key(self, field: Field) -> str:
        """Return what the edits of one piece of typing have in common."""
        return f"{field.name} {self._session}"

    def _keep(self, thing: T, field: Field, step: str) -> None:
        step, after = self.step(field) if self._is_new or not step else step, self.after(thing)
        key = self._key(field)
        if self._is_new:
            self._before_coming, self._coming_key = self.state.profile, key
            self.index = len(things_of(self.state.profile, self.kind))
            self._is_new = False
        self.state.edit_profile(step, after, merge_key=key)

    def _missing(self) -> list[str]:
        """Return the labels of the fields without which there is no thing yet."""
        values = self.values()
        return [
            self.fields[name].label
            for name in self.fields
            if name in self.shown(values)
            and values[name] is None
            and not self.fields[name].reading.is_good
            and not (name == "name" and self._name_is_derived and self.derives_name)
        ]

    def _say_missing(self, missing: list[str]) -> None:
        self.say(still_needed_words(missing))

    def _use_units(self) -> None:
        units = Units(self.state.profile.preferences)
        if units != self.units:
            self.units = units
            self.on_units()

    def _fill(self) -> None:
        thing = self.thing
        if thing is None:
            return
        values = self.values_of(thing)
        # What is hidden stays as it was, and is there again when a change of mind shows it.
        for name in self.shown(values):
            self.fields[name].sync(values[name])

    def _arrange(self) -> None:
        values = self.values()
        shown = self.shown(values)
        for name, field in self.fields.items():
            self.show_row(field, name in shown)
        self.tell(values, self.thing)

    # Names.

    def _read_name(self, text: str) -> Reading[str]:
        reading = read_words(text)
        if name_is_taken(self.state.profile, self.kind, text, but_for=self.index):
            return Reading(problem=NAME_TAKEN.format(kind=self.kind.singular))
        return reading

    def _derived_name(self, values: Values) -> str:
        wanted = self.name_for(values)
        return free_name(self.state.profile, self.kind, wanted, but_for=self.index) if wanted else ""

    def _stands_as_derived(self) -> bool:
        """Tell whether the name still is the one that follows from the figures."""
        if self._is_new:
            name = self.fields.get("name")
            return name is not None and name.entry is None
        values = self.values()
        name = values.get("name")
        return bool(name) and name == self._derived_name(values)

    def _derive_name(self) -> None:
        if self._name_is_derived and (name := self._derived_name(self.values())):
            self.fields["name"].sync(name)

    def in_words(self, error: str) -> str:
        """Return an error about fields with their labels in place of the names in files."""
        labels = {name: field.label for name, field in self.fields.items()}
        names = "|".join(map(re.escape, sorted(labels, key=len, reverse=True)))
        return as_sentence(re.sub(rf"\b({names})\b", lambda match: labels[match[0]].lower(), error))
