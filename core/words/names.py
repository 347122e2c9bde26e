"""Names as they stand in a sentence: at its beginning, and several in a row."""

from collections.abc import Iterable

from core.sky.bodies import Body


def opening(body: Body) -> str:
    """Return a body's name as it opens a sentence: ``Saturn``, ``The Moon``."""
    return body.label[0].upper() + body.label[1:]


def listed(words: Iterable[str]) -> str:
    """Join words as in a sentence: ``a, b and c``."""
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last
