"""The order of an evening's targets against trying every order and every cut."""

from itertools import combinations, pairwise, permutations, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from core.moments.order import Block, Target, order_targets

Floats = NDArray[np.float64]
MINUTE = 60.0


def target(
    key: str,
    *windows: tuple[float, float],
    sinks: float | None = None,
    peak: float | None = None,
    enough: float = 90.0,
) -> Target[str]:
    """A target with windows in minutes, worth most at its peak, and enough after some minutes."""

    def worth(unix_s: Floats) -> Floats:
        return np.zeros_like(unix_s) if peak is None else np.exp(-(((unix_s / MINUTE - peak) / 40.0) ** 2))

    return Target(
        key=key,
        windows_s=tuple((low * MINUTE, high * MINUTE) for low, high in windows),
        sinks_s=(max(high for _, high in windows) if sinks is None else sinks) * MINUTE,
        worth=worth,
        enough_s=enough * MINUTE,
    )


def order(targets: list[Target[str]], end: float = 240) -> tuple[Block[str], ...]:
    return order_targets(targets, start_s=0.0, end_s=end * MINUTE)


def test_what_sinks_first_comes_first() -> None:
    found = order([target("late", (0, 240), peak=60), target("early", (0, 60), peak=60)])

    assert [block.key for block in found] == ["early", "late"]
    assert found[0].end_s <= 60 * MINUTE


def test_each_comes_at_its_own_best_whatever_sinks_first_beyond_the_hours() -> None:
    """Jupiter at its best in the last of the hours gave way to Mars, which rose a little later."""
    found = order([target("b", (0, 240), sinks=700, peak=30), target("a", (0, 240), sinks=500, peak=200)])

    assert [block.key for block in found] == ["b", "a"]


def test_where_any_order_is_worth_the_same_it_is_that_of_sinking() -> None:
    found = order([target(key, (0, 240), sinks=sinks) for key, sinks in (("c", 300), ("a", 250), ("b", 270))])

    assert [block.key for block in found] == ["a", "b", "c"]


def test_neighbours_change_places_where_that_is_worth_more() -> None:
    """A faint one that opens late and sinks a little earlier does not keep a good one waiting."""
    good = target("good", (0, 110), peak=10)
    faint = target("faint", (60, 100))

    assert [block.key for block in order([good, faint])] == ["good", "faint"]


def test_what_rises_late_waits_though_it_sinks_first() -> None:
    found = order([target("all night", (0, 100), sinks=500), target("short", (85, 100), sinks=100)], end=100)

    assert [block.key for block in found] == ["all night", "short"]


def test_each_has_a_quarter_of_an_hour_in_its_window_even_when_worth_nothing() -> None:
    found = order([target("good", (0, 240), peak=100), target("faint", (0, 240), sinks=900)])

    assert {block.key for block in found} == {"good", "faint"}


def test_less_than_a_quarter_of_an_hour_is_no_target() -> None:
    assert order([target("short", (3, 17))]) == ()
    assert order([], end=240) == ()
    assert order([target("any", (0, 240))], end=10) == ()


def test_a_block_never_reaches_over_a_gap_between_windows() -> None:
    (block,) = order([target("behind the roof for a while", (0, 60), (80, 240), peak=70)])

    assert block.end_s <= 60 * MINUTE or block.start_s >= 80 * MINUTE


@st.composite
def target_lists(draw: st.DrawFn) -> list[Target[str]]:
    found = []
    for number in range(draw(st.integers(1, 4))):
        start = 5 * draw(st.integers(0, 15))
        length = 5 * draw(st.integers(2, 12))
        peak = draw(st.none() | st.floats(0, 90))
        sinks = start + length + draw(st.sampled_from([0, 0, 100]))
        enough = draw(st.sampled_from([15.0, 30.0, 90.0]))
        found.append(target(str(number), (start, start + length), sinks=sinks, peak=peak, enough=enough))
    return found


def served_at_most(targets: list[Target[str]], end: float) -> int:
    """Try every order of every choice, each block as early as it can be."""
    best = 0
    for size in range(1, len(targets) + 1):
        for choice in permutations(targets, size):
            clock = 0.0
            for each in choice:
                (low_s, high_s) = each.windows_s[0]
                clock = max(clock, low_s) + 15 * MINUTE
                if clock > min(high_s, end * MINUTE):
                    break
            else:
                best = size
    return best


@settings(deadline=None, max_examples=60)
@given(target_lists())
def test_as_many_as_any_order_serves_and_no_overlap(targets: list[Target[str]]) -> None:
    found = order(targets, end=90)
    by_key = {each.key: each for each in targets}

    assert len(found) == served_at_most(targets, 90)
    assert all(before.end_s <= after.start_s for before, after in pairwise(found))
    for block in found:
        assert block.end_s - block.start_s >= 15 * MINUTE
        assert any(low <= block.start_s and block.end_s <= high for low, high in by_key[block.key].windows_s)


def best_run(looks: Floats, length: int) -> float:
    """Return the most that so many looks one after the other are worth, all of them where there are fewer."""
    return max(
        (float(looks[begin : begin + length].sum()) for begin in range(max(len(looks) - length, 0) + 1)),
        default=0.0,
    )


def value(targets: list[Target[str]], spans: tuple[tuple[int, int], ...]) -> float:
    total = 0.0
    for each, (begin, end) in zip(targets, spans, strict=True):
        middles = np.asarray(300.0 * (np.arange(begin, end) + 0.5), dtype=np.float64)
        looks = each.worth(middles)
        enough = round(each.enough_s / 300.0)
        # The best run counts in thirds: its best third three times, the next twice, the last once.
        best = [best_run(looks, enough * third // 3) for third in (1, 2, 3)]
        # The rest counts for a twentieth, and time in itself a little.
        total += sum(best) / 3.0 + 0.05 * (looks.sum() - best[-1]) + 0.03 * len(looks)
    return total


def best_cut(chosen: list[Target[str]]) -> float:
    """Return what the best cut of the first hour and a half is worth for some targets in their order."""
    allowed = [
        [
            (begin, end)
            for begin, end in combinations(range(19), 2)
            if end - begin >= 3
            and each.windows_s[0][0] <= 300.0 * begin
            and 300.0 * end <= each.windows_s[0][1]
        ]
        for each in chosen
    ]
    cuts = [cut for cut in product(*allowed) if all(one[1] <= two[0] for one, two in pairwise(cut))]
    return max((value(chosen, cut) for cut in cuts), default=-np.inf)


@settings(deadline=None, max_examples=60)
@given(target_lists())
def test_no_other_order_or_cut_is_worth_more(targets: list[Target[str]]) -> None:
    found = order(targets[:2], end=90)
    by_key = {each.key: each for each in targets}
    chosen = [by_key[block.key] for block in found]
    spans = tuple((round(block.start_s / 300), round(block.end_s / 300)) for block in found)

    best = max(best_cut(list(other)) for other in permutations(targets[:2], len(chosen)))
    assert value(chosen, spans) == pytest.approx(best)


def test_the_cut_falls_where_the_next_is_worth_more() -> None:
    first, second = order([target("a", (0, 90), peak=30), target("b", (0, 90), sinks=300, peak=80)], end=90)

    # Half way between the two peaks both are worth the same.
    assert first.end_s == second.start_s == 55 * MINUTE
    assert (first.start_s, second.end_s) == (0, 90 * MINUTE)


def test_once_it_is_enough_the_next_has_its_turn_near_its_own_best() -> None:
    first, second = order(
        [target("a", (0, 240), peak=60, enough=60), target("b", (0, 240), sinks=300, peak=130, enough=30)]
    )

    assert (first.key, second.key) == ("a", "b")
    # The best half hour of the second is whole, from 115 to 145 minutes.
    assert second.start_s <= 115 * MINUTE
    assert second.end_s >= 145 * MINUTE
