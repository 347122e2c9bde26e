"""What the commands of the terminal say of a line that they refuse, and the lists of their help."""

from collections.abc import Iterable
from typing import Final

NO_COMMAND: Final = "there is no command {word}; did you mean {meant}?"
_NOT_UNDERSTOOD: Final = "cannot make sense of {words}; the commands are {commands}"
_OUTPUT_TROUBLE: Final = "{place}: cannot be written or read: {error}"
_THE_OUTPUT: Final = "the output"
COMPLAINT: Final = "{program}: {sentence}"
VERSION: Final = "{program} {version}"
COMMAND: Final = "{program} {command}"
DOES: Final = "{verb} {summary}."
_COMMANDS: Final = "commands:\n{commands}\n\n{program} COMMAND --help shows the options of each."
_IN_LIST: Final = "  {command:8}  {summary}"
SEE_HELP: Final = "{problem} (see {program} --help)"

MUST_BE_RANGE: Final = "must be two figures such as 0-30, from 0 to 100 percent, not “{typed}”"
MUST_BE_LOWER_FIRST: Final = "must be the lower figure first, such as 0-30, not “{typed}”"
MUST_BE_DATE: Final = "must be a date such as 2026-12-05, not “{typed}”"
MUST_BE_SIZE: Final = "must be a size such as 1000x640, from 640x400 to 7680x4320, not “{typed}”"
MUST_BE_IN_EVENING: Final = "must lie in the evening of {day}, from noon to noon at {zone}"
NOT_ASKED_FOR: Final = "{planet} is not among the planets asked for"
GOES_WITH_PLANET: Final = "goes with --planet: without one a time means nothing"
GOES_WITHOUT_PLANET: Final = "goes without --planet: a planet has a height of its own"
GOES_WITH_MARS: Final = "goes with --planet mars"
NEEDS_A_SITE: Final = "needs a site, and the profile has none yet"
WHOLE_FILE_IS_READ: Final = "takes neither --since nor --search: the whole file is read"
IS_THERE: Final = "{file} is there already; --replace writes over it"
NO_FOLDER: Final = "{file} already exists and is not a folder"
CANNOT_BE_MADE: Final = "cannot be made: {error}"


def not_understood_words(words: Iterable[str], commands: Iterable[str]) -> str:
    """Return the refusal of words that mean nothing here, with the commands that there are."""
    return _NOT_UNDERSTOOD.format(words=" ".join(words), commands=", ".join(commands))


def output_trouble_words(place: str | None, error: str) -> str:
    """Return why a file, or the output without a name, cannot be written or read."""
    return _OUTPUT_TROUBLE.format(place=place or _THE_OUTPUT, error=error)


def commands_words(program: str, commands: Iterable[tuple[str, str]]) -> str:
    """Return the commands, each by its word and what it is about, a line each."""
    lines = (_IN_LIST.format(command=command, summary=summary) for command, summary in commands)
    return _COMMANDS.format(program=program, commands="\n".join(lines))
