"""The options of a command line that tell the evening's temperatures and its damp."""

from argparse import ArgumentParser, Namespace

from core.air.temperatures import Temperatures
from core.gear.figures import parse_temperature_c
from core.gear.numbers import parse_number
from core.problems import refuse
from core.words.warmth import LOWEST_IS_TOO_WARM
from gui.commands.parsing import checked

_DEGREES = {
    "indoor": "temperature inside, where the telescope comes from",
    "air-now": "temperature of the air now",
    "air-dusk": "temperature of the air at dusk",
    "air-low": "lowest temperature of the night",
}


def add_temperatures(parser: ArgumentParser) -> None:
    """Declare what is known of the evening's temperatures."""
    group = parser.add_argument_group("temperatures, in °C unless written like 41F")
    for name, told in _DEGREES.items():
        group.add_argument(f"--{name}", metavar="C", type=checked(parse_temperature_c), help=told)
    group.add_argument(
        "--humidity", metavar="PCT", type=checked(_humidity_pct), help="relative humidity, 1 to 100 %%"
    )
    group.add_argument("--breeze", action="store_true", help="a breeze is blowing; calm when left out")


def temperatures_of(args: Namespace) -> Temperatures | None:
    """Return the temperatures that were given, None without any; ProblemsError where they cannot be."""
    found = Temperatures(
        indoor_c=args.indoor,
        now_c=args.air_now,
        dusk_c=args.air_dusk,
        lowest_c=args.air_low,
        humidity_pct=args.humidity,
        breeze=args.breeze,
    )
    if found.lowest_is_too_warm:
        raise refuse(LOWEST_IS_TOO_WARM, where="--air-low")
    return None if found == Temperatures() else found


def _humidity_pct(text: str) -> float:
    return parse_number(text, low=1, high=100, what="", unit="%")
