"""What the figures under the chart and the comparison rest on, and the words for what limits a power."""

import pytest

from core.air.blur import Blur
from core.air.finest_detail import LimitKind
from core.ladder.compare import compare
from core.words.body_readings import readings_note
from core.words.comparison import conditions_text
from core.words.limit_names import limit_name
from tests.core.evenings import GOOD
from tests.core.gear.examples import telescope
from tests.core.ladder.side_by_side import comparison, ladder, lens, mirror


def test_only_with_a_telescope_ceilings_are_spoken_of_and_by_its_name() -> None:
    fair = Blur(overhead_arcsec=1.45)
    bare, with_scope = readings_note(None, fair), readings_note(telescope("Six-inch"), fair)

    assert bare
    assert "Six-inch" not in bare
    assert "Six-inch" in with_scope
    assert "1.45″" in with_scope or "1.5″" in with_scope


def test_a_comparison_says_where_when_and_through_which_air() -> None:
    overhead = conditions_text(compare(ladder(mirror(150)), ladder(lens(100))), GOOD)
    low = conditions_text(comparison(mirror(150), lens(100), 3.0, 30), GOOD)

    assert "straight overhead, with a blur of 1.45″" in overhead
    assert "at 30° on the evening of 5 December 2026, with a blur of 3″" in low


@pytest.mark.parametrize("kind", list(LimitKind))
def test_air_is_called_seeing_too_only_where_that_is_asked_for(kind: LimitKind) -> None:
    plain, explained = limit_name(kind), limit_name(kind, explain_air=True)

    assert plain == limit_name(kind, explain_air=False)
    assert "seeing" not in plain
    assert ("seeing" in explained) is (plain != explained)
    if kind is LimitKind.TONIGHT_AIR:
        assert "air (seeing)" in explained
