"""The ``stillair`` command: the window, or one of the commands of the terminal."""

import gc
import sys
from argparse import RawDescriptionHelpFormatter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from difflib import get_close_matches
from importlib import import_module
from pathlib import Path

from core.plain_text import printable
from core.problems import ProblemsError, refuse
from core.words.commands import (
    COMMAND,
    COMPLAINT,
    DOES,
    NO_COMMAND,
    commands_words,
    not_understood_words,
    output_trouble_words,
)
from core.words.errors import NOT_STARTED
from gui.commands import COMMANDS
from gui.commands.parsing import Parser
from gui.display import NoWindowError, check_window
from gui.terminal import (
    fitted_to_terminal,
    give_up_output,
    reader_has_gone,
    terminal_width,
    write,
    write_error,
)
from gui.versions import PROGRAM, versions_text

FAILED, BAD_INPUT, INTERRUPTED = 1, 2, 130

DESKTOP_DEEDS = {
    "--install-desktop": "add Stillair to the menu of this system, and let it open profiles",
    "--remove-desktop": "remove it again",
}

# What the window uses of the core, and of libraries with it: PySide6 reads the source text of every module
# that is loaded after it.
_BEFORE_QT = (
    "core.situation.situation",
    "core.drawing.height",
    "core.record.profile",
    "core.record.log",
    "core.words.answer",
    "core.words.evening",
    "core.words.notices_due",
    "core.words.help_pages",
    "core.words.looks",
    "concurrent.futures.thread",
    "platformdirs",
)

Tell = Callable[[str], object]


def main(argv: Sequence[str] | None = None) -> int:
    """Run the window or a command and return the exit code: 1 no window or no output, 2 bad input."""
    with fitted_to_terminal():
        return _outcome(argv, _complain)


def window_main(argv: Sequence[str] | None = None) -> int:
    """Do as ``main`` does, for a start without a terminal: a box tells what goes wrong."""
    from gui.message_box import show_message

    try:
        return _outcome(argv, show_message)
    except Exception as error:
        told = " ".join(str(error).split()) or type(error).__name__
        show_message(NOT_STARTED.format(error=told))
        raise


def _outcome(argv: Sequence[str] | None, tell: Tell) -> int:
    try:
        return _run(list(sys.argv[1:] if argv is None else argv))
    except ProblemsError as error:
        tell("\n".join(map(str, error.problems)))
        return BAD_INPUT
    except NoWindowError as error:
        tell(str(error))
        return FAILED
    except OSError as error:
        give_up_output()
        if not reader_has_gone(error):
            place = None if error.filename is None else str(error.filename)
            tell(output_trouble_words(place, error.strerror or str(error)))
        return FAILED
    except KeyboardInterrupt:
        return INTERRUPTED


def _run(words: Sequence[str]) -> int:
    try:
        if words and words[0] in COMMANDS:
            write(_told_by(words[0], words[1:]))
            return 0
        return _show_window(words)
    except SystemExit as finished:
        # argparse has shown its help or the version.
        return finished.code if isinstance(finished.code, int) else 0


def _told_by(name: str, words: Sequence[str]) -> str:
    command = COMMANDS[name]
    with _loading():
        module = command.load()
    parser = Parser(
        prog=COMMAND.format(program=PROGRAM, command=name),
        description=DOES.format(verb=command.verb, summary=command.summary),
    )
    module.add_arguments(parser)
    return module.run(parser.parse_args(words), datetime.now(UTC))


@contextmanager
def _loading() -> Iterator[None]:
    """Load modules without looking for rubbish among them, then or later: all of it stays, and is much."""
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()


def _show_window(words: Sequence[str]) -> int:
    parser = Parser(
        prog=PROGRAM,
        description="Plan and keep the sharpest view of a planet that your telescope and the air allow.",
        epilog=commands_words(PROGRAM, ((command.name, command.summary) for command in COMMANDS.values())),
    )
    parser.formatter_class = RawDescriptionHelpFormatter
    parser.add_argument(
        "profile", metavar="PROFILE", type=Path, nargs="?", help="the profile to open; the last when left out"
    )
    for name, summary in DESKTOP_DEEDS.items():
        parser.add_argument(name, action="store_true", help=summary)
    parser.add_argument(
        "--version", action="store_true", help="show versions, licences and whose data it uses"
    )
    args, others = parser.parse_known_args(words)
    if others:
        raise _not_understood(words[0], others)
    if args.version:
        write(versions_text(terminal_width()))
        return 0
    if args.install_desktop or args.remove_desktop:
        from gui.desktop import install_desktop, remove_desktop

        write(install_desktop() if args.install_desktop else remove_desktop())
        return 0
    check_window()
    return load_window()(args.profile)


def load_window() -> Callable[[Path | None], int]:
    """Load all that the window needs and return what shows it until it is closed."""
    with _loading():
        from core.sky.ephemeris import load_library

        load_library()
        for name in _BEFORE_QT:
            import_module(name)
        from gui.window.start import run_window
    return run_window


def _not_understood(first: str, others: Sequence[str]) -> ProblemsError:
    """Return the refusal of a line that is neither a command nor a lone profile."""
    meant = get_close_matches(first, COMMANDS, n=1)
    if meant:
        return refuse(NO_COMMAND.format(word=printable(first), meant=meant[0]))
    return refuse(not_understood_words(map(printable, others), COMMANDS))


def _complain(sentences: str) -> None:
    for sentence in sentences.splitlines():
        write_error(COMPLAINT.format(program=PROGRAM, sentence=printable(sentence)))


if __name__ == "__main__":
    sys.exit(main())
