"""Keys as the keyboard at hand has them written on."""

import re
import sys

# Qt means the Command key of a Mac where it says Ctrl, and Option where it says Alt.
_ON_A_MAC = {"Ctrl": "Cmd", "Alt": "Option", "F11": "Ctrl+Cmd+F"}
_WORDS = re.compile(r"\b(?:Ctrl|Alt|F11)\b")


def with_own_keys(text: str, platform: str = sys.platform) -> str:
    """Return a text that names keys as Qt does, with the names of the system it runs on."""
    if platform != "darwin":
        return text
    return _WORDS.sub(lambda found: _ON_A_MAC[found.group()], text)
