"""What to buy, what one more thing would give, and which eyepiece gives a wanted power, in sentences."""

from collections.abc import Sequence

from core.gear.optics import is_past_limit
from core.gear.owned import Barlow, Eyepiece, TelescopeKind
from core.ladder.gaps import Gap, WantedEyepiece, WhatIf, eyepieces_for_power, widest_gap
from core.ladder.ladder import Ladder
from core.words.limits import limit_name
from core.words.names import listed
from core.words.quantities import power_text, two_figures

_SHORTEST_MADE_MM, _LONGEST_MADE_MM = 2.0, 60.0
_MOST_POWERS_NAMED = 4


def buying_sentence(ladder: Ladder, advice: WhatIf | None) -> str:
    """Return the one purchase that would help most, or that there is nothing to buy."""
    if ladder.scope.kind is TelescopeKind.FIXED or ladder.ceiling.power is None:
        return ""
    gap = widest_gap([rung.power for rung in ladder.rungs], ladder.ceiling.power)
    if gap is None:
        return "Nothing to buy: the ceiling leaves no room above 50x."
    if advice is None:
        return f"Nothing to buy: no usual eyepiece or Barlow would narrow the widest gap, {_gap(gap)}."
    widest = _gap(advice.before or gap)
    return f"Widest gap {widest}: {_thing(advice)} would help most; the ladder shows it dashed."


def what_if_sentence(ladder: Ladder, advice: WhatIf | None) -> str:
    """Return what a thing not owned would give."""
    if ladder.scope.kind is TelescopeKind.FIXED:
        return f"{ladder.scope.name} has powers of its own; nothing can be put into it."
    if advice is None:
        return "Without a ceiling there is nothing to weigh it by."
    if not advice.powers:
        return f"{_article(advice.thing)} would give no power with what is owned."
    words = [f"{_article(advice.thing)} would give {_powers(advice.powers)}."]
    if advice.before is not None and advice.after is not None:
        words.append(
            f"The widest gap would shrink from {_gap(advice.before)} to {_gap(advice.after)}."
            if advice.improves
            else f"The widest gap would stay {_gap(advice.before)}."
        )
    if advice.duplicates:
        words.append(f"{_how_many(advice)} within 15 % of a power you have.")
    return " ".join(words)


def _how_many(advice: WhatIf) -> str:
    if len(advice.powers) == 1:
        return "It is"
    if advice.duplicates == len(advice.powers):
        return "All of these are"
    return "One of these is" if advice.duplicates == 1 else f"{advice.duplicates} of these are"


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
        return f"{len(powers)} powers from {power_text(powers[0])} to {power_text(powers[-1])}"
    return listed(power_text(power) for power in powers)


def _gap(gap: Gap) -> str:
    return f"{power_text(gap.low_power)} to {power_text(gap.high_power)}"


def _thing(advice: WhatIf) -> str:
    lowest, *others = advice.powers
    powers = f"{power_text(lowest)} to {power_text(others[-1])}" if others else power_text(lowest)
    article = _article(advice.thing)
    return f"{article[0].lower()}{article[1:]} ({powers})"


def _article(thing: Eyepiece | Barlow) -> str:
    """Return a thing not owned, as a sentence begins with it."""
    kind = "eyepiece" if isinstance(thing, Eyepiece) else "reducer" if thing.is_reducer else "Barlow"
    article = "An" if thing.name.startswith(("8", "11", "18")) else "A"
    return f"{article} {thing.name} {kind}"
