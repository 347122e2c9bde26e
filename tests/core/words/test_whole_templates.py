"""Sentences are whole templates, so that another language can be a second catalogue: nothing is glued."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import core.drawing
import core.report
import core.words
import gui

FILES = sorted(Path(core.words.__path__[0]).glob("*.py"))
# These only place words: they may put names of files and keys together, but nothing with a blank in it.
PLACING = sorted(
    path for package in (gui, core.report, core.drawing) for path in Path(package.__path__[0]).rglob("*.py")
)
# What may follow a figure.
UNITS = {"", "x", "x per mm", "°", "′", "″", "%", "½", "mm", "s", "min", "times", "°C"}
# These write dates, times of day and lists, and no sentences.
WRITERS = {"dates.py", "site_clock.py", "names.py"}
NO_SENTENCES = {
    ("comparison.py", "f'other_{name}'"),
    # Keys under which edits are joined to one step.
    ("form.py", "f'{field.name} {self._session}'"),
    ("guide.py", "f'{_STEP_NAME} {next(_GUIDES)}'"),
    # Lines, tables and commands that others read.
    ("lettering.py", "f'{lines[-1]} {word}'"),
    ("spreadsheet.py", "'\\t'.join((_one_line(cell) for cell in row)) + '\\n'"),
    ("versions.py", "f'{platform.system()} {platform.release()} {platform.machine()}'"),
    ("windows.py", "f'{subprocess.list2cmdline(start_words)} \"%1\"'"),
    # Where a sentence ends, for a search.
    ("wrapped_text.py", "f'(?<=[{ends}]) '"),
    # What only a mistake in a palette's own file calls up.
    ("palette.py", "f'{attribute.name} must be a colour such as #1d2229, not {value!r}'"),
    ("palette.py", "f\"bodies lacks {', '.join(missing)}\""),
}
# A report for whoever mends the program, in the words of its own code.
FOR_MENDERS = {"error_report.py"}


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
        ) or (isinstance(node, ast.AugAssign) and isinstance(node.op, ast.Add) and _is_text(node.value)):
            yield ast.unparse(node)


@cache
def allowed() -> set[tuple[str, str]]:
    """Return what is no sentence, in the quotes that this Python writes."""
    return {(name, ast.unparse(ast.parse(text))) for name, text in NO_SENTENCES}


def _is_figure(text: ast.JoinedStr) -> bool:
    values = [part for part in text.values if isinstance(part, ast.FormattedValue)]
    letters = "".join(str(part.value) for part in text.values if isinstance(part, ast.Constant))
    return len(values) <= 1 and (letters.strip() in UNITS or not values)


def glued_sentences(source: str) -> Iterator[str]:
    """Yield each expression that glues words with blanks between them."""
    for text in glued(source):
        constants = (node.value for node in ast.walk(ast.parse(text)) if isinstance(node, ast.Constant))
        if any(isinstance(value, str) and any(map(str.isspace, value)) for value in constants):
            yield text


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_no_sentence_is_glued_from_pieces(path: Path) -> None:
    if path.name in WRITERS:
        pytest.skip("writes dates, times or lists")

    found = [text for text in glued(path.read_text("utf-8")) if (path.name, text) not in allowed()]

    assert not found


@pytest.mark.parametrize("path", PLACING, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_whoever_places_words_makes_no_sentence_of_them(path: Path) -> None:
    if path.name in FOR_MENDERS:
        pytest.skip("tells of code")

    found = [text for text in glued_sentences(path.read_text("utf-8")) if (path.name, text) not in allowed()]

    assert not found


@pytest.mark.parametrize(
    "source",
    [
        'f"Saved as {path}."',
        '"Saved as " + name',
        'told += f" ({more})"',
        'f"{name} is removed"',
        'f"{told} {more}"',
    ],
)
def test_glued_sentences_are_seen(source: str) -> None:
    assert list(glued_sentences(source))


@pytest.mark.parametrize("source", ['f"{stem}.toml"', 'f"Ctrl+{number}"', 'f"{key}/{name}"', '"a" + "b"'])
def test_names_of_files_and_keys_are_no_sentences(source: str) -> None:
    assert not list(glued_sentences(source))


@pytest.mark.parametrize(
    "source",
    [
        'f"{words}{stop}."',
        'f"Stay at {power}"',
        '"as far as " + limit',
        'TEMPLATE + " and no further"',
        '"at %s" % height',
        'words += " and no further"',
    ],
)
def test_glue_is_seen(source: str) -> None:
    assert list(glued(source))


@pytest.mark.parametrize(
    "source", ['f"{figure} mm"', 'f"{figure}°"', 'f"{value:.12g}"', "day + 1", "words + more"]
)
def test_a_figure_and_its_unit_are_no_glue(source: str) -> None:
    assert not list(glued(source))


# What the system itself is told, a report for whoever mends the program, and what argparse asks for.
_NOT_IN_THE_WINDOW = {"app.py", "message_box.py", "error_report.py", "freedesktop.py", "windows.py"}
_A_SENTENCE_HAS = 5


def sentences(source: str) -> Iterator[str]:
    """Yield each text of a few words or more that ends with a full stop, but for docstrings."""
    tree = ast.parse(source)
    docs = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            words = node.value.rstrip()
            if words.endswith((".", "?")) and len(words.split()) >= _A_SENTENCE_HAS:
                yield words


WINDOW = sorted(path for path in Path(gui.__path__[0]).rglob("*.py") if "commands" not in path.parts)


@pytest.mark.parametrize("path", WINDOW, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_the_window_holds_no_sentence_of_its_own(path: Path) -> None:
    if path.name in _NOT_IN_THE_WINDOW:
        pytest.skip("tells the system, or whoever mends the program")

    assert list(sentences(path.read_text("utf-8"))) == []
