"""From the tables of a profile file to values, with everything that is wrong told at once.

cattrs walks the tables and gathers the errors. Each field is checked on its own, by its type and then by
the validator of its class, so that two bad figures of one telescope are both told; how fields go together
is checked by the class once each is right.
"""

import difflib
import re
import unicodedata
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date, datetime
from enum import StrEnum
from typing import Any, TypeVar, cast, get_origin

import attrs
import cattrs
from cattrs.errors import ClassValidationError, ForbiddenExtraKeysError, IterableValidationError
from cattrs.gen import make_dict_structure_fn, override

from core.checks import is_number
from core.problems import Problem, ProblemsError
from core.record.observer import Profile

# A file may be wrong in more ways than anyone wants to read.
MOST_PROBLEMS_TOLD = 100
MOST_OF_A_KIND = 1000
_LONGEST_SENTENCE = 300
_LONGEST_NAME = 40

# The lists of a profile; each of their things has a name and an id of its own.
KINDS = tuple(field.name for field in attrs.fields(Profile) if get_origin(field.type) is tuple)

T = TypeVar("T")
Hook = Callable[[Any, Any], Any]


def structure_profile(table: Mapping[str, Any]) -> Profile:
    """Return the profile that a table holds, or raise ProblemsError with all that is wrong."""
    profile, problems = structured(table, Profile)
    for kind in KINDS:
        things = table.get(kind)
        if isinstance(things, list) and len(things) <= MOST_OF_A_KIND:
            problems += repeats(kind, things)
    if len(problems) > MOST_PROBLEMS_TOLD:
        more = len(problems) - MOST_PROBLEMS_TOLD
        problems = [*problems[:MOST_PROBLEMS_TOLD], Problem("", f"and {more} more of the kind")]
    if profile is None or problems:
        raise ProblemsError(*problems)
    return profile


def structured(table: object, wanted: type[T], where: str = "") -> tuple[T | None, list[Problem]]:
    """Return the value that a table holds, or None, and all that is wrong, placed below ``where``."""
    try:
        return _converter.structure(table, wanted), []
    except ClassValidationError as error:
        return None, list(_told(error, table, where))
    except (TypeError, ValueError) as error:
        return None, [Problem(where, plain(str(error)))]


def repeats(kind: str, things: Sequence[object]) -> Iterator[Problem]:
    """Yield a problem for each id and name that an earlier thing of the kind has already.

    They are compared after Unicode NFC, so that an accent typed in two ways is one accent.
    """
    for key in ("id", "name"):
        first: dict[str, int] = {}
        for position, thing in enumerate(things, start=1):
            text = thing.get(key) if isinstance(thing, Mapping) else None
            if not isinstance(text, str) or not text:
                continue
            earlier = first.setdefault(unicodedata.normalize("NFC", text), position)
            if earlier != position:
                what = f"is the {key} of {kind}[{earlier}] already; each needs its own"
                yield Problem(f"{label(kind, position, thing)}.{key}", what)


def label(where: str, position: int, thing: object) -> str:
    """Return the place of one thing of a list, counted from 1, with its own name where it has one."""
    name = thing.get("name", thing.get("what")) if isinstance(thing, Mapping) else None
    return f"{where}[{position}] {quoted(name)}" if isinstance(name, str) and name else f"{where}[{position}]"


def quoted(text: str) -> str:
    """Return someone's text in quotes, shortened, without characters that could command a terminal."""
    shown = _shortened(text, _LONGEST_NAME)
    return '"' + "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in shown) + '"'


def _shortened(text: str, length: int) -> str:
    return text if len(text) <= length else text[: length - 1] + "…"


# --- fields ----------------------------------------------------------------------------------------------


def _float(value: object, _type: type) -> object:
    """Take whole numbers too; what is no number is left for the field's own check to refuse."""
    if isinstance(value, int) and not isinstance(value, bool):
        try:
            return float(value)
        except OverflowError:
            return float("inf")
    return value


def _int(value: object, _type: type) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or abs(value) > 10**9:
        raise TypeError(f"must be a whole number, not {_said(value)}")
    return value


def _bool(value: object, _type: type) -> bool:
    if not isinstance(value, bool):
        raise TypeError(f"must be true or false, not {_said(value)}")
    return value


def _str(value: object, _type: type) -> str:
    if not isinstance(value, str):
        raise TypeError(f"must be text in quotes, not {_said(value)}")
    return value


def _date(value: object, _type: type) -> date:
    if type(value) is not date:
        raise TypeError(f"must be a date such as 2026-11-01, not {_said(value)}")
    return value


def _moment(value: object, _type: type) -> datetime:
    if not isinstance(value, datetime):
        raise TypeError(f"must be a time such as 2026-12-05T20:30:00Z, not {_said(value)}")
    return value


def _choice(value: object, choices: type[StrEnum]) -> StrEnum:
    words = [choice.value for choice in choices]
    if isinstance(value, str) and value in words:
        return choices(value)
    meant = difflib.get_close_matches(value.lower(), words, n=1) if isinstance(value, str) else []
    hint = f"; did you mean {meant[0]}?" if meant else ""
    raise ValueError(f"must be one of {', '.join(words)}, not {_said(value)}{hint}")


def _said(value: object) -> str:
    """Return a value as the file has it, or what kind of thing it is."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, int) and abs(value) > 10**9:
        return "so large a number"
    return str(value)


def _field_hook(attribute: "attrs.Attribute[Any]") -> Hook:
    convert: Any = attribute.converter
    check, wanted = attribute.validator, attribute.type

    def structure_field(value: object, _type: object) -> object:
        if get_origin(wanted) is tuple:
            if not isinstance(value, list):
                raise TypeError("must be a list, each of its things under a header in double brackets")
            if len(value) > MOST_OF_A_KIND:
                raise ValueError(f"must be at most {MOST_OF_A_KIND} things, not {len(value)}")
        value = _converter.structure(value, cast("type[object]", wanted))
        if convert is not None:
            value = convert(value)
        if check is not None:
            check(None, attribute, value)
        elif wanted is float and not is_number(value):
            raise ValueError(f"must be a number, not {_said(value)}")
        return value

    return structure_field


def _class_hook(cls: type) -> Hook:
    overrides: dict[str, Any] = {
        attribute.name: override(struct_hook=_field_hook(attribute)) for attribute in attrs.fields(cls)
    }
    structure: Hook = make_dict_structure_fn(cls, _converter, _cattrs_forbid_extra_keys=True, **overrides)

    def structure_table(value: object, wanted: object) -> object:
        if not isinstance(value, dict):
            raise TypeError(f"must be a table, not {_said(value)}")
        return structure(value, wanted)

    return structure_table


_converter = cattrs.Converter()
_HOOKS: dict[Any, Hook] = {float: _float, int: _int, bool: _bool, str: _str, date: _date, datetime: _moment}
for _type, _hook in _HOOKS.items():
    _converter.register_structure_hook(_type, _hook)
_converter.register_structure_hook(StrEnum, _choice)
_converter.register_structure_hook_factory(attrs.has, _class_hook)


# --- errors ----------------------------------------------------------------------------------------------


def _told(error: Exception, given: Any, where: str) -> Iterator[Problem]:  # noqa: ANN401
    """Flatten what cattrs gathered; ``given`` is the part of the file at ``where``."""
    if isinstance(error, ClassValidationError):
        noted, others = error.group_exceptions()
        for inner, note in noted:
            place = f"{where}.{note.name}" if where else note.name
            if isinstance(inner, KeyError):
                yield Problem(place, _missing(error.cl, note.name))
            else:
                yield from _told(inner, given.get(note.name), place)
        for inner in others:
            yield from _told(inner, given, where)
    elif isinstance(error, IterableValidationError):
        for inner, item in error.group_exceptions()[0]:
            position = int(item.index)
            yield from _told(inner, given[position], label(where, position + 1, given[position]))
    elif isinstance(error, ForbiddenExtraKeysError):
        yield from _unknown_keys(error, where)
    else:
        yield Problem(where, plain(str(error)))


def _missing(cls: type, name: str) -> str:
    """Say that a key is missing, and what belongs there in the words of its own check."""
    try:
        _field_hook(getattr(attrs.fields(cls), name))(None, None)
    except (TypeError, ValueError) as error:
        return f"is missing; it {str(error).partition(', not None')[0]}"
    return "is missing"


def _unknown_keys(error: ForbiddenExtraKeysError, where: str) -> Iterator[Problem]:
    known = [attribute.name for attribute in attrs.fields(error.cl)]
    if error.cl is Profile:
        known.append("schema")
    # The nearest names are looked for only as often as they will be told.
    for position, key in enumerate(sorted(error.extra_fields)):
        what = "is not a known key"
        if position < MOST_PROBLEMS_TOLD:
            meant = difflib.get_close_matches(key, known, n=1, cutoff=0.5)
            what += f"; did you mean {meant[0]}?" if meant else f"; known here are {', '.join(known)}"
        shown = key if re.fullmatch(r"[A-Za-z0-9_-]{1,40}", key) else quoted(key)
        yield Problem(f"{where}.{shown}" if where else shown, what)


def plain(sentence: str) -> str:
    """Return a sentence that quotes a file, shortened, without characters that could command a terminal."""
    return "".join(c if c.isprintable() else " " for c in _shortened(sentence, _LONGEST_SENTENCE))
