"""The terminal: how wide it is, which signs it can write, and what happens when it takes no more."""

import codecs
import errno
import io
import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import TextIO

from core.plain_text import LEAST_WIDTH, WIDTH, writable, written_in

BYTE_ORDER_MARK = "\ufeff"
_LACKING_SIGNS = "stillair-plainer"


def terminal_width() -> int:
    """Return the columns to write in: the terminal's, at least 40, and 80 where there is none."""
    return max(shutil.get_terminal_size((WIDTH, 24)).columns, LEAST_WIDTH)


@contextmanager
def fitted_to_terminal() -> Iterator[None]:
    """Lay out and write every text in the code page of standard output, inside a ``with`` block."""
    codecs.register_error(_LACKING_SIGNS, _replaced)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=_LACKING_SIGNS)
    with written_in(_encoding(sys.stdout)):
        yield


def write(text: str) -> None:
    """Print a text; OSError where the output takes no more."""
    stream: TextIO | None = sys.stdout
    if stream is None:  # a window's program on Windows has no terminal
        return
    if text.startswith(BYTE_ORDER_MARK) and isinstance(stream, io.TextIOWrapper):
        # For a spreadsheet, which is told so; a replaced sign might be a quotation mark.
        stream.buffer.write(f"{text}\r\n".encode())
        stream.flush()
        return
    print(writable(text), file=stream, flush=True)


def write_error(line: str) -> None:
    """Print a line on standard error, where there is one."""
    stream: TextIO | None = sys.stderr
    if stream is not None:
        with suppress(OSError):
            print(line, file=stream, flush=True)


def reader_has_gone(error: OSError) -> bool:
    """Tell whether an error means that whoever read the output has gone, as `head` does."""
    # Windows tells of a closed pipe as of an invalid argument.
    return isinstance(error, BrokenPipeError) or (sys.platform == "win32" and error.errno == errno.EINVAL)


def give_up_output() -> None:
    """Let what is still buffered go nowhere, so that it raises nothing at exit."""
    stream: TextIO | None = sys.stdout
    with suppress(OSError, ValueError):
        if stream is not None:
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _encoding(stream: TextIO | None) -> str:
    return (stream.encoding if stream is not None else None) or "utf-8"


def _replaced(error: UnicodeError) -> tuple[str | bytes, int]:
    """Return what stands for signs that a stream cannot write, for `codecs`."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    with written_in(error.encoding):
        return writable(error.object[error.start : error.end]), error.end
