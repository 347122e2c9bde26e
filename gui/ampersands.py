"""The sign & in what Qt takes for a label, where a lone one would underline the letter after it."""


def with_ampersands(text: str) -> str:
    """Return a text whose & signs are shown in a menu, on a button or on a tab.

    >>> with_ampersands("Moon & Venus")
    'Moon && Venus'
    """
    return text.replace("&", "&&")
