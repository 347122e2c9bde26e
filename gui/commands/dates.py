"""``stillair dates``: the next evenings on which planets stand high enough when you are outside."""

import re
from argparse import ArgumentParser, Namespace
from collections.abc import Sequence
from datetime import datetime

from core.export.dates import dates_json
from core.export.parts import to_json
from core.gear.numbers import parse_within, shown
from core.moments.details import Sharpness
from core.moments.hours import Dusks, Hour, usual_ends
from core.problems import ProblemsError, refuse
from core.record.choose import choose_planet
from core.record.profile import read_profile
from core.report.dates import dates_text
from core.sky.bodies import Body
from core.sky.civil import evening_span, tonight
from core.words.commands import MUST_BE_LOWER_FIRST, MUST_BE_RANGE, NOT_ASKED_FOR
from core.year.dates import (
    HEIGHT_DEG,
    MOON_LIT_PERCENT,
    DateWishes,
    HeightWish,
    check_hours,
    find_dates,
    usual_height_deg,
)
from gui.commands.chosen import choose_site, scope_if_any
from gui.commands.parsing import (
    add_first_evening,
    add_hours,
    add_json,
    add_profile,
    add_scope,
    add_site,
    checked,
    placed,
)
from gui.terminal import terminal_width

_RANGE = re.compile(r"\s*([^-–\s]+)\s*[-–]\s*([^-–\s%]+)\s*%?\s*")


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    parser.add_argument(
        "--planet",
        metavar="P",
        type=checked(choose_planet),
        action="append",
        required=True,
        help="a planet or the Moon; give it again for each further one",
    )
    parser.add_argument(
        "--from-height",
        metavar="DEG|PLANET=DEG",
        action="append",
        default=[],
        help="least height for all, or for one planet, 10 to 89 degrees; 30 (Mercury: 10) when left out",
    )
    add_hours(parser)
    parser.add_argument(
        "--moon",
        metavar="LOW-HIGH",
        type=checked(moon_percent),
        help="how much of the Moon may be lit, in percent: 0-30; any when left out",
    )
    add_site(parser)
    add_scope(parser)
    add_first_evening(parser)
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the next ten evenings that fit."""
    profile = read_profile(args.profile)
    site = choose_site(profile, args.site)
    scope = scope_if_any(profile, args.scope)
    preferences = profile.preferences
    usual = usual_ends(preferences.out_from_time, preferences.out_until_time)
    wishes = DateWishes(
        heights=_heights(args.planet, args.from_height),
        start=args.out_from,
        end=args.out_until,
        moon_percent=args.moon,
    )
    first = tonight(site, now) if args.first is None else args.first
    try:
        noon, _ = evening_span(site, first)
        _check_hours(wishes, usual, Dusks(noon=noon, zone=site.zone, sunset=None, sunrise=None))
        found = find_dates(
            site,
            wishes,
            first,
            usual=usual,
            dark_enough=profile.dark.sun_altitudes_deg(),
            sharpness=None if scope is None else Sharpness.through(scope),
        )
    except ProblemsError as error:
        raise placed(error, "--from") from None
    if args.json:
        return to_json(dates_json(found, site, first, usual=usual, scope=scope))
    return dates_text(found, site, usual=usual, clock=preferences.clock, width=terminal_width())


def moon_percent(text: str) -> tuple[float, float]:
    """Return how much of the Moon may be lit, from and to, in percent."""
    match = _RANGE.fullmatch(text)
    if match is None:
        raise refuse(MUST_BE_RANGE.format(typed=shown(text)))
    low, high = (parse_within(part, MOON_LIT_PERCENT) for part in match.groups())
    if low > high:
        raise refuse(MUST_BE_LOWER_FIRST.format(typed=shown(text)))
    return low, high


def _check_hours(wishes: DateWishes, usual: tuple[Hour, Hour], dusks: Dusks) -> None:
    try:
        check_hours(wishes, usual, dusks)
    except ProblemsError as error:
        raise placed(error, "--out-from" if wishes.end is None else "--out-until") from None


def _heights(planets: Sequence[Body], heights: Sequence[str]) -> tuple[HeightWish, ...]:
    bodies = list(dict.fromkeys(planets))
    all_deg: float | None = None
    own_deg: dict[Body, float] = {}
    for text in heights:
        planet, is_own, height = text.rpartition("=")
        above_deg = _height_deg(height)
        if not is_own:
            all_deg = above_deg
            continue
        body = choose_planet(planet, where="--from-height")
        if body not in bodies:
            raise refuse(NOT_ASKED_FOR.format(planet=body.heading), where="--from-height")
        own_deg[body] = above_deg
    return tuple(
        HeightWish(
            body=body,
            above_deg=own_deg.get(body, usual_height_deg(body) if all_deg is None else all_deg),
        )
        for body in bodies
    )


def _height_deg(text: str) -> float:
    try:
        return parse_within(text, HEIGHT_DEG)
    except ProblemsError as error:
        raise refuse(str(error).strip(" ."), where="--from-height") from None
