"""Sentences read as people speak: what was stiff stays mended, and rules of thumb say that they are."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.words.comparison import COMPARED_BY_RULES
from gui.app import main

ROOT = Path(__file__).resolve().parents[3]
SAMPLE = ROOT / "sample_profiles" / "balcony_greece.toml"
STIFF = (
    *("2x for each of", "the path is of the apparent", "parted by semicolons", "is called so"),
    *("is outside since", "the evening pointed at", "Nothing stands in the sky"),
    *("18° down {dark}", "neither cross nor leave the disc", "nothing of the blocked sky is before"),
    *(
        "somewhere from {soonest}",
        "parts its colours",
        "Usual size of text",
        "go on later",
        "is past its best since",
        "is no time zone",
    ),
)


def told() -> Iterator[tuple[str, str]]:
    """Yield the place and the text of everything that the program may say."""
    for folder in ("core", "gui"):
        for path in sorted((ROOT / folder).rglob("*.py")):
            tree = ast.parse(path.read_text("utf-8"))
            docs = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
            for node in ast.walk(tree):
                if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
                    yield f"{path.relative_to(ROOT)}:{node.lineno}", node.value


def test_no_sentence_goes_back_to_what_was_stiff() -> None:
    assert [(where, stiff) for where, text in told() for stiff in STIFF if stiff in text] == []


@pytest.mark.parametrize(
    ("command", "begins"),
    [
        ("snapshot", "Save pictures of the three views"),
        ("compare", "Compare two telescopes"),
        ("heights", "Show when and how high"),
    ],
)
def test_a_command_says_what_it_does(command: str, begins: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([command, "--help"]) == 0
    assert begins in " ".join(capsys.readouterr().out.split())


def test_a_comparison_tells_rules_of_thumb_from_facts(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", str(SAMPLE), "Six-inch reflector", "80 mm refractor"]) == 0
    words = " ".join(capsys.readouterr().out.split())
    assert COMPARED_BY_RULES in words
    assert "All figures are rules of thumb" not in words


def test_the_bands_of_height_are_called_a_rule_of_thumb(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["heights", str(SAMPLE), "--evening", "2026-12-05"]) == 0
    assert "The heights of 30° and 45° are rules of thumb." in " ".join(capsys.readouterr().out.split())
