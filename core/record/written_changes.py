"""How the text of a profile file changes when the profile does.

Only what changed is written anew: every other byte, each comment and the order stay. A comment right above
a header goes where its table goes; one that stands apart stays where it is.
"""

from collections.abc import Callable, Iterable, Sequence
from enum import Enum, StrEnum
from typing import Any, get_args, get_origin

import attrs
import tomlkit
import tomlkit.items
from attrs import frozen

from core.record.observer import Profile
from core.record.table_text import TableText, key_of


class Shape(Enum):
    """How a field stands in the file: as a key, as a table, or as a list of tables."""

    KEY = 1
    TABLE = 2
    LIST = 3


@frozen
class KeyShape:
    """One field of a class: its name, how it stands in the file, the class of its tables, its default."""

    name: str
    shape: Shape
    cls: type | None
    default: object


def key_shapes_of(cls: type) -> tuple[KeyShape, ...]:
    """Return the fields of a class of values in their usual order in a file."""
    return tuple(_key_shape_of(attribute) for attribute in attrs.fields(cls))


def _key_shape_of(attribute: "attrs.Attribute[Any]") -> KeyShape:
    wanted, default = attribute.type, attribute.default
    inner = [part for part in get_args(wanted) if isinstance(part, type) and attrs.has(part)]
    if get_origin(wanted) is tuple:
        return KeyShape(attribute.name, Shape.LIST, inner[0], default)
    if isinstance(wanted, type) and attrs.has(wanted):
        return KeyShape(attribute.name, Shape.TABLE, wanted, default)
    if inner:
        return KeyShape(attribute.name, Shape.TABLE, inner[0], default)
    return KeyShape(attribute.name, Shape.KEY, None, default)


def set_schema(root: TableText, number: int) -> None:
    """Put another schema number into a file's own statements, its comment kept."""
    root.statements = [
        _with_value(text, "schema", number) if key_of(text) == "schema" else text for text in root.statements
    ]


def updated(table: TableText, old: object | None, new: object, pair: "Pairing") -> str:
    """Return the text of a table whose value goes from ``old`` to ``new``; ``old`` None writes it anew.

    ``pair`` tells which old thing of a list each new thing was.
    """
    writer = _Writer(table, old, new, pair)
    return joined([*writer.own(), *writer.below()])


# From the field, the old and the new things, for each new one its old position or None.
Pairing = Callable[[KeyShape, Sequence[Any], Sequence[Any]], "list[int | None]"]


class _Writer:
    """The change of one table."""

    def __init__(self, table: TableText, old: object | None, new: object, pair: Pairing) -> None:
        self.table = table
        self.old = old
        self.new = new
        self.pair = pair
        self.statements = list(table.statements)
        self.fields = key_shapes_of(type(new))

    def was(self, field: KeyShape) -> object:
        return field.default if self.old is None else getattr(self.old, field.name)

    def own(self) -> list[str]:
        """Return the statements of the table itself."""
        for position, field in enumerate(self.fields):
            now = getattr(self.new, field.name)
            if now == self.was(field):
                continue
            if field.shape is not Shape.KEY or now is None:
                # Tables written on one line, too, are taken out here and come back below.
                self.statements = [text for text in self.statements if key_of(text) != field.name]
            elif (place := self._place_of(field.name)) is not None:
                self.statements[place] = _with_value(self.statements[place], field.name, now)
            else:
                self._insert(position, field.name, now)
        return self.statements

    def _place_of(self, name: str) -> int | None:
        return next((i for i, text in enumerate(self.statements) if key_of(text) == name), None)

    def _insert(self, position: int, name: str, value: object) -> None:
        """Put a new key after the nearest one that usually stands before it."""
        places = [self._place_of(field.name) for field in self.fields[:position]]
        before = [place for place in places if place is not None]
        first = [
            i
            for i, text in enumerate(self.statements)
            if text.lstrip()[:1] == "[" or key_of(text) == "schema"
        ]
        place = max([*before, *first], default=-1)
        neighbour = self.statements[before[-1]] if before else ""
        indent = neighbour[: len(neighbour) - len(neighbour.lstrip(" \t"))]
        self.statements.insert(place + 1, f"{indent}{name} = {_toml(value).as_string()}\n")

    def below(self) -> list[str]:
        """Return the tables below and the gaps, the new ones where tables of their kind stand."""
        orders = {field.name: order for order, field in enumerate(self.fields)}
        texts = {field.name: self._texts_of(field) for field in self.fields if field.shape is not Shape.KEY}
        last = {part.key: index for index, part in enumerate(self.table.below) if isinstance(part, TableText)}
        woven: list[tuple[int, str]] = []
        for index, part in enumerate(self.table.below):
            if isinstance(part, str):
                woven.append((-1, part))
                continue
            waiting = texts[part.key]
            if waiting:
                woven.append((orders[part.key], waiting.pop(0)))
            elif woven and not woven[-1][1].strip():
                woven[-1] = (-1, "")
            if index == last[part.key]:
                woven += [(orders[part.key], self._apart(text)) for text in waiting]
                waiting.clear()
        for name, waiting in texts.items():
            places = [index for index, (order, _) in enumerate(woven) if 0 <= order <= orders[name]]
            place = places[-1] + 1 if places else 0
            woven[place:place] = [(orders[name], self._apart(text)) for text in waiting]
        return [text for _, text in woven]

    def _apart(self, text: str) -> str:
        """Set a new table off by a blank line, except within a thing."""
        return text if self.table.path else "\n" + text

    def _texts_of(self, field: KeyShape) -> list[str]:
        """Return the texts of the tables of one field, empty where it stands on one line and stays."""
        was, now = self.was(field), getattr(self.new, field.name)
        if self._place_of(field.name) is not None:
            return []
        tables = [part for part in self.table.below if isinstance(part, TableText) and part.key == field.name]
        path = (*self.table.path, field.name)
        if field.shape is Shape.TABLE:
            if tables:
                return [] if now is None else [updated(tables[0], was, now, self.pair)]
            return [] if now == field.default else [_fresh(path, now, self.pair, listed=False)]
        olds: Sequence[Any] = was if tables and isinstance(was, tuple) else ()
        return [
            _fresh(path, thing, self.pair, listed=True)
            if old is None
            else updated(tables[old], olds[old], thing, self.pair)
            for thing, old in zip(now, self.pair(field, olds, now), strict=True)
        ]


def _fresh(path: tuple[str, ...], value: object, pair: Pairing, *, listed: bool) -> str:
    name = ".".join(path)
    header = f"[[{name}]]\n" if listed else f"[{name}]\n"
    return updated(TableText(path, [header]), None, value, pair)


def _with_value(statement: str, key: str, value: object) -> str:
    document = tomlkit.parse(statement)
    document[key] = _toml(value)
    return document.as_string()


def _toml(value: object) -> tomlkit.items.Item:
    if isinstance(value, StrEnum):
        return tomlkit.item(str(value))
    if isinstance(value, float) and value.is_integer():
        return tomlkit.item(int(value))
    if isinstance(value, str) and "\n" in value and not value.startswith("\n") and "\r" not in value:
        return tomlkit.string(value, multiline=True)
    return tomlkit.item(value)


def joined(texts: Iterable[str]) -> str:
    """Join statements and tables, each on lines of its own."""
    whole = ""
    for text in texts:
        whole += text if not text or not whole or whole.endswith("\n") else "\n" + text
    return whole


def new_document(profile: Profile, schema: int, pair: Pairing) -> str:
    """Return a profile written from nothing."""
    return updated(TableText(statements=[f"schema = {schema}\n"]), None, profile, pair)
