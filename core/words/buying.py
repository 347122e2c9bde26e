"""What to buy, what one more thing would give, and which eyepiece gives a wanted power, in sentences."""

from collections.abc import Sequence
from typing import Final

from core.air.usual_air import USUAL_AIR_POWER
from core.gear.aperture import working_aperture_mm
from core.gear.optics import aperture_limit, is_past_limit
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.gear.ranges import EYEPIECE_MM
from core.ladder.buying import ZOOM_SETTINGS, BuyKind, Purchase, as_gear
from core.ladder.gaps import Gap, WantedEyepiece, WhatIf, eyepieces_for_power
from core.ladder.ladder import Ladder
from core.words.limit_names import limit_name
from core.words.names import either, listed
from core.words.quantities import power_text, two_figures

_MOST_POWERS_NAMED = 4

_NOTHING: Final = "Nothing to buy: on most nights you have a power near the best one."
_NOTHING_BRIEFLY: Final = "Nothing"
_NOTHING_FITS_INTO_IT: Final = "Nothing; its power is built in"
_BUY_BRIEFLY: Final = "{thing}, {purpose}"
_BUY: Final = "{thing} ({powers}) would help most, {purpose}."
_FOR_FINDING: Final = "for finding a planet with: you have no power with an exit pupil of 2 to 6 mm"
# Of two templates the second is for what a planet is found with too.
_FOR_BETWEEN: Final = (
    "for nights that bear {low} to {high}: you have nothing between",
    "for nights that bear {low} to {high}, where you have nothing between, and for finding a planet with",
)
_FOR_ABOVE: Final = (
    "for nights that bear more than {low}: you have nothing above",
    "for nights that bear more than {low}, where you have nothing above, and for finding a planet with",
)
_FOR_BELOW: Final = (
    "for nights that bear less than {high}: you have nothing below",
    "for nights that bear less than {high}, where you have nothing below, and for finding a planet with",
)
_FOR_BEGINNING: Final = "for finding a planet with and for the first look at it: you have no power yet"
_BUILT_IN: Final = "{scope} has powers of its own; nothing can be put into it."
_NO_CEILING: Final = "Without a ceiling there is nothing to weigh it by."
_GIVES_NOTHING: Final = "{thing} would give no power with what you own."
_GIVES: Final = "{thing} would give {powers}."
_GAP_SHRINKS: Final = "The widest gap would shrink from {before} to {after}."
_GAP_STAYS: Final = "The widest gap would stay {before}."
_IT_IS_NEAR: Final = "It is within 15 % of a power you have."
_ALL_ARE_NEAR: Final = "All of these are within 15 % of a power you have."
_ONE_IS_NEAR: Final = "One of these is within 15 % of a power you have."
_SOME_ARE_NEAR: Final = "{count} of these are within 15 % of a power you have."
_TAKES: Final = "{wanted} takes {ways}."
_NOT_MADE: Final = "No eyepiece made gives {wanted} here."
_NEAREST: Final = "The nearest you have is {power}, {label}."
_OVER_CEILING: Final = "{wanted} is over the {ceiling} that {limit} can bear."
_WAY_WITH: Final = "{eyepiece} with {barlow}"
_MANY: Final = "{count} powers from {low} to {high}"
_REACH: Final = "{low} to {high}"
_REACH_WITH_BARLOW: Final = "{low} to {high}, counting your Barlow"
# A thing not owned, as a sentence begins with it.
_EYEPIECE: Final = ("A {name} eyepiece", "An {name} eyepiece")
# No factor begins with an eight, an eleven or an eighteen.
_REDUCER: Final = "A {name} reducer"
_BARLOW: Final = "A {name} Barlow"


def buying_sentence(scope: Telescope, to_buy: Purchase | None) -> str:
    """Return the one thing that would help most over many nights, or that there is nothing to buy."""
    if scope.kind is TelescopeKind.FIXED:
        return ""
    if to_buy is None:
        return _NOTHING
    # Where a zoom is set between its ends is the owner's choice.
    is_zoom = to_buy.thing.kind is BuyKind.ZOOM
    return _BUY.format(
        thing=_opening(as_gear(to_buy.thing, scope=scope)),
        powers=_zoom_powers(to_buy) if is_zoom else _powers(_borne_at_times(scope, to_buy.powers)),
        purpose=purpose_text(to_buy),
    )


def buying_words(scope: Telescope, to_buy: Purchase | None) -> str:
    """Return the same in few words, for a table."""
    if scope.kind is TelescopeKind.FIXED:
        return _NOTHING_FITS_INTO_IT
    if to_buy is None:
        return _NOTHING_BRIEFLY
    thing = _opening(as_gear(to_buy.thing, scope=scope))
    return _BUY_BRIEFLY.format(thing=thing, purpose=purpose_text(to_buy))


def purpose_text(to_buy: Purchase) -> str:
    """Return what the thing to buy is for, such as nights between two of the powers owned."""
    low, high = to_buy.from_power, to_buy.to_power
    if to_buy.for_finding:
        return _FOR_FINDING
    if low is None and high is None:
        return _FOR_BEGINNING
    if high is not None and (low is None or low < USUAL_AIR_POWER):
        # On most nights the air bears no more than that.
        high = min(high, USUAL_AIR_POWER)
    templates = _FOR_BELOW if low is None else _FOR_ABOVE if high is None else _FOR_BETWEEN
    return templates[to_buy.finds_too].format(
        low="" if low is None else power_text(low), high="" if high is None else power_text(high)
    )


def what_if_sentence(ladder: Ladder, trial: WhatIf | None) -> str:
    """Return what a thing not owned would give."""
    if ladder.scope.kind is TelescopeKind.FIXED:
        return _BUILT_IN.format(scope=ladder.scope.name)
    if trial is None:
        return _NO_CEILING
    thing = _opening(trial.thing)
    if not trial.powers:
        return _GIVES_NOTHING.format(thing=thing)
    words = [_GIVES.format(thing=thing, powers=_powers(trial.powers))]
    if trial.before is not None and trial.after is not None:
        template = _GAP_SHRINKS if trial.improves else _GAP_STAYS
        words.append(template.format(before=_gap(trial.before), after=_gap(trial.after)))
    if trial.duplicates:
        words.append(_near_words(trial))
    return " ".join(words)


def _near_words(trial: WhatIf) -> str:
    if len(trial.powers) == 1:
        return _IT_IS_NEAR
    if trial.duplicates == len(trial.powers):
        return _ALL_ARE_NEAR
    return _ONE_IS_NEAR if trial.duplicates == 1 else _SOME_ARE_NEAR.format(count=trial.duplicates)


def wanted_sentence(ladder: Ladder, barlows: Sequence[Barlow], power: float) -> str:
    """Return which eyepieces give a wanted power, the nearest owned, and whether it is over the ceiling."""
    scope, wanted = ladder.scope, power_text(power)
    if scope.kind is TelescopeKind.FIXED:
        return _BUILT_IN.format(scope=scope.name)
    found = eyepieces_for_power(scope, barlows, power)
    ways = [_way(way) for way in found if EYEPIECE_MM.holds(way.focal_length_mm)]
    words = [_TAKES.format(wanted=wanted, ways=either(ways)) if ways else _NOT_MADE.format(wanted=wanted)]
    if ladder.rungs:
        nearest = min(ladder.rungs, key=lambda rung: max(rung.power, power) / min(rung.power, power))
        words.append(_NEAREST.format(power=power_text(nearest.power), label=nearest.label))
    ceiling = ladder.ceiling
    if ceiling.power is not None and ceiling.set_by is not None and is_past_limit(power, ceiling.power):
        words.append(
            _OVER_CEILING.format(
                wanted=wanted, ceiling=power_text(ceiling.power), limit=limit_name(ceiling.set_by)
            )
        )
    return " ".join(words)


def _way(way: WantedEyepiece) -> str:
    eyepiece = f"{two_figures(way.focal_length_mm)} mm"
    return eyepiece if way.barlow is None else _WAY_WITH.format(eyepiece=eyepiece, barlow=way.barlow.name)


def _powers(powers: Sequence[float]) -> str:
    if len(powers) > _MOST_POWERS_NAMED:
        low, high = power_text(powers[0]), power_text(powers[-1])
        return _MANY.format(count=len(powers), low=low, high=high)
    return listed(power_text(power) for power in powers)


def _borne_at_times(scope: Telescope, powers: Sequence[float]) -> Sequence[float]:
    """Return those powers that a usual night may bear at all, for no more are a reason to buy anything."""
    most = min(aperture_limit(working_aperture_mm(scope)), USUAL_AIR_POWER)
    return [power for power in powers if not is_past_limit(power, most)] or powers


def _zoom_powers(to_buy: Purchase) -> str:
    """Return the reach of a zoom; with more powers than it has settings some of them need what is owned."""
    low, high = power_text(to_buy.powers[0]), power_text(to_buy.powers[-1])
    return (_REACH_WITH_BARLOW if len(to_buy.powers) > ZOOM_SETTINGS else _REACH).format(low=low, high=high)


def _reach(low_power: float, high_power: float) -> str:
    return _REACH.format(low=power_text(low_power), high=power_text(high_power))


def _gap(gap: Gap) -> str:
    return _reach(gap.low_power, gap.high_power)


def _opening(thing: Eyepiece | Barlow) -> str:
    """Return a thing not owned, as a sentence begins with it."""
    if isinstance(thing, Eyepiece):
        return _EYEPIECE[thing.name.startswith(("8", "11", "18"))].format(name=thing.name)
    return (_REDUCER if thing.is_reducer else _BARLOW).format(name=thing.name)
