"""Which rungs get their words first."""

from core.drawing.rung_order import by_weight
from tests.core.drawing.examples import MANY, TWELVE_INCH, ladder


def test_what_matters_is_named_first_when_room_is_short() -> None:
    large = ladder(TWELVE_INCH, MANY)
    chosen = large.rungs[9]
    first = by_weight(large, chosen)[:6]

    assert first[0] is chosen
    assert {large.start, large.climb_to} <= {rung.power for rung in first}
    assert {large.rungs[0], large.rungs[-1]} <= set(first)
    assert any(rung.standing == "above" for rung in first)


def test_every_rung_is_weighed_once() -> None:
    large = ladder(TWELVE_INCH, MANY)

    assert sorted(rung.power for rung in by_weight(large, None)) == [rung.power for rung in large.rungs]
