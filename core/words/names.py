"""Names as they stand in a sentence: at its beginning, and several in a row."""

from collections.abc import Iterable

from core.sky.bodies import Body


def opening(body: Body) -> str:
    """Return a body's name as it opens a sentence: ``Saturn``, ``The Moon``."""
    return capitalised(body.label)


def listed(words: Iterable[str]) -> str:
    """Join words as in a sentence: ``a, b and c``."""
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def either(words: Iterable[str]) -> str:
    """Join words as alternatives: ``a or b``."""
    return " or ".join(words)


def capitalised(words: str) -> str:
    """Return words as they open a sentence: ``Day meets night``."""
    return words[:1].upper() + words[1:]


def uncapitalised(words: str) -> str:
    """Return a caption as its words stand inside a sentence: ``focal length``."""
    return words[:1].lower() + words[1:]


def as_sentence(text: str) -> str:
    """Return words with a capital letter first and a full stop last."""
    words = capitalised(text)
    return words if words.endswith((".", "?", "!")) else f"{words}."


def labelled(label: str, words: str) -> str:
    """Return words after what they are about: ``Six-inch reflector: 48x, 120x``."""
    return f"{label}: {words}"
