"""Sentences are whole templates, so that another language can be a second catalogue: nothing is glued."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import core.words

FILES = sorted(Path(core.words.__path__[0]).glob("*.py"))
# What may follow a figure.
UNITS = {"", "x", "x per mm", "°", "′", "″", "%", "½", "mm", "s", "min", "times", "°C"}
# These write dates, times of day and lists, and no sentences.
WRITERS = {"dates.py", "site_clock.py", "names.py"}
NO_SENTENCES = {("comparison.py", "f'other_{name}'")}


def glued(source: str) -> Iterator[str]:
    """Yield each expression that makes a text of more than one figure and its unit."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.JoinedStr):
            if not _is_figure(node):
                yield ast.unparse(node)
        elif (
            isinstance(node, ast.BinOp)
            and isinstance(node.op, ast.Add | ast.Mod)
            and (_is_text(node.left) or _is_text(node.right))
        ):
            yield ast.unparse(node)


def _is_figure(text: ast.JoinedStr) -> bool:
    values = [part for part in text.values if isinstance(part, ast.FormattedValue)]
    letters = "".join(str(part.value) for part in text.values if isinstance(part, ast.Constant))
    return len(values) <= 1 and (letters.strip() in UNITS or not values)


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_no_sentence_is_glued_from_pieces(path: Path) -> None:
    if path.name in WRITERS:
        pytest.skip("writes dates, times or lists")

    found = [text for text in glued(path.read_text("utf-8")) if (path.name, text) not in NO_SENTENCES]

    assert not found


@pytest.mark.parametrize(
    "source",
    [
        'f"{words}{stop}."',
        'f"Stay at {power}"',
        '"as far as " + limit',
        'TEMPLATE + " and no further"',
        '"at %s" % height',
    ],
)
def test_glue_is_seen(source: str) -> None:
    assert list(glued(source))


@pytest.mark.parametrize(
    "source", ['f"{figure} mm"', 'f"{figure}°"', 'f"{value:.12g}"', "day + 1", "words + more"]
)
def test_a_figure_and_its_unit_are_no_glue(source: str) -> None:
    assert not list(glued(source))
