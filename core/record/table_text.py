"""A profile file as text: its tables and statements.

The text is cut into statements (a key with its value, a header, a comment, a blank line), the statements
into tables; put together again they are the text to the byte. A comment right above a header belongs to its
table; one that stands apart to none.
"""

import re
import tomllib
from collections.abc import Iterator, Sequence
from typing import Any

import attrs
from attrs import define

_TOKEN = re.compile(
    r'''
    """ (?: [^\\] | \\. )*? "{3,5}
    | \'\'\' .*? '{3,5}
    | " (?: [^"\\\n] | \\. )* "
    | ' [^'\n]* '
    | \# [^\n]*
    | [\[\]{}\n]
    | [^"'\#\[\]{}\n]+
    ''',
    re.DOTALL | re.VERBOSE,
)


@define
class TableText:
    """One table of a file: its own statements, then the tables below it and the gaps between them.

    ``key`` is the last part of its header. A gap (``str``) is blank lines and comments that stand apart.
    """

    path: tuple[str, ...] = ()
    statements: list[str] = attrs.Factory(list)
    below: "list[TableText | str]" = attrs.Factory(list)

    @property
    def key(self) -> str:
        """The last part of the header."""
        return self.path[-1]


class ScatteredError(ValueError):
    """A file whose tables below one table do not stand together; TOML allows it, hardly anyone does it."""


def statements_of(text: str) -> Iterator[str]:
    """Cut TOML into statements; joined they are the text again."""
    start = depth = 0
    for token in _TOKEN.finditer(text):
        match token.group():
            case "[" | "{":
                depth += 1
            case "]" | "}":
                depth -= 1
            case "\n" if depth == 0:
                yield text[start : token.end()]
                start = token.end()
    if start < len(text):
        yield text[start:]


def read_tables(text: str) -> TableText:
    """Return the tables of a TOML text, of at most two levels."""
    root = table = TableText()
    apart: list[str] = []
    for statement in statements_of(text):
        sort = statement.lstrip()[:1]
        if sort in ("", "#"):
            apart.append(statement)
        elif sort == "[":
            own, gap, above = _split_at_blanks(apart)
            table.statements += own
            table = TableText(path=_header_path(statement), statements=[*above, statement])
            _hang(root, table, gap)
            apart = []
        else:
            table.statements += [*apart, statement]
            apart = []
    own, gap, above = _split_at_blanks([*apart, ""])
    table.statements += own
    if gap or above:
        root.below.append(gap + "".join(above))
    return root


def _split_at_blanks(apart: Sequence[str]) -> tuple[Sequence[str], str, Sequence[str]]:
    """Tell comments that end one table, those that stand apart, and those right above the next header."""
    blanks = [index for index, statement in enumerate(apart) if not statement.strip()]
    if not blanks:
        return [], "", apart
    return apart[: blanks[0]], "".join(apart[blanks[0] : blanks[-1] + 1]), apart[blanks[-1] + 1 :]


def _hang(root: TableText, table: TableText, gap: str) -> None:
    parent = root
    if len(table.path) > 1:
        last = root.below[-1] if root.below else None
        if not isinstance(last, TableText) or last.path != table.path[:-1]:
            raise ScatteredError
        parent = last
    if gap:
        parent.below.append(gap)
    parent.below.append(table)


def _header_path(statement: str) -> tuple[str, ...]:
    path: tuple[str, ...] = ()
    inner: Any = tomllib.loads(statement)
    while inner:
        key = next(iter(inner))
        path, inner = (*path, key), inner[key]
        inner = inner[0] if isinstance(inner, list) else inner
    return path


def key_of(statement: str) -> str | None:
    """Return the key that a statement gives a value to, None for a header, a comment or a blank line."""
    if statement.lstrip()[:1] in ("", "#", "["):
        return None
    return next(iter(tomllib.loads(statement)))
