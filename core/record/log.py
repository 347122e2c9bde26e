"""The log: every verdict and note, in one SQLite file that survives a kill and serves several windows.

A line is on the disk before `Log.add` returns. One window writes at a time, the others see what it wrote.
SQLite's write-ahead log is used where the folder allows it, else its rollback journal; a folder that cannot
lock files at all, as some shares over a network, is used without locks and says so.
"""

import errno
import sqlite3
import sys
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing, contextmanager, suppress
from datetime import date
from pathlib import Path
from typing import Final, Self

from core.plain_text import printable
from core.problems import ProblemsError, refuse
from core.record.files import is_file, set_aside
from core.record.log_entry import LogEntry
from core.record.log_rows import COLUMNS, entry_of, found_by, row_of

FILE_NAME: Final = "log.sqlite3"
_FORM: Final = 1
_WAIT_S: Final = 5.0
_NAMES: Final = ", ".join(column.name for column in COLUMNS)
_MARKS: Final = ", ".join("?" for _ in COLUMNS)
_CREATE: Final = (
    "CREATE TABLE entries (number INTEGER PRIMARY KEY, "
    + ", ".join(f"{column.name} {column.kind}" for column in COLUMNS)
    + ")",
    "CREATE UNIQUE INDEX entries_by_id ON entries (id)",
    "CREATE INDEX entries_by_time ON entries (profile_id, at)",
    "CREATE VIRTUAL TABLE words USING fts5 (told, tokenize = 'unicode61 remove_diacritics 2')",
    f"PRAGMA user_version = {_FORM}",
)
_WORDS: Final = "SELECT rowid FROM words WHERE"
_QUOTE: Final = '"'
_NO_LOCKS: Final = (
    "The folder of the log cannot lock files: keep Stillair open in one window only while you write."
)


def has_log(folder: Path) -> bool:
    """Tell whether a folder has a log already."""
    return is_file(folder / FILE_NAME)


class Log:
    """The open log of one folder; ``told`` is what a person should know about it, else nothing."""

    def __init__(self, connection: sqlite3.Connection, path: Path, told: str) -> None:
        self._connection = connection
        self._path = path
        self.told = told
        self._seen = self._version()

    @classmethod
    def open(cls, folder: Path) -> Self:
        """Open the log of a folder, made where there is none; ProblemsError in one sentence where it cannot.

        A damaged file is set aside under another name, and what can still be read of it goes on.
        """
        path = folder / FILE_NAME
        try:
            folder.mkdir(parents=True, exist_ok=True)
            try:
                connection, told = _connected(path)
            except sqlite3.DatabaseError as error:
                if isinstance(error, sqlite3.OperationalError):
                    raise
                connection, told = _begun_again(path)
        except (OSError, sqlite3.Error) as error:
            raise refuse(f"cannot be opened: {error}", where="the log") from None
        return cls(connection, path, told)

    def close(self) -> None:
        """Let go of the file; what was written stays."""
        self._connection.close()

    # Writing: each of these is on the disk when it returns, or was not done at all.

    def add(self, entry: LogEntry) -> None:
        """Add a line."""
        with self._writing():
            self._insert(entry)

    def replace(self, entry: LogEntry) -> None:
        """Put an edited line in the place of the one with its id; a line that has gone stays gone."""
        with self._writing():
            sets = ", ".join(f"{column.name} = ?" for column in COLUMNS)
            self._connection.execute(
                f"UPDATE entries SET {sets} WHERE id = ?",
                (*row_of(entry), entry.id),
            )
            self._connection.execute(
                "UPDATE words SET told = ? WHERE rowid = (SELECT number FROM entries WHERE id = ?)",
                (found_by(entry), entry.id),
            )

    def remove(self, entry_id: str) -> None:
        """Take a line out."""
        with self._writing():
            self._connection.execute(
                "DELETE FROM words WHERE rowid = (SELECT number FROM entries WHERE id = ?)", (entry_id,)
            )
            self._connection.execute("DELETE FROM entries WHERE id = ?", (entry_id,))

    def add_unknown(self, entries: Iterable[LogEntry]) -> int:
        """Add the lines whose ids are not there yet, all or none; return how many."""
        with self._writing():
            return sum(self._insert(entry) for entry in entries)

    # Reading.

    def entries(
        self, profile_id: str, *, since: date | None = None, search: str = "", newest: int | None = None
    ) -> tuple[LogEntry, ...]:
        """Return the lines of a profile in the order of time, as many of the newest as are wanted.

        ``since`` is the first evening; every word of ``search`` must be found in a line, at the beginning of
        one of its words, or anywhere in scripts that part no words.
        """
        kept = [("profile_id = ?", profile_id)]
        if since is not None:
            kept.append(("evening >= ?", since.isoformat()))
        words = printable(search).split()
        if not words:
            return self._found(kept, newest)
        begun = " ".join(f'"{word.replace(_QUOTE, _QUOTE * 2)}"*' for word in words)
        found = self._found([*kept, (f"number IN ({_WORDS} words MATCH ?)", begun)], newest)
        if found:
            return found
        inside = [(f"number IN ({_WORDS} told LIKE ? ESCAPE '!')", _anywhere(word)) for word in words]
        return self._found([*kept, *inside], newest)

    def count(self, profile_id: str) -> int:
        """Return how many lines a profile has."""
        with self._reading():
            counted = self._connection.execute(
                "SELECT count(*) FROM entries WHERE profile_id = ?", (profile_id,)
            ).fetchone()
        return int(counted[0])

    def has_changed(self) -> bool:
        """Tell whether another window has written since this was last asked."""
        with self._reading():
            before, self._seen = self._seen, self._version()
        return self._seen != before

    def _found(self, kept: Sequence[tuple[str, str]], newest: int | None) -> tuple[LogEntry, ...]:
        """Return the lines for which every condition, a piece of SQL and its value, is true."""
        where, values = " AND ".join(condition for condition, _ in kept), [value for _, value in kept]
        asked = f"SELECT {_NAMES} FROM entries WHERE {where} ORDER BY at DESC, number DESC LIMIT ?"
        with self._reading():
            rows = self._connection.execute(asked, (*values, -1 if newest is None else newest)).fetchall()
        return tuple(_readable(reversed(rows)))

    def _version(self) -> int:
        return int(self._connection.execute("PRAGMA data_version").fetchone()[0])

    def _insert(self, entry: LogEntry) -> bool:
        done = self._connection.execute(
            f"INSERT OR IGNORE INTO entries ({_NAMES}) VALUES ({_MARKS})",
            row_of(entry),
        )
        if not done.rowcount:
            return False
        self._connection.execute(
            "INSERT INTO words (rowid, told) VALUES (?, ?)", (done.lastrowid, found_by(entry))
        )
        return True

    @contextmanager
    def _writing(self) -> Iterator[None]:
        try:
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                yield
            except BaseException:
                self._connection.execute("ROLLBACK")
                raise
            self._connection.execute("COMMIT")
        except UnicodeEncodeError:
            raise refuse("could not be written: a text in it has half a character", where="the log") from None
        except sqlite3.Error as error:
            with suppress(sqlite3.Error):
                self._connection.execute("ROLLBACK")
            raise refuse(f"could not be written: {error}; nothing was changed", where="the log") from None

    @contextmanager
    def _reading(self) -> Iterator[None]:
        try:
            yield
        except sqlite3.Error as error:
            raise refuse(f"could not be read: {error}", where="the log") from None


def _anywhere(word: str) -> str:
    """Return the pattern of SQLite's LIKE that finds a word anywhere, its own signs taken as letters."""
    return "%" + "".join(f"!{letter}" if letter in "!%_" else letter for letter in word) + "%"


def _readable(rows: Iterable[tuple[object, ...]]) -> Iterator[LogEntry]:
    for row in rows:
        # A row that another program spoiled must not hide the others.
        with suppress(ValueError, TypeError, KeyError):
            yield entry_of(row)


# --- opening ---------------------------------------------------------------------------------------------


def _connected(path: Path) -> tuple[sqlite3.Connection, str]:
    if _locks_files(path.parent):
        return _prepared(sqlite3.connect(path, timeout=_WAIT_S, isolation_level=None)), ""
    address = f"{path.absolute().as_uri()}?vfs=unix-none"
    return _prepared(sqlite3.connect(address, uri=True, isolation_level=None), alone=True), _NO_LOCKS


def _locks_files(folder: Path) -> bool:
    """Tell whether the system can lock a file in a folder; SQLite takes a refusal for a busy file."""
    if sys.platform == "win32":
        return True
    import fcntl  # there is none on Windows

    try:
        with tempfile.TemporaryFile(dir=folder) as probe:
            fcntl.lockf(probe, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        return error.errno not in (errno.ENOLCK, errno.ENOSYS, errno.EOPNOTSUPP, errno.EINVAL)
    return True


def _prepared(connection: sqlite3.Connection, *, alone: bool = False) -> sqlite3.Connection:
    try:
        # A write is told as done only when it would survive a power cut.
        connection.execute(f"PRAGMA journal_mode = {'TRUNCATE' if alone else 'WAL'}").fetchone()
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("BEGIN IMMEDIATE")
        form = connection.execute("PRAGMA user_version").fetchone()[0]
        if form == 0:
            for statement in _CREATE:
                connection.execute(statement)
        connection.execute("COMMIT")
        connection.execute(f"SELECT {_NAMES} FROM entries ORDER BY number DESC LIMIT 1").fetchall()
    except BaseException:
        connection.close()
        raise
    if form > _FORM:
        connection.close()
        raise refuse("is of a newer Stillair than this one", where="the log")
    return connection


def _begun_again(path: Path) -> tuple[sqlite3.Connection, str]:
    """Set a damaged log aside and begin a new one with all that can still be read of the old."""
    aside = set_aside(path)
    saved = list(_rescued(aside))
    for name in (path.name, f"{path.name}-wal", f"{path.name}-shm"):
        path.with_name(name).unlink(missing_ok=True)
    connection, _ = _connected(path)
    told = (
        f"The log was damaged. It is kept as {aside.name}; {len(saved)} of its lines could be read and go on."
    )
    Log(connection, path, told).add_unknown(saved)
    return connection, told


def _rescued(path: Path) -> Iterator[LogEntry]:
    """Yield what can be read of a damaged log, from its beginning and then from its end."""
    for order in ("ASC", "DESC"):
        with suppress(sqlite3.Error, ProblemsError), closing(sqlite3.connect(path)) as damaged:
            yield from _readable(damaged.execute(f"SELECT {_NAMES} FROM entries ORDER BY number {order}"))
