"""The options for temperatures on a command line."""

import pytest

from core.air.temperatures import Temperatures
from core.problems import ProblemsError
from gui.commands.parsing import Parser
from gui.commands.warmth import add_temperatures, temperatures_of


def told(*words: str) -> Temperatures | None:
    parser = Parser(prog="stillair evening", description="")
    add_temperatures(parser)
    return temperatures_of(parser.parse_args(words))


def test_every_option_and_either_unit() -> None:
    found = told(
        *("--indoor", "20", "--air-now", "41F", "--air-dusk", "3,5", "--air-low", "-2"),
        *("--humidity", "85", "--breeze"),
    )

    assert found == Temperatures(indoor_c=20, now_c=5, dusk_c=3.5, lowest_c=-2, humidity_pct=85, breeze=True)
    assert told() is None


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--air-now", "warm"), "--air-now: “warm” is not a number"),
        (("--air-now", "70"), "--air-now: The temperature must be from -60 to 60 °C"),
        (("--humidity", "0"), "--humidity: must be from 1 to 100 %"),
        (("--air-now", "5", "--air-low", "7"), "--air-low: The lowest of the night cannot be above"),
    ],
)
def test_what_cannot_be_is_refused_by_name(words: tuple[str, ...], sentence: str) -> None:
    with pytest.raises(ProblemsError) as refused:
        told(*words)

    assert sentence in str(refused.value)
