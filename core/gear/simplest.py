"""Which of several combinations of nearly the same power is the one to name."""

from collections.abc import Iterable

from core.gear.combinations import Combination


def simplest_first(combinations: Iterable[Combination]) -> tuple[Combination, ...]:
    """Return the simplest to handle first: fewest Barlows, then the weakest, then the widest field (ours).

    An unknown field comes last, and among equals the lower power first.
    """
    return tuple(sorted(combinations, key=_effort))


def _effort(combination: Combination) -> tuple[int, float, float, float]:
    # A reducer counts by how much it changes, like a Barlow.
    strongest = max(
        (max(lens.working_factor, 1.0 / lens.working_factor) for lens in combination.barlows), default=1.0
    )
    return (
        len(combination.barlows),
        strongest,
        -(combination.true_field_deg or 0.0),
        combination.power,
    )
