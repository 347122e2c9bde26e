"""The examples in docstrings give what they say."""

import doctest
import importlib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
WITH_EXAMPLES = [
    path.relative_to(ROOT).with_suffix("").as_posix().replace("/", ".")
    for room in ("core", "gui")
    for path in sorted((ROOT / room).rglob("*.py"))
    if ">>> " in path.read_text("utf-8")
]


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_the_examples_of_a_module_are_true(name: str) -> None:
    result = doctest.testmod(importlib.import_module(name))

    assert result.attempted > 0
    assert result.failed == 0


def test_the_rooms_of_the_trade_have_examples() -> None:
    rooms = {name.split(".")[1] for name in WITH_EXAMPLES}
    assert rooms >= {"gear", "air", "sky", "ladder", "looks", "moments"}
