"""What to buy, what one more thing would give, and which eyepiece gives a wanted power, in sentences."""

from collections.abc import Sequence

from core.gear.optics import is_past_limit
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.buying import BuyKind, Purchase, as_gear
from core.ladder.gaps import Gap, WantedEyepiece, WhatIf, eyepieces_for_power
from core.ladder.ladder import Ladder
from core.words.limits import limit_name
from core.words.names import listed
from core.words.quantities import power_text, two_figures

_SHORTEST_MADE_MM, _LONGEST_MADE_MM = 2.0, 60.0
_MOST_POWERS_NAMED = 4


def buying_sentence(scope: Telescope, to_buy: Purchase | None) -> str:
    """Return the one thing that would help most over many nights, or that there is nothing to buy."""
    if scope.kind is TelescopeKind.FIXED:
        return ""
    if to_buy is None:
        return "Nothing to buy: on most nights you have a power near the best one."
    thing = _article(as_gear(to_buy.thing, scope=scope))
    # Where a zoom is set between its ends is the owner's choice.
    is_zoom = to_buy.thing.kind is BuyKind.ZOOM
    powers = _reach(to_buy.powers) if is_zoom else _powers(to_buy.powers)
    return f"{thing} ({powers}) would help most, {purpose_text(to_buy)}."


def purpose_text(to_buy: Purchase) -> str:
    """Return what the thing to buy is for, such as nights between two of the powers owned."""
    low, high = to_buy.from_power, to_buy.to_power
    if to_buy.for_finding:
        return "for finding a planet with: you have no power with an exit pupil of 2 to 6 mm"
    if low is not None and high is not None:
        return f"for nights that bear {power_text(low)} to {power_text(high)}: you have nothing between"
    if low is not None:
        return f"for nights that bear more than {power_text(low)}: you have nothing above"
    if high is not None:
        return f"for nights that bear less than {power_text(high)}: you have nothing below"
    return "for finding a planet with and for the first look at it: you have no power yet"


def what_if_sentence(ladder: Ladder, trial: WhatIf | None) -> str:
    """Return what a thing not owned would give."""
    if ladder.scope.kind is TelescopeKind.FIXED:
        return f"{ladder.scope.name} has powers of its own; nothing can be put into it."
    if trial is None:
        return "Without a ceiling there is nothing to weigh it by."
    if not trial.powers:
        return f"{_article(trial.thing)} would give no power with what is owned."
    words = [f"{_article(trial.thing)} would give {_powers(trial.powers)}."]
    if trial.before is not None and trial.after is not None:
        words.append(
            f"The widest gap would shrink from {_gap(trial.before)} to {_gap(trial.after)}."
            if trial.improves
            else f"The widest gap would stay {_gap(trial.before)}."
        )
    if trial.duplicates:
        words.append(f"{_how_many(trial)} within 15 % of a power you have.")
    return " ".join(words)


def _how_many(trial: WhatIf) -> str:
    if len(trial.powers) == 1:
        return "It is"
    if trial.duplicates == len(trial.powers):
        return "All of these are"
    return "One of these is" if trial.duplicates == 1 else f"{trial.duplicates} of these are"


def wanted_sentence(ladder: Ladder, barlows: Sequence[Barlow], power: float) -> str:
    """Return which eyepieces give a wanted power, the nearest owned, and whether it is over the ceiling."""
    scope, wanted = ladder.scope, power_text(power)
    if scope.kind is TelescopeKind.FIXED:
        return f"{scope.name} has powers of its own; nothing can be put into it."
    ways = [_way(way) for way in eyepieces_for_power(scope, barlows, power) if _is_made(way)]
    words = [f"{wanted} takes {' or '.join(ways)}." if ways else f"No eyepiece made gives {wanted} here."]
    if ladder.rungs:
        nearest = min(ladder.rungs, key=lambda rung: max(rung.power, power) / min(rung.power, power))
        words.append(f"The nearest you have is {power_text(nearest.power)}, {nearest.label}.")
    ceiling = ladder.ceiling
    if ceiling.power is not None and ceiling.set_by is not None and is_past_limit(power, ceiling.power):
        words.append(f"It is over the {power_text(ceiling.power)} that {limit_name(ceiling.set_by)} allows.")
    return " ".join(words)


def _way(way: WantedEyepiece) -> str:
    eyepiece = f"{two_figures(way.focal_length_mm)} mm"
    return eyepiece if way.barlow is None else f"{eyepiece} with {way.barlow.name}"


def _is_made(way: WantedEyepiece) -> bool:
    return _SHORTEST_MADE_MM <= way.focal_length_mm <= _LONGEST_MADE_MM


def _powers(powers: Sequence[float]) -> str:
    if len(powers) > _MOST_POWERS_NAMED:
        return f"{len(powers)} powers from {_reach(powers)}"
    return listed(power_text(power) for power in powers)


def _reach(powers: Sequence[float]) -> str:
    return f"{power_text(powers[0])} to {power_text(powers[-1])}"


def _gap(gap: Gap) -> str:
    return f"{power_text(gap.low_power)} to {power_text(gap.high_power)}"


def _article(thing: Eyepiece | Barlow) -> str:
    """Return a thing not owned, as a sentence begins with it."""
    kind = "eyepiece" if isinstance(thing, Eyepiece) else "reducer" if thing.is_reducer else "Barlow"
    article = "An" if thing.name.startswith(("8", "11", "18")) else "A"
    return f"{article} {thing.name} {kind}"
