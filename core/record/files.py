"""Files that a person would hate to lose: read with care, written whole or not at all."""

import hashlib
import os
import re
import secrets
import shutil
import stat
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import partial
from itertools import count
from pathlib import Path
from typing import BinaryIO, Final

from core.problems import ProblemsError, refuse

LARGEST_BYTES = 1_000_000
BYTE_ORDER_MARK = "\ufeff"
_MOST_COPIES: Final = 9
_HALF_WRITTEN: Final = re.compile(r"\.stillair-[0-9a-f]{12}\.tmp")
# A file still being written is younger, however slow the disk.
_LEFT_OVER_S: Final = 600.0

# On Windows a file that another program has open cannot be replaced; most have it only for a moment.
_WAITS_S: Final = (0.02, 0.05, 0.1, 0.2)


def previous_copy(path: Path) -> Path:
    """Return where the text from before the last save is usually kept: beside the file, a tilde after it."""
    return path.with_name(path.name + "~")


def place_to_keep(path: Path, is_own: Callable[[Path], bool]) -> Path:
    """Return where to keep the text from before a save, so that no other program's copy is written over.

    Editors use the same name: one that is not ``is_own`` stays, and a number is put after the tilde.
    """
    return next(place for place in _copies(path) if not os.path.lexists(place) or is_own(place))


def kept_beside(path: Path) -> Path | None:
    """Return the newest copy from before a save that lies beside a file, None where there is none."""
    found: list[tuple[float, Path]] = []
    # A name may be empty or too long to have anything beside it.
    with suppress(OSError, ValueError):
        for _, place in zip(range(_MOST_COPIES), _copies(path), strict=False):
            if place.is_file():
                found.append((place.stat().st_mtime, place))
    return max(found)[1] if found else None


def is_file(path: Path) -> bool:
    """Tell whether a name that anybody may have typed is that of a file."""
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _copies(path: Path) -> Iterator[Path]:
    # Beside the file itself where the name is a link to it.
    first = previous_copy(_target(path))
    yield first
    yield from (first.with_name(f"{first.name}{number}") for number in count(2))


def has_other_names(path: Path) -> bool:
    """Tell whether a file has another name (a hard link), which keeps the old text when this one is saved."""
    try:
        return path.stat().st_nlink > 1
    except (OSError, ValueError):
        return False


def sweep(folder: Path) -> None:
    """Take away what a program that was killed while it wrote left half written in a folder."""
    with suppress(OSError, ValueError):
        for entry in folder.iterdir():
            if _HALF_WRITTEN.fullmatch(entry.name) and time.time() - entry.lstat().st_mtime > _LEFT_OVER_S:
                entry.unlink()


def set_aside(path: Path) -> Path:
    """Copy a file that cannot be read for what it should be, under a name not yet taken, and return that.

    Such a file is often typed by hand and wrong in one place only: nothing may be written over it before.
    """
    number = 1
    while True:
        aside = path.with_name(f"{path.name}.unreadable{number if number > 1 else ''}")
        try:
            with path.open("rb") as source, _created(aside, is_private=True) as copy:
                shutil.copyfileobj(source, copy)
            shutil.copymode(path, aside)
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


def mark_of_text(path: Path) -> str:
    """Return a mark of a small file's text, the same for the same text; nothing where it cannot be read."""
    try:
        return hashlib.sha256(read_text(path).encode()).hexdigest()
    except ProblemsError:
        return ""


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


def write_atomically(
    path: Path, data: bytes | str, *, keep_as: Path | None = None, is_private: bool = False
) -> Path | None:
    """Put ``data`` (text as UTF-8) into a file, wholly or not at all; return where the old content is kept.

    The data goes to a new file in the same folder, is flushed to the disk, and then takes the name. The
    permissions of a file that was there are kept, a symbolic link stays one, a read-only file is refused.
    With ``keep_as`` the old content is kept under that name; writing what is there already touches
    neither. With ``is_private`` nobody else can read it. Raises ProblemsError in one sentence and leaves
    what was there.
    """
    try:
        content = data.encode("utf-8") if isinstance(data, str) else data
        target = _target(path)
        if target.is_symlink():
            raise refuse("cannot be saved: its link leads in a circle", where=path.name)
        if target.exists():
            if not target.is_file():
                raise refuse("is not a regular file and cannot be replaced", where=path.name or str(path))
            if target.stat().st_size == len(content) and target.read_bytes() == content:
                return None
            if not target.stat().st_mode & stat.S_IWUSR:
                # Most systems would rename over it all the same.
                raise refuse("is read-only; nothing was changed", where=path.name)
            if keep_as is not None:
                return _replace_and_keep(target, content, keep_as, is_private=is_private)
        _replace(target, content, permissions_of=None if is_private else target)
    except UnicodeEncodeError:
        raise refuse("cannot be saved: a text in it has half a character", where=path.name) from None
    except (OSError, ValueError) as error:
        if isinstance(error, ProblemsError):
            raise
        raise refuse(f"cannot be saved: {_reason(error)}; nothing was changed", where=path.name) from None
    return None


def same_file(one: Path, other: Path) -> bool:
    """Tell whether two paths lead to one file, whatever their spelling: many disks take capitals as small."""
    try:
        return one.samefile(other)
    except OSError:  # one of them is not there
        return _target(one) == _target(other)
    except ValueError:  # a name that no system takes leads nowhere
        return False


def _target(path: Path) -> Path:
    # Unlike resolve(), this leaves links that lead in a circle to the system to refuse.
    return Path(os.path.realpath(path))


def _replace_and_keep(target: Path, content: bytes, kept: Path, *, is_private: bool) -> Path | None:
    """Write a file, and only then put its old text under ``kept``; return that, if all went well.

    The other way round a save that fails would have cost the copy from before.
    """
    if kept.is_dir():
        raise refuse(f"cannot be saved: {kept.name} is a folder; nothing was changed", where=target.name)
    with _written_beside(kept, target.read_bytes(), permissions_of=target) as old:
        _replace(target, content, permissions_of=None if is_private else target)
        try:
            _take_name(old, kept)
        except OSError:
            return None
    _flush_folder(target.parent)
    return kept


def _replace(path: Path, content: bytes, *, permissions_of: Path | None) -> None:
    """Put content under a name; without ``permissions_of`` for its owner alone."""
    with _written_beside(path, content, permissions_of=permissions_of) as beside:
        _take_name(beside, path)
    _flush_folder(path.parent)


@contextmanager
def _written_beside(path: Path, content: bytes, *, permissions_of: Path | None) -> Iterator[Path]:
    """Write a new file beside another and flush it to the disk; whatever happens, it is gone afterwards."""
    beside = path.with_name(f".stillair-{secrets.token_hex(6)}.tmp")
    is_new = permissions_of is not None and not permissions_of.exists()
    try:
        with _created(beside, is_private=not is_new) as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if permissions_of is not None and not is_new:
            shutil.copymode(permissions_of, beside)
        yield beside
    finally:
        beside.unlink(missing_ok=True)


def _take_name(file: Path, name: Path) -> None:
    """Rename a file over another, trying again where a scanner or an indexer holds it for a moment."""
    for wait_s in _WAITS_S:
        try:
            file.replace(name)
        except PermissionError:
            time.sleep(wait_s)
        else:
            return
    file.replace(name)


def _created(path: Path, *, is_private: bool) -> BinaryIO:
    """Create a file to write to; at no moment can others read what is private."""
    opener = partial(os.open, mode=0o600) if is_private else None
    return open(path, "xb", opener=opener)


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
