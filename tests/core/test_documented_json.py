"""The docstrings that show the JSON of the commands name every key that comes out."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest

import core.export.dates
import core.export.evening
import core.export.heights
import core.export.ladder
import core.export.looks
import core.export.year
from gui.app import main

PROFILE = Path(__file__).parents[2] / "sample_profiles" / "balcony_greece.toml"
LOOKS = [["looks", "--planet", planet] for planet in ("jupiter", "saturn", "mars", "moon")]
LADDERS = [["ladder", "--planet", "saturn"], ["compare", "six", "grab", "--planet", "saturn"]]
AIR = ["--indoor", "20", "--air-now", "12", "--air-dusk", "9", "--air-low", "4", "--humidity", "85"]
CASES = [
    pytest.param(core.export.heights, [["heights"]], id="heights"),
    pytest.param(core.export.ladder, LADDERS, id="ladder"),
    pytest.param(core.export.looks, LOOKS, id="looks"),
    pytest.param(core.export.evening, [["evening", *AIR]], id="evening"),
    pytest.param(core.export.year, [["year", "--planet", "mars", "--longitude", "300"]], id="year"),
    pytest.param(core.export.dates, [["dates", "--planet", "saturn"]], id="dates"),
]
# Where one says `...` for what another shows whole.
SHOWN_ELSEWHERE = {
    core.export.evening: core.export.heights,
    core.export.dates: core.export.heights,
}


def keys_of(value: object) -> Iterator[str]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield key
            yield from keys_of(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from keys_of(inner)


def shown_keys(module: ModuleType) -> set[str]:
    """Return what stands as a key in a docstring: in quotes before a colon, comma or brace, or as code."""
    text = module.__doc__ or ""
    return set(re.findall(r'"([a-z_0-9]+)"(?=[:,}])', text)) | set(re.findall(r"``([a-z_]+)``", text))


@pytest.mark.parametrize(("module", "lines"), CASES)
def test_every_key_that_comes_out_is_shown(
    module: ModuleType, lines: list[list[str]], capsys: pytest.CaptureFixture[str]
) -> None:
    given: set[str] = set()
    for command, *words in lines:
        start = ["--from"] if command in ("year", "dates") else ["--evening"]
        assert main([command, str(PROFILE), *words, *start, "2026-12-05", "--json"]) == 0
        given.update(keys_of(json.loads(capsys.readouterr().out)))
    shown = shown_keys(module)
    if module in SHOWN_ELSEWHERE:
        shown |= shown_keys(SHOWN_ELSEWHERE[module])

    assert given - shown == set()
