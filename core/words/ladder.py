"""What stands beside a rung and beside a limit, in words."""

from collections.abc import Sequence
from enum import Enum, auto

from attrs import evolve, frozen

from core.air.blur import BlurSource
from core.gear.combinations import Combination, factor_label
from core.gear.owned import Barlow
from core.ladder.ladder import Ladder, Rung, Standing
from core.words.aim import no_ceiling_words
from core.words.quantities import (
    drift_text,
    factor_figure,
    field_text,
    figures_text,
    length_text,
    power_text,
    pupil_text,
    rounded_text,
)

NOT_TONIGHT = "not tonight"
WORTH_A_TRY = "worth a try"
PERHAPS = "perhaps worth a try"
NOT_OWNED = "not owned"
NEW = "new"
ZOOM = "zoom"
_RUN = "{low}–{high}"
_RUN_BEHIND = "{run}, {barlows} in"
# A Barlow whose measured factor is the one that counts.
_MEASURED = "{barlow} ({factor})"
_LENGTHS = "{short}–{long}"
_ABOUT = "~{power}"
_EXACT = "{power}"
_WITH_REMARK = "{eyepiece}, {remark}"
_HERE = "you are here"
_HERE_BRIEFLY = "here"
_NEXT = "next"
_BACK = "back to here"
_BACK_BRIEFLY = "back"
_START_AND_TOP = "Begin here and stay."
SHORT_MARKS = "marks: {count} more"
ZOOM_BARS = "bars: zooms"
DASHED = "dashed: not tonight"
MARKED_NEW = "new: not owned"
NO_POWER = "No power to show yet."


class _Part(Enum):
    """What part a rung plays tonight."""

    START = auto()
    FINDING = auto()
    TOP = auto()
    TRY = auto()
    TRY_IN_ASSUMED_AIR = auto()
    ABOVE = auto()


@frozen
class _PartWords:
    """A part beside its rung, the same where there is little room, and as a sentence."""

    full: str
    brief: str
    sentence: str = ""


# That the dashed rungs are not for tonight is said once where there is little room.
_PARTS = {
    _Part.START: _PartWords("begin here", "first", "Begin here."),
    _Part.FINDING: _PartWords("for finding", "find", "For finding: low for looking at a planet."),
    _Part.TOP: _PartWords("top tonight", "top", "Top tonight."),
    _Part.TRY: _PartWords(WORTH_A_TRY, "try"),
    _Part.TRY_IN_ASSUMED_AIR: _PartWords(PERHAPS, "try"),
    _Part.ABOVE: _PartWords(NOT_TONIGHT, ""),
}


@frozen(kw_only=True)
class RungWords:
    """The words of a rung, by column; an empty one says that the figure does not exist.

    ``eyepiece_briefly`` tells eyepiece and Barlow by figures, where the owner's names have no room.
    """

    power: str
    eyepiece: str
    eyepiece_briefly: str
    exit_pupil: str
    field: str
    drift: str
    remark: str
    is_owned: bool = True

    @property
    def with_remark(self) -> str:
        """Eyepiece and Barlow by figures with the remark, where that has no column of its own."""
        if not self.remark:
            return self.eyepiece_briefly
        return _WITH_REMARK.format(eyepiece=self.eyepiece_briefly, remark=self.remark)


def no_ceiling_text(ladder: Ladder) -> str:
    """Return why a ladder has no ceiling, as words without a full stop; empty where it has one."""
    return no_ceiling_words(ladder.aim) or ""


@frozen(kw_only=True)
class Standpoint:
    """The rung in hand, whether a person took it, and the rung to go to from there; None without one."""

    rung: Rung | None = None
    is_taken: bool = True
    following: Rung | None = None


NOWHERE = Standpoint()


def rung_words(
    rung: Rung,
    ladder: Ladder,
    standpoint: Standpoint = NOWHERE,
    *,
    brief: bool = False,
    is_owned: bool = True,
) -> RungWords:
    """Return what stands beside a rung, with shorter remarks where there is little room."""
    if not is_owned:
        remark = NEW if brief else NOT_OWNED
    else:
        remark = (_brief_remark if brief else _remark)(rung, ladder, standpoint)
    return RungWords(
        power=(_ABOUT if rung.combination.approximate else _EXACT).format(power=power_text(rung.power)),
        eyepiece=_eyepiece_words(rung.combination),
        eyepiece_briefly=_eyepiece_briefly(rung.combination),
        exit_pupil=pupil_text(rung.exit_pupil_mm),
        field="" if rung.true_field_deg is None else field_text(rung.true_field_deg),
        drift="" if rung.drift_s is None else drift_text(rung.drift_s),
        remark=remark,
        is_owned=is_owned,
    )


def run_words(
    rung: Rung,
    reach: tuple[float, float],
    *,
    brief: bool = False,
    by_powers: bool = False,
    is_owned: bool = False,
) -> RungWords:
    """Return what stands beside the powers of a zoom, one of its rungs given and both its ends.

    In brief the powers of an owned one stand in place of its name, unless it is told ``by_powers`` alone.
    """
    combination = rung.combination
    assert combination.eyepiece is not None
    barlows = tuple(barlow.name for barlow in combination.barlows)
    factors = tuple(factor_label(barlow) for barlow in combination.barlows)
    eyepiece = combination.eyepiece
    shortest_mm, longest_mm = eyepiece.focal_length_min_mm, eyepiece.focal_length_max_mm
    assert shortest_mm is not None
    assert longest_mm is not None  # only a zoom has a run
    lengths = _LENGTHS.format(short=figures_text(shortest_mm, 3), long=length_text(longest_mm))
    run = _RUN.format(low=rounded_text(reach[0]), high=power_text(reach[1]))
    # A name is cut before a figure, so that where there is little room the figures take its place.
    is_short = brief and is_owned and not by_powers
    return RungWords(
        power=ZOOM if is_short else run,
        eyepiece=_behind(run, barlows) if is_short else " + ".join((eyepiece.name, *barlows)),
        eyepiece_briefly=_behind(run, factors) if is_short else " + ".join((lengths, *factors)),
        exit_pupil="",
        field="",
        drift="",
        remark="" if is_owned else NEW if brief else NOT_OWNED,
        is_owned=is_owned,
    )


def _behind(run: str, barlows: Sequence[str]) -> str:
    """Return the powers that a zoom covers with what stands before it, which is counted in them."""
    return _RUN_BEHIND.format(run=run, barlows=" + ".join(barlows)) if barlows else run


def _eyepiece_words(combination: Combination) -> str:
    """Return the owner's names, and the measured factor of a Barlow that is counted with it."""
    barlows = (_barlow_words(barlow, barlow.name) for barlow in combination.barlows)
    return " + ".join((evolve(combination, barlows=()).label, *barlows))


def _eyepiece_briefly(combination: Combination) -> str:
    """Return the same by figures alone."""
    barlows = (_barlow_words(barlow, factor_label(barlow)) for barlow in combination.barlows)
    return " + ".join((evolve(combination, barlows=()).brief_label, *barlows))


def _barlow_words(barlow: Barlow, name: str) -> str:
    if barlow.measured_factor is None:
        return name
    return _MEASURED.format(barlow=name, factor=factor_figure(barlow.measured_factor))


def part_text(rung: Rung, ladder: Ladder) -> str:
    """Return what part a rung plays tonight, empty for one of the many between."""
    return _remark(rung, ladder, NOWHERE)


def part_sentence(rung: Rung, ladder: Ladder) -> str:
    """Return what part a rung plays tonight as a sentence, empty for one of the many between."""
    parts = _parts(rung, ladder)
    if _Part.TOP in parts and rung.power == ladder.start:
        return _START_AND_TOP
    return _PARTS[_chief(parts)].sentence if parts else ""


def _parts(rung: Rung, ladder: Ladder) -> tuple[_Part, ...]:
    """Return the parts that a rung plays tonight, in the order in which they are told."""
    parts = []
    if rung.power == ladder.start:
        parts.append(_Part.START)
    elif rung.standing is Standing.BELOW:
        parts.append(_Part.FINDING)
    if rung.power == ladder.climb_to:
        parts.append(_Part.TOP)
    if rung.standing is Standing.ABOVE:
        parts.append(_Part.ABOVE)
    elif rung.standing is Standing.TRY:
        is_assumed = ladder.blur.source is BlurSource.ASSUMED
        parts.append(_Part.TRY_IN_ASSUMED_AIR if is_assumed else _Part.TRY)
    return tuple(parts)


def _chief(parts: Sequence[_Part]) -> _Part:
    """Return the part that is told where there is room for only one."""
    return _Part.TOP if _Part.TOP in parts else parts[0]


def _remark(rung: Rung, ladder: Ladder, standpoint: Standpoint) -> str:
    is_here = rung is standpoint.rung and standpoint.is_taken
    # Whoever stands there has begun.
    parts = [part for part in _parts(rung, ladder) if not (is_here and part is _Part.START)]
    words = [_PARTS[part].full for part in parts]
    if is_here:
        words.insert(0, _HERE)
    elif rung is standpoint.following:
        words.insert(0, _BACK if _is_back(rung, standpoint) else _NEXT)
    return ", ".join(words)


def _brief_remark(rung: Rung, ladder: Ladder, standpoint: Standpoint) -> str:
    """Return a remark of one short word."""
    if rung is standpoint.rung and standpoint.is_taken:
        return _HERE_BRIEFLY
    if rung is standpoint.following:
        return _BACK_BRIEFLY if _is_back(rung, standpoint) else _NEXT
    parts = _parts(rung, ladder)
    return _PARTS[_chief(parts)].brief if parts else ""


def _is_back(rung: Rung, standpoint: Standpoint) -> bool:
    return standpoint.rung is not None and rung.power < standpoint.rung.power
