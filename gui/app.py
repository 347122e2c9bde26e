"""The ``stillair`` command: the window, or one of the commands of the terminal."""

import os
import sys
from argparse import RawDescriptionHelpFormatter
from collections.abc import Sequence
from datetime import UTC, datetime
from difflib import get_close_matches
from pathlib import Path
from typing import TextIO

from core.plain_text import printable
from core.problems import ProblemsError, refuse
from gui.commands import COMMANDS
from gui.commands.parsing import Parser
from gui.display import NoWindowError, check_window
from gui.versions import PROGRAM, own_version

NO_WINDOW, BAD_INPUT, INTERRUPTED = 1, 2, 130

# What to write for signs that a terminal's encoding may lack.
_PLAINER = str.maketrans(
    {"–": "-", "−": "-", "…": "...", "″": '"', "′": "'", "°": " deg", "×": "x", "’": "'", "“": '"', "”": '"'}
)


def main(argv: Sequence[str] | None = None) -> int:
    """Run the window or a command and return the exit code: 1 no window can be had, 2 bad input."""
    words = list(sys.argv[1:] if argv is None else argv)
    try:
        return _run(words)
    except ProblemsError as error:
        for problem in error.problems:
            _complain(str(problem))
        return BAD_INPUT
    except NoWindowError as error:
        _complain(str(error))
        return NO_WINDOW
    except BrokenPipeError:
        # Whoever read has gone; what is still buffered must not raise again at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except KeyboardInterrupt:
        return INTERRUPTED


def _run(words: Sequence[str]) -> int:
    try:
        if words and words[0] in COMMANDS:
            _write(_told_by(words[0], words[1:]))
            return 0
        return _show_window(words)
    except SystemExit as finished:
        # argparse has shown its help or the version.
        return finished.code if isinstance(finished.code, int) else 0


def _told_by(name: str, words: Sequence[str]) -> str:
    command = COMMANDS[name]
    module = command.load()
    parser = Parser(prog=f"{PROGRAM} {name}", description=f"Tell {command.summary}.")
    module.add_arguments(parser)
    return module.run(parser.parse_args(words), datetime.now(UTC))


def _show_window(words: Sequence[str]) -> int:
    parser = Parser(
        prog=PROGRAM,
        description="Plan and keep the sharpest view of a planet that your telescope and the air allow.",
        epilog="commands:\n"
        + "\n".join(f"  {command.name:10} {command.summary}" for command in COMMANDS.values())
        + f"\n\n{PROGRAM} COMMAND --help tells what each of them takes.",
    )
    parser.formatter_class = RawDescriptionHelpFormatter
    parser.add_argument(
        "profile", metavar="PROFILE", type=Path, nargs="?", help="the profile to open; the last when left out"
    )
    parser.add_argument("--version", action="version", version=f"{PROGRAM} {own_version()}")
    args, others = parser.parse_known_args(words)
    if others:
        raise _not_understood(words[0], others)
    check_window()
    from gui.window.start import run_window

    return run_window(args.profile)


def _not_understood(first: str, others: Sequence[str]) -> ProblemsError:
    """Return the refusal of a line that is neither a command nor a lone profile."""
    meant = get_close_matches(first, COMMANDS, n=1)
    if meant:
        return refuse(f"there is no command {printable(first)}; did you mean {meant[0]}?")
    strange = " ".join(map(printable, others))
    return refuse(f"cannot make sense of {strange}; the commands are {', '.join(COMMANDS)}")


def _write(text: str) -> None:
    """Print text in whatever encoding the terminal has."""
    stream: TextIO | None = sys.stdout
    if stream is None:  # a window's program on Windows has no terminal
        return
    encoding = stream.encoding or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        text = text.translate(_PLAINER).encode(encoding, "replace").decode(encoding)
    print(text, file=stream, flush=True)


def _complain(sentence: str) -> None:
    stream: TextIO | None = sys.stderr
    if stream is not None:
        print(f"{PROGRAM}: {printable(sentence)}", file=stream)


if __name__ == "__main__":
    sys.exit(main())
