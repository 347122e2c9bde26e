"""The log: nothing acknowledged is lost, other windows see it, and searching takes words as words."""

import os
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import date
from pathlib import Path

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.problems import ProblemsError
from core.record.log import FILE_NAME, Log
from core.record.log_entry import LogEntry, Verdict
from tests.core.record.log_lines import OTHER_PROFILE, PROFILE, line

posix = pytest.mark.skipif(os.name != "posix", reason="needs signals and limits of a POSIX system")


@pytest.fixture
def log(tmp_path: Path) -> Log:
    return Log.open(tmp_path)


def test_what_is_added_is_read_back_in_the_order_of_time(log: Log) -> None:
    late, early = line(30), line(0)
    log.add(late)
    log.add(early)

    assert log.entries(PROFILE) == (early, late)
    assert log.entries(PROFILE, newest=1) == (late,)
    assert log.entries(OTHER_PROFILE) == ()


def test_a_line_is_edited_and_taken_out_and_found_no_more(log: Log) -> None:
    first, second = line(0, note="belts"), line(1)
    log.add(first)
    log.add(second)

    log.replace(attrs.evolve(first, note="the gap"))

    assert [each.note for each in log.entries(PROFILE, search="gap")] == ["the gap"]
    assert log.entries(PROFILE, search="belts") == ()
    log.remove(first.id)
    assert log.entries(PROFILE) == (second,)
    assert log.entries(PROFILE, search="gap") == ()
    log.add(first)  # as Undo puts it back
    assert log.entries(PROFILE, search="belts") == (first,)


def test_the_log_is_asked_from_an_evening_on(log: Log) -> None:
    log.add(line(0))
    late = line(0, evening=date(2026, 12, 9))
    log.add(late)

    assert log.entries(PROFILE, since=date(2026, 12, 6)) == (late,)


@pytest.mark.parametrize(
    "words",
    ["Sharp", "sharp belts", "belt", "saturn six", "10 mm", "terrace", "cafe", "縞", '"', "100%", "50_"],
)
def test_words_are_found_in_notes_and_in_names(log: Log, words: str) -> None:
    """Whole words or their beginnings, without accents; in scripts that part no words, anywhere."""
    wanted = line(0, note='Sharp belts, 木星の縞模様, café, "quoted" 100% 50_50')
    log.add(wanted)
    log.add(line(1, note="nothing", scope_name="Other", site_name="Roof", eyepiece_name="25", planet=None))

    assert log.entries(PROFILE, search=words) == (wanted,)


@pytest.mark.parametrize(
    "words", ["belts AND", "NEAR(a b)", "told:x", "*", "qq OR belts", "^", "%", "!", "''--"]
)
def test_no_word_of_a_person_is_a_command_of_the_search(log: Log, words: str) -> None:
    log.add(line(0, note="belts"))

    assert log.entries(PROFILE, search=words) == ()


@given(text=st.text(max_size=40))
def test_any_text_can_be_searched_for(text: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    log = Log.open(tmp_path_factory.mktemp("log"))
    with closing(log):
        log.add(line(0, note="belts"))
        assert len(log.entries(PROFILE, search=text)) <= 1


def test_another_window_sees_what_was_written(tmp_path: Path) -> None:
    one, other = Log.open(tmp_path), Log.open(tmp_path)
    assert not other.has_changed()
    told = line()

    one.add(told)

    assert other.has_changed()
    assert not other.has_changed()
    assert other.entries(PROFILE) == (told,)
    other.add(line(1))
    assert len(one.entries(PROFILE)) == 2


def test_an_import_skips_what_is_known(log: Log) -> None:
    known, new = line(0), line(1)
    log.add(known)

    assert log.add_unknown([known, new]) == 1
    assert log.entries(PROFILE) == (known, new)


def test_a_verdict_needs_a_power_and_a_line_needs_something_to_tell() -> None:
    with pytest.raises(ValueError, match="the power that the verdict is about"):
        line(power=None)
    with pytest.raises(ValueError, match="a verdict or a note"):
        line(verdict=None, note=" ")
    assert line(verdict=None, note="dew").note == "dew"


def test_a_log_of_a_newer_program_is_refused_and_left_alone(tmp_path: Path) -> None:
    Log.open(tmp_path).close()
    with closing(sqlite3.connect(tmp_path / FILE_NAME)) as connection:
        connection.execute("PRAGMA user_version = 9")

    with pytest.raises(ProblemsError, match=r"^the log: is of a newer Stillair than this one$"):
        Log.open(tmp_path)


def test_a_file_that_is_no_log_is_set_aside(tmp_path: Path) -> None:
    (tmp_path / FILE_NAME).write_bytes(b"not a log at all, but somebody's text " * 99)

    log = Log.open(tmp_path)

    assert "kept as log.sqlite3.unreadable" in log.told
    assert (tmp_path / "log.sqlite3.unreadable").read_bytes().startswith(b"not a log")
    log.add(line())
    assert len(log.entries(PROFILE)) == 1


def test_what_can_be_read_of_a_damaged_log_goes_on(tmp_path: Path) -> None:
    log = Log.open(tmp_path)
    log.add_unknown(line(minute, note="long " * 300) for minute in range(400))
    log.close()
    path = tmp_path / FILE_NAME
    data = bytearray(path.read_bytes())
    # Over the header's list of tables nothing can be read by; over the middle much still can.
    data[100:140] = b"\xff" * 40
    path.write_bytes(data)

    after = Log.open(tmp_path)

    assert "could be read and go on" in after.told
    after.add(line(999))
    assert after.entries(PROFILE)[-1] == line(999, id=after.entries(PROFILE)[-1].id)


@posix
def test_a_full_disk_is_told_and_loses_nothing(tmp_path: Path) -> None:
    told = _in_another_process(
        tmp_path,
        "import resource, signal\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (300_000, 300_000))\n"
        "count = 0\n"
        "try:\n"
        "    while True:\n"
        "        log.add(line(count, note='x' * 9000)); count += 1\n"
        "except ProblemsError as error:\n"
        "    print(count, error)\n",
    )

    count, sentence = told.split(" ", 1)
    assert sentence.startswith("the log: could not be written: ")
    assert sentence.rstrip().endswith("nothing was changed")
    assert int(count) > 3
    assert Log.open(tmp_path).count(PROFILE) == int(count)


def test_two_windows_write_at_once(tmp_path: Path) -> None:
    Log.open(tmp_path).close()
    writers = [_process(tmp_path, "for n in range(60): log.add(line(n))\nprint('done')") for _ in range(2)]

    assert [writer.communicate(timeout=60)[0].strip() for writer in writers] == ["done", "done"]
    assert Log.open(tmp_path).count(PROFILE) == 120


def _kill_while_writing(folder: Path, *, kills: int) -> None:
    """Kill a writer again and again; what it had told as written must be there each time."""
    acknowledged: set[str] = set()
    for number in range(kills):
        writer = _process(
            folder,
            "import sys\nwhile True:\n    entry = line(); log.add(entry); print(entry.id, flush=True)\n",
        )
        assert writer.stdout is not None
        # After a different number of lines each time, in the middle of whatever comes next.
        for _ in range(1 + number * 7 % 11):
            acknowledged.add(writer.stdout.readline().strip())
        writer.send_signal(signal.SIGKILL)
        acknowledged.update(told for told in writer.communicate()[0].splitlines() if len(told) == 36)
        with closing(Log.open(folder)) as log:
            assert log.told == ""
            assert acknowledged <= {entry.id for entry in log.entries(PROFILE)}


@posix
def test_nothing_told_as_written_is_lost_when_the_window_is_killed(tmp_path: Path) -> None:
    _kill_while_writing(tmp_path, kills=4)


@posix
@pytest.mark.long
@pytest.mark.timeout(900)
def test_three_hundred_kills_lose_nothing(tmp_path: Path) -> None:
    _kill_while_writing(tmp_path, kills=300)


_SHIM = """
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
static int answer(int fd, int cmd, void *arg, const char *name) {
    if (cmd == F_SETLK || cmd == F_SETLKW || cmd == F_GETLK) { errno = ENOLCK; return -1; }
    int (*real)(int, int, ...) = dlsym(RTLD_NEXT, name);
    return real(fd, cmd, arg);
}
int fcntl(int fd, int cmd, ...) { va_list a; va_start(a, cmd); void *p = va_arg(a, void *); va_end(a);
    return answer(fd, cmd, p, "fcntl"); }
int fcntl64(int fd, int cmd, ...) { va_list a; va_start(a, cmd); void *p = va_arg(a, void *); va_end(a);
    return answer(fd, cmd, p, "fcntl64"); }
"""


@posix
def test_a_folder_without_locks_keeps_the_log_and_says_so(tmp_path: Path) -> None:
    """As on some shares over a network: the system answers every lock with "no locks available"."""
    source, shim, folder = tmp_path / "shim.c", tmp_path / "shim.so", tmp_path / "share"
    source.write_text(_SHIM)
    try:
        made = subprocess.run(
            ["cc", "-shared", "-fPIC", "-o", str(shim), str(source), "-ldl"], capture_output=True, check=False
        )
    except FileNotFoundError:
        pytest.skip("there is no C compiler to make the folder without locks")
    if made.returncode:
        pytest.skip(f"the folder without locks could not be made: {made.stderr.decode()}")

    told = _in_another_process(
        folder, "log.add(line())\nprint(log.told)\nprint(log.count(PROFILE))", LD_PRELOAD=str(shim)
    )

    assert told.splitlines() == [
        "The folder of the log cannot lock files: keep Stillair open in one window only while you write.",
        "1",
    ]
    assert Log.open(folder).count(PROFILE) == 1


def test_a_log_that_cannot_be_opened_is_told_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / FILE_NAME).mkdir()

    with pytest.raises(ProblemsError, match=r"^the log: cannot be opened: "):
        Log.open(tmp_path)


def test_half_a_character_is_refused_in_a_sentence(log: Log) -> None:
    with pytest.raises(ProblemsError, match="half a character"):
        log.add(line(note="\ud83d"))
    log.add(line())
    assert log.count(PROFILE) == 1


def test_every_kind_of_verdict_comes_back(log: Log) -> None:
    lines: list[LogEntry] = [line(n, verdict=verdict) for n, verdict in enumerate(Verdict)]
    for each in lines:
        log.add(each)

    assert log.entries(PROFILE) == tuple(lines)


_BEGIN = (
    "from pathlib import Path\n"
    "from core.problems import ProblemsError\n"
    "from core.record.log import Log\n"
    "from tests.core.record.log_lines import PROFILE, line\n"
    "log = Log.open(Path({folder!r}))\n"
)


def _process(folder: Path, program: str, **environment: str) -> "subprocess.Popen[str]":
    return subprocess.Popen(
        [sys.executable, "-c", _BEGIN.format(folder=str(folder)) + program],
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | environment,
        cwd=Path(__file__).parents[3],
    )


def _in_another_process(folder: Path, program: str, **environment: str) -> str:
    process = _process(folder, program, **environment)
    told, _ = process.communicate(timeout=60)
    assert process.returncode == 0
    return told
