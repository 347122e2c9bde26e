"""Files that a person would hate to lose: read with care, written whole or not at all."""

import os
import secrets
import shutil
import stat
from pathlib import Path

from core.problems import ProblemsError, refuse

LARGEST_BYTES = 1_000_000
BYTE_ORDER_MARK = "\ufeff"


def previous_copy(path: Path) -> Path:
    """Return where the text from before the last save is kept: beside the file, a tilde after its name."""
    return path.with_name(path.name + "~")


def set_aside(path: Path) -> Path:
    """Copy a file that cannot be read for what it should be, under a name not yet taken, and return that.

    Such a file is often typed by hand and wrong in one place only: nothing may be written over it before.
    """
    number = 1
    while True:
        aside = path.with_name(f"{path.name}.unreadable{number if number > 1 else ''}")
        try:
            with path.open("rb") as source, aside.open("xb") as copy:
                shutil.copyfileobj(source, copy)
        except FileExistsError:
            number += 1
        except OSError as error:
            raise refuse(f"cannot be set aside: {_reason(error)}", where=path.name) from None
        else:
            return aside


def read_text(path: Path, *, largest_bytes: int = LARGEST_BYTES) -> str:
    """Return the text of a small UTF-8 file, a byte order mark taken off.

    Anything but a regular file of at most ``largest_bytes`` is refused unread, so that neither a pipe nor a
    disk full of zeros can hold the program up. Raises ProblemsError in one sentence.
    """
    name = path.name or str(path)
    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise refuse("is a folder, not a file", where=name)
        if not stat.S_ISREG(found.st_mode):
            raise refuse("is not a regular file", where=name)
        if found.st_size > largest_bytes:
            raise refuse(
                f"is too large: {found.st_size:,} bytes, where {largest_bytes:,} are allowed", where=name
            )
        with path.open("rb") as file:
            content = file.read(largest_bytes)
    except FileNotFoundError:
        raise refuse("there is no such file", where=name) from None
    except (OSError, ValueError) as error:
        if isinstance(error, ProblemsError):
            raise
        raise refuse(f"cannot be read: {_reason(error)}", where=name) from None
    return _decoded(content, name)


def has_byte_order_mark(path: Path) -> bool:
    """Tell whether a file begins with the mark that some editors put before UTF-8 text."""
    try:
        with path.open("rb") as file:
            return file.read(3) == BYTE_ORDER_MARK.encode()
    except OSError:
        return False


def _decoded(content: bytes, name: str) -> str:
    if not content.strip():
        raise refuse("is empty", where=name)
    if not content.strip(b"\0"):
        raise refuse("holds nothing but zero bytes, as after a power cut", where=name)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise refuse(f"is not UTF-8 text: line {line} has a byte that does not fit", where=name) from None


def write_atomically(path: Path, data: bytes | str, *, keep_previous: bool = False) -> Path | None:
    """Put ``data`` (text as UTF-8) into a file, wholly or not at all; return where the old content is kept.

    The data goes to a new file in the same folder, is flushed to the disk, and then takes the name. The
    permissions of a file that was there are kept, a symbolic link stays one. With ``keep_previous`` the
    old content is kept under `previous_copy`; writing what is there already touches neither. Raises
    ProblemsError in one sentence and leaves what was there.
    """
    kept = None
    try:
        content = data.encode("utf-8") if isinstance(data, str) else data
        target = path.resolve()
        if target.exists():
            if not target.is_file():
                raise refuse("is not a regular file and cannot be replaced", where=path.name or str(path))
            if target.stat().st_size == len(content) and target.read_bytes() == content:
                return None
            if keep_previous:
                kept = previous_copy(target)
                _replace(kept, target.read_bytes(), permissions_of=target)
        _replace(target, content, permissions_of=target)
    except UnicodeEncodeError:
        raise refuse("cannot be saved: a text in it has half a character", where=path.name) from None
    except (OSError, ValueError) as error:
        if isinstance(error, ProblemsError):
            raise
        raise refuse(f"cannot be saved: {_reason(error)}; nothing was changed", where=path.name) from None
    return kept


def _replace(path: Path, content: bytes, *, permissions_of: Path) -> None:
    beside = path.with_name(f".{secrets.token_hex(6)}.tmp")
    try:
        with beside.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if permissions_of.exists():
            shutil.copymode(permissions_of, beside)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
    _flush_folder(path.parent)


def _flush_folder(folder: Path) -> None:
    """Make the new name last through a power cut, where the system can open a folder for that."""
    if os.name != "posix":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _reason(error: Exception) -> str:
    return getattr(error, "strerror", None) or str(error)
