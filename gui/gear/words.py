"""What the kit gives, in sentences."""

from collections.abc import Sequence

from core.air.steadiness import FIRST_LOOK_BLUR_ARCSEC, BlurSource, LimitKind
from core.kit.gaps import Gap, WhatIf, suggest, widest_gap
from core.kit.gear import Barlow, Eyepiece, TelescopeKind
from core.kit.ladder import Ladder
from core.kit.rounding import power_text
from core.sky.aim import Aim
from core.wording import altitude_text, listed

_SET_BY = {
    LimitKind.APERTURE: "the aperture",
    LimitKind.USUAL_AIR: "the usual air",
    LimitKind.TONIGHT_AIR: "tonight's air",
}


def aim_words(aim: Aim) -> str:
    """Return where the scope points, as inside a sentence."""
    if aim.overhead:
        return "straight overhead"
    height = altitude_text(aim.altitude_deg)
    return f"for {aim.planet.label} at {height}" if aim.planet else f"at {height}"


def limits_sentence(ladder: Ladder) -> str:
    """Return the three limits of power."""
    limits, blur = ladder.limits, ladder.blur
    words = [f"aperture {power_text(limits.aperture)}", f"usual air {power_text(limits.usual_air)}"]
    if limits.tonight_air is not None:
        look = next(
            (look for look, arcsec in FIRST_LOOK_BLUR_ARCSEC.items() if arcsec == blur.overhead_arcsec), None
        )
        air = f"{look} air" if look else f"a blur of {blur.overhead_arcsec:.2g}″ overhead"
        assumed = ", assumed" if blur.source is BlurSource.ASSUMED else ""
        words.append(f"tonight's air (seeing) {power_text(limits.tonight_air)} with {air}{assumed}")
    return f"Rules of thumb: {listed(words)}."


def ceiling_sentence(ladder: Ladder) -> str:
    """Return how far up the ladder goes where the scope points, and what stops it."""
    ceiling = ladder.ceiling
    if ceiling.power is None or ceiling.set_by is None:
        return f"No ceiling: {ceiling.reason}"
    about = f"about {power_text(ceiling.power)} {aim_words(ladder.aim)}"
    return f"Ceiling {about}, set by {_SET_BY[ceiling.set_by]}."


def buying_sentence(ladder: Ladder, eyepieces: Sequence[Eyepiece], barlows: Sequence[Barlow]) -> str:
    """Return the one purchase that would help most, or that there is nothing to buy."""
    if ladder.scope.kind is TelescopeKind.FIXED or ladder.ceiling.power is None:
        return ""
    gap = widest_gap([rung.power for rung in ladder.rungs], ladder.ceiling.power)
    advice = suggest(ladder.scope, eyepieces, barlows, ladder.ceiling.power)
    if gap is None:
        return "Nothing to buy: the ceiling leaves no room above 50x."
    if advice is None:
        return f"Nothing to buy: no usual eyepiece or Barlow would narrow the widest gap, {_gap(gap)}."
    return f"Widest gap {_gap(advice.before or gap)}: {_thing(advice)} would help most."


def _gap(gap: Gap) -> str:
    return f"{power_text(gap.low_power)} to {power_text(gap.high_power)}"


def _thing(advice: WhatIf) -> str:
    lowest, *others = advice.powers
    powers = f"{power_text(lowest)} to {power_text(others[-1])}" if others else power_text(lowest)
    if isinstance(advice.thing, Barlow):
        return f"a {advice.thing.factor:g}x Barlow ({powers})"
    article = "an" if f"{advice.thing.focal_length_mm:g}".startswith(("8", "11", "18")) else "a"
    return f"{article} {advice.thing.focal_length_mm:g} mm eyepiece ({powers})"
