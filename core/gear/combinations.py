"""Every way in which the owner's eyepieces, Barlows and reducers fit a telescope.

None or one Barlow; two only where the owner allows it, and then marked approximate; a reducer never with a
Barlow; nothing at all on an instrument whose power is built in (common practice, no source).
"""

import math
from collections.abc import Iterator, Sequence
from itertools import chain as joined
from itertools import combinations as subsets
from itertools import islice, pairwise

from attrs import frozen

from core.gear.aperture import working_aperture_mm
from core.gear.fields import shown_field
from core.gear.optics import exit_pupil_mm, power
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind

# A zoom is shown at both ends and at equal logarithmic steps of at most this ratio between.
WIDEST_ZOOM_STEP = 1.25
# Nobody's case holds as many; more of either would only keep the window waiting (ours).
MOST_COMBINATIONS = 3000
MOST_CHAINS = 500


@frozen(kw_only=True)
class Combination:
    """One eyepiece at one focal length with its Barlows, or one power of a fixed-power instrument.

    ``barlows`` runs from the focuser to the eyepiece, a reducer counts as one. ``true_field_deg`` and
    ``apparent_field_deg`` are None where the owner's figures do not tell; ``is_field_cut`` says that the
    barrel shows less than they ask for. ``approximate`` marks a power that hangs on the spacing of two
    Barlows.
    """

    eyepiece: Eyepiece | None
    eyepiece_focal_length_mm: float | None
    barlows: tuple[Barlow, ...] = ()
    power: float
    exit_pupil_mm: float
    true_field_deg: float | None
    apparent_field_deg: float | None = None
    is_field_cut: bool = False
    approximate: bool = False

    @property
    def label(self) -> str:
        """The owner's names as they stand in the focuser: ``10 mm + 2x``, or ``10 mm of 8-24 zoom``."""
        if self.eyepiece is None:
            return "its own eyepiece"
        name = self.eyepiece.name
        if self.eyepiece.is_zoom:
            assert self.eyepiece_focal_length_mm is not None  # a zoom is always set to one
            # What is cut off in a narrow column is the name.
            name = f"{self.setting} of {name}"
        return " + ".join([name, *(barlow.name for barlow in self.barlows)])

    @property
    def setting(self) -> str:
        """The focal length of the eyepiece: ``10 mm``, or ``about 12 mm`` of a zoom between its two ends.

        Nobody sets a ring by eye finer than that. Empty for a built-in power.
        """
        eyepiece, length_mm = self.eyepiece, self.eyepiece_focal_length_mm
        if eyepiece is None or length_mm is None:
            return ""
        if eyepiece.is_zoom and length_mm not in (eyepiece.focal_length_min_mm, eyepiece.focal_length_max_mm):
            return f"about {length_mm:.2g} mm"
        return f"{length_mm:g} mm"

    @property
    def brief_label(self) -> str:
        """The same by figures alone, where there is little room: ``10 mm + 2x``, ``about 12 mm + 0.63x``."""
        if self.eyepiece is None:
            return self.label
        return " + ".join([self.setting, *map(factor_label, self.barlows)])

    @property
    def has_reducer(self) -> bool:
        """Whether a reducer is in it."""
        return any(barlow.is_reducer for barlow in self.barlows)


def factor_label(barlow: Barlow) -> str:
    """Return a Barlow or reducer by its marked factor: ``2x``."""
    return f"{barlow.factor:g}x"


def combinations(
    scope: Telescope, eyepieces: Sequence[Eyepiece], barlows: Sequence[Barlow]
) -> tuple[Combination, ...]:
    """Return everything that fits, lowest power first.

    Of more than ``MOST_COMBINATIONS`` those with the fewest Barlows stay, in the order of the owner's list.
    """
    if scope.kind is TelescopeKind.FIXED:
        return tuple(_built_in(scope))
    fitting = [eyepiece for eyepiece in eyepieces if fits(scope, eyepiece)]
    found = (
        _combine(scope, eyepiece, focal_length_mm, chain)
        for chain in barlow_chains(scope, barlows)
        for eyepiece in fitting
        if fits(scope, eyepiece, chain)
        for focal_length_mm in eyepiece_focal_lengths_mm(eyepiece)
    )
    bounded = islice(found, MOST_COMBINATIONS)
    return tuple(sorted(bounded, key=lambda combination: combination.power))


def highest_holding(kit: Sequence[Combination], across_deg: float) -> Combination | None:
    """Return the highest power of a kit, lowest first, whose true field holds an angle; None without one."""
    return next(
        (
            each
            for each in reversed(kit)
            if each.true_field_deg is not None and each.true_field_deg >= across_deg
        ),
        None,
    )


def chain_factor(chain: Sequence[Barlow]) -> float:
    """Return by what Barlows and reducers together multiply the focal length, 1 without any."""
    return math.prod(barlow.working_factor for barlow in chain)


def barlow_chains(scope: Telescope, barlows: Sequence[Barlow]) -> list[tuple[Barlow, ...]]:
    """Return what may stand between focuser and eyepiece: nothing, one, or two where the owner allows it.

    Of more than ``MOST_CHAINS`` the first ones are taken.
    """
    usable = [barlow for barlow in barlows if barlow.barrel_mm <= scope.barrel_mm]
    lenses = [barlow for barlow in usable if scope.stack_barlows and not barlow.is_reducer]
    singles: Iterator[tuple[Barlow, ...]] = ((barlow,) for barlow in usable)
    # The wider barrel must stand next to the focuser for the other to fit into it.
    pairs = (tuple(sorted(pair, key=lambda lens: -lens.barrel_mm)) for pair in subsets(lenses, 2))
    return list(islice(joined([()], singles, pairs), MOST_CHAINS))


def fits(scope: Telescope, eyepiece: Eyepiece, chain: Sequence[Barlow] = ()) -> bool:
    """Tell whether each barrel goes into its own width or a wider one, from the focuser to the eyepiece."""
    widths = [scope.barrel_mm, *(barlow.barrel_mm for barlow in chain), eyepiece.barrel_mm]
    return all(outer >= inner for outer, inner in pairwise(widths))


def misfits(
    scope: Telescope, eyepieces: Sequence[Eyepiece], barlows: Sequence[Barlow]
) -> tuple[Eyepiece | Barlow, ...]:
    """Return the things whose barrel is too wide for the focuser; none for a fixed-power instrument."""
    if scope.kind is TelescopeKind.FIXED:
        return ()
    things: list[Eyepiece | Barlow] = [*eyepieces, *barlows]
    return tuple(thing for thing in things if thing.barrel_mm > scope.barrel_mm)


def equal_steps(low: float, high: float) -> tuple[float, ...]:
    """Return both ends and the fewest equal logarithmic steps between them of at most 1.25x.

    >>> [round(step, 1) for step in equal_steps(8.0, 24.0)]
    [8.0, 10.0, 12.4, 15.5, 19.3, 24.0]
    """
    count = max(1, math.ceil(math.log(high / low) / math.log(WIDEST_ZOOM_STEP) - 1e-9))
    between = (low * (high / low) ** (step / count) for step in range(1, count))
    return (low, *between, high)


def eyepiece_focal_lengths_mm(eyepiece: Eyepiece) -> tuple[float, ...]:
    """Return the focal length in mm, or those at which a zoom is shown."""
    if eyepiece.focal_length_mm is not None:
        return (eyepiece.focal_length_mm,)
    assert eyepiece.focal_length_min_mm is not None
    assert eyepiece.focal_length_max_mm is not None
    return equal_steps(eyepiece.focal_length_min_mm, eyepiece.focal_length_max_mm)


def apparent_field_deg(eyepiece: Eyepiece, focal_length_mm: float) -> float | None:
    """Return the apparent field in degrees, for a zoom in proportion between the figures of its two ends.

    A zoom with only one known end is known at that end alone.
    """
    if not eyepiece.is_zoom:
        return eyepiece.apparent_field_deg
    low_mm, high_mm = eyepiece.focal_length_min_mm, eyepiece.focal_length_max_mm
    at_low, at_high = eyepiece.apparent_field_at_min_deg, eyepiece.apparent_field_at_max_deg
    assert low_mm is not None
    assert high_mm is not None
    if focal_length_mm == low_mm:
        return at_low
    if focal_length_mm == high_mm:
        return at_high
    if at_low is None or at_high is None:
        return None
    share = (focal_length_mm - low_mm) / (high_mm - low_mm)
    return at_low + share * (at_high - at_low)


def _combine(
    scope: Telescope, eyepiece: Eyepiece, focal_length_mm: float, chain: tuple[Barlow, ...]
) -> Combination:
    assert scope.focal_length_mm is not None
    factor = chain_factor(chain)
    combined_power = power(scope.focal_length_mm, focal_length_mm, factor)
    shown = shown_field(
        eyepiece,
        eyepiece_focal_length_mm=focal_length_mm,
        apparent_field_deg=apparent_field_deg(eyepiece, focal_length_mm),
        focal_length_mm=scope.focal_length_mm * factor,
    )
    return Combination(
        eyepiece=eyepiece,
        eyepiece_focal_length_mm=focal_length_mm,
        barlows=chain,
        power=combined_power,
        exit_pupil_mm=exit_pupil_mm(working_aperture_mm(scope), combined_power),
        true_field_deg=None if shown is None else shown.true_field_deg,
        apparent_field_deg=None if shown is None else shown.apparent_field_deg,
        is_field_cut=shown is not None and shown.cut,
        approximate=len(chain) > 1,
    )


def _built_in(scope: Telescope) -> Iterator[Combination]:
    """Yield the powers of a fixed-power instrument; its stated field is that of its lowest power."""
    if scope.power is not None:
        powers: tuple[float, ...] = (scope.power,)
    else:
        assert scope.power_min is not None
        assert scope.power_max is not None
        powers = equal_steps(scope.power_min, scope.power_max)
    for position, own_power in enumerate(powers):
        yield Combination(
            eyepiece=None,
            eyepiece_focal_length_mm=None,
            power=float(own_power),
            exit_pupil_mm=exit_pupil_mm(working_aperture_mm(scope), own_power),
            true_field_deg=scope.true_field_deg if position == 0 else None,
        )
