"""What a reader of figures answers: a question, or a refusal."""

from collections.abc import Callable

import pytest

from core.gear.numbers import DoubtfulFigureError, FigureError


def doubt(parse: Callable[[str], object], text: str) -> list[tuple[str, float]]:
    """Return the candidates of a doubtful figure as text and value."""
    with pytest.raises(DoubtfulFigureError) as caught:
        parse(text)
    assert caught.value.question.endswith(("?", "."))
    assert str(caught.value) == caught.value.question
    return [(candidate.text, candidate.value) for candidate in caught.value.candidates]


def refusal(parse: Callable[[str], object], text: str) -> str:
    """Return the sentence of a refused figure that is no question."""
    with pytest.raises(FigureError) as caught:
        parse(text)
    assert not isinstance(caught.value, DoubtfulFigureError)
    return str(caught.value)
