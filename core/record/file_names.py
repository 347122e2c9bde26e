"""What files may be called: after a person, after what they show, after the place of another file."""

import hashlib
import os
import re
import unicodedata
from pathlib import Path

_LETTERS = 60
_REFUSED = re.compile(r'[\\/:*?"<>|\x00-\x1f]+')
# A system that has these for its devices takes no file of the same name, whatever its ending.
_DEVICES = {
    "con",
    "prn",
    "aux",
    "nul",
    *(f"{port}{number}" for port in ("com", "lpt") for number in "0123456789"),
}
_UNNAMED = "profile"


def profile_stem(observer: str) -> str:
    """Return the observer's name as the stem of a file: in its own script, small, words joined by ``_``.

    What is neither letter, accent nor digit falls away, since other systems refuse some of it; where nothing
    is left it is ``profile``.
    """
    plain = unicodedata.normalize("NFC", observer).lower()
    kept = (sign if unicodedata.category(sign)[0] in "LMN" else " " for sign in plain)
    stem = "_".join("".join(kept).split())[:_LETTERS].rstrip("_")
    if stem in _DEVICES:
        return f"{stem}_{_UNNAMED}"
    return stem or _UNNAMED


def name_for_file(words: str) -> str:
    """Return words as the name of a file, without what some file system does not take in one."""
    return " ".join(_REFUSED.sub(" ", words).split())


def mark_of_place(path: Path) -> str:
    """Return 32 letters and digits that stand for where a file lies, whatever signs its path has."""
    return hashlib.sha256(os.fsencode(path.absolute())).hexdigest()[:32]
