"""How much a text may ask of a TOML reader: told from a scan, before it is read.

A reader's work grows with the parts of each key and the number of tables, so that a small file of one kind
could hold the program up for minutes. No profile comes near these limits (ours).
"""

import re
from typing import Final

from core.problems import refuse

MOST_LINES: Final = 40_000
MOST_TABLES: Final = 20_000
MOST_VALUES: Final = 60_000
MOST_KEY_PARTS: Final = 8
LONGEST_WORD: Final = 1000

# Each alternative matches what is never closed as well, so that no text is gone through twice.
_STRING_OR_COMMENT: Final = re.compile(
    r"""
    "{3} (?: [^"\\]++ | \\ (?: . | \Z ) | "{1,2}+ (?!") )*+ (?: "{3,5} | \Z )
    | '{3} (?: [^']++ | '{1,2}+ (?!') )*+ (?: '{3,5} | \Z )
    | " (?: [^"\\\n]++ | \\ (?: [^\n] | (?=\n) | \Z ) )*+ (?: " | (?=\n) | \Z )
    | ' [^'\n]*+ '?
    | \# [^\n]*+
    """,
    re.DOTALL | re.VERBOSE,
)
_LONG_KEY: Final = re.compile(rf"(?<![\w.-])(?:[\w-]++[ \t]*+\.[ \t]*+){{{MOST_KEY_PARTS}}}")
_LONG_WORD: Final = re.compile(rf"(?<![\w.:+-])[\w.:+-]{{{LONGEST_WORD + 1}}}")


def check_toml(text: str, *, where: str = "") -> None:
    """Refuse a text that is more work to read than any profile is, in one sentence; ``where`` is its file."""
    if text.count("\n") > MOST_LINES:
        raise refuse(f"has more lines than the {MOST_LINES:,} that are allowed", where=where)
    bare = _STRING_OR_COMMENT.sub("s", text)
    if bare.count("[") + bare.count("{") > MOST_TABLES:
        raise refuse(f"has more tables and lists than the {MOST_TABLES:,} that are allowed", where=where)
    if bare.count("=") > MOST_VALUES or bare.count(",") > MOST_VALUES:
        raise refuse(f"has more values than the {MOST_VALUES:,} that are allowed", where=where)
    if _LONG_KEY.search(bare):
        raise refuse(f"has a key of more than the {MOST_KEY_PARTS} parts that are allowed", where=where)
    if _LONG_WORD.search(bare):
        raise refuse(f"has a key or a number of more than {LONGEST_WORD:,} letters", where=where)
