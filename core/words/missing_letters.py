"""What to say of letters that no font of this system has, and what to install for them.

Packages are those of Debian and Ubuntu.
"""

import unicodedata
from collections.abc import Iterable, Sequence
from typing import Final

from core.words.names import listed

_EAST_ASIAN: Final = "fonts-noto-cjk"
_MOST_SCRIPTS: Final = "fonts-noto-core"
_SIGNS: Final = "fonts-noto-color-emoji"
# By the first word of a letter's name in Unicode: what people call the script, and a package that has it.
_SCRIPTS: Final = {
    "CJK": ("Chinese characters", _EAST_ASIAN),
    "HIRAGANA": ("Japanese", _EAST_ASIAN),
    "KATAKANA": ("Japanese", _EAST_ASIAN),
    "HANGUL": ("Korean", _EAST_ASIAN),
    "BOPOMOFO": ("Chinese", _EAST_ASIAN),
}
LETTER_PACKAGES: Final = (_EAST_ASIAN, _MOST_SCRIPTS, _SIGNS)
_PICTURES: Final = ("small pictures", _SIGNS)
# What has no name in Unicode, or in an older one than the letter.
_OTHERS: Final = ("other signs", _MOST_SCRIPTS)
_MISSING: Final = (
    "No font here has letters for {scripts}, so boxes stand in their place ({sample}). "
    "On Debian or Ubuntu the package {package} brings one; elsewhere any font for {scripts} does."
)
_MISSING_SEVERAL: Final = (
    "No font here has letters for {scripts}, so boxes stand in their place ({sample}). "
    "On Debian or Ubuntu the packages {package} bring them; elsewhere any fonts for {scripts} do."
)
_SHOWN_LETTERS: Final = 6


def packages_for(letters: Iterable[str]) -> tuple[str, ...]:
    """Return the packages that have some letters, each once."""
    return tuple(dict.fromkeys(_script(letter)[1] for letter in letters))


def missing_letters_text(letters: Sequence[str]) -> str:
    """Return one message about letters that no font here shows."""
    packages = packages_for(letters)
    template = _MISSING if len(packages) == 1 else _MISSING_SEVERAL
    return template.format(
        scripts=listed(tuple(dict.fromkeys(_script(letter)[0] for letter in letters))),
        sample="".join(letters[:_SHOWN_LETTERS]),
        package=listed(packages),
    )


def _script(letter: str) -> tuple[str, str]:
    if unicodedata.category(letter) == "So":
        return _PICTURES
    name = unicodedata.name(letter, "")
    if not name:
        return _OTHERS
    word = name.split()[0]
    return _SCRIPTS.get(word, (word.capitalize(), _MOST_SCRIPTS))
