"""Files that strangers send: what would take long to read is refused before it is read."""

import json
import subprocess
import sys
import time
import tomllib
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from pathlib import Path

import pytest

from core.problems import ProblemsError
from core.record.profile import loads_profile, read_profile
from core.record.toml_limits import MOST_KEY_PARTS, MOST_LINES, MOST_TABLES, check_toml

# "Before parsing costs 0.5 s or 100 MB"; the time is the processor's, for other programs run as well.
# The aim is 0.5 s; three times that is borne, for a busy machine slows the processor itself.
LONGEST_S = 1.5
MOST_MB = 100

Q = '"'


def _lines(count: int, line: str) -> str:
    return "".join(line.format(number=number) for number in range(count))


HOSTILE: dict[str, Callable[[], str]] = {
    "a dotted key of 20,000 parts": lambda: ".".join("a" * 20_000) + " = 1",
    "a dotted header of 20,000 parts": lambda: f"[{'.'.join('a' * 20_000)}]",
    "a dotted key with blanks": lambda: " . ".join("a" * 200_000) + " = 1",
    "a dotted key in quotes": lambda: ".".join(['"a"'] * 100_000) + " = 1",
    "a dotted key in other quotes": lambda: ".".join(["'a'"] * 100_000) + " = 1",
    "dotted keys of a few parts, on and on": partial(_lines, 39_000, "a.b.c.d.e.f.g{number} = 1\n"),
    "dotted headers, on and on": partial(_lines, 19_000, "[a.b.c.d.e.f.g{number}]\n"),
    "dotted keys of many parts": partial(_lines, 1_500, ".".join("a" * 300) + ".b{number} = 1\n"),
    "headers": partial(_lines, 90_000, "[a{number}]\n"),
    "things": lambda: "[[sites]]\n" * 90_000,
    "keys": partial(_lines, 70_000, "k{number} = 1\n"),
    "brackets": lambda: "a = " + "[" * 900_000,
    "curly brackets": lambda: "a = " + "{a=" * 300_000,
    "tables on one line": lambda: "a = {" + ",".join(f"b{n}={{}}" for n in range(80_000)) + "}",
    "numbers": lambda: "a = [" + "1.5," * 240_000 + "]",
    "days": lambda: "a = [" + "1979-05-27," * 80_000 + "]",
    "a number of 900,000 digits": lambda: "a = " + "9" * 900_000,
    "a key of 900,000 letters": lambda: "a" * 900_000 + " = 1",
    "escapes": lambda: f"observer = {Q}" + "\\u0061" * 150_000 + Q,
    "backslashes": lambda: f"observer = {Q}" + "\\" * 900_000,
    "lines that go on": lambda: f"observer = {Q * 3}" + "\\\n " * 39_000 + Q * 3,
    "texts that never end": lambda: f"{Q * 3}\n\\" * 39_000,
    "texts that never end, long": lambda: f"{Q * 3}a\\" * 150_000,
    "single quotes": lambda: "'" * 900_000,
    "double quotes": lambda: Q * 900_000,
    "blank lines": lambda: "\n" * 900_000,
    "blanks": lambda: " " * 900_000 + "a = 1",
    "comments": lambda: "#\n" * 39_000,
    "dots": lambda: "." * 900_000,
    "words": lambda: "a " * 450_000,
}
SCHEMA = "schema = 2\n"


@pytest.mark.parametrize("make", HOSTILE.values(), ids=HOSTILE)
def test_a_hostile_file_is_done_with_in_half_a_second(make: Callable[[], str]) -> None:
    text = SCHEMA + make()
    began = time.process_time()
    with suppress(ProblemsError):
        loads_profile(text, name="kit.toml")
    assert time.process_time() - began < LONGEST_S


_MEASURE = """
import json, resource, sys
from core.problems import ProblemsError
from core.record.profile import loads_profile
texts = json.load(sys.stdin)
try:
    loads_profile("schema = 7")
except ProblemsError:
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
for text in texts:
    try:
        loads_profile(text)
    except ProblemsError:
        pass
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells the most memory used in kilobytes")
def test_hostile_files_take_no_more_memory_than_a_window_has_to_spare() -> None:
    texts = json.dumps([SCHEMA + make() for make in HOSTILE.values()])
    ran = subprocess.run(
        [sys.executable, "-c", _MEASURE], input=texts, capture_output=True, text=True, check=True, timeout=100
    )
    assert int(ran.stdout) / 1024 < MOST_MB


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (".".join("a" * 10) + " = 1", f"kit.toml: has a key of more than the {MOST_KEY_PARTS} parts that"),
        ("\n#" * 50_000, "kit.toml: has more lines than the 40,000 that are allowed"),
        ("a = [" + "[]," * 30_000, "kit.toml: has more tables and lists than the 20,000 that are allowed"),
        ("a = [" + "1," * 70_000, "kit.toml: has more values than the 60,000 that are allowed"),
        ("a = " + "1" * 2_000, "kit.toml: has a key or a number of more than 1,000 letters"),
    ],
)
def test_what_is_too_much_is_told_in_a_sentence(tmp_path: Path, text: str, told: str) -> None:
    path = tmp_path / "kit.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ProblemsError) as caught:
        read_profile(path)
    assert str(caught.value).startswith(told)


@pytest.mark.parametrize(
    "notes",
    [
        "a.b.c.d.e.f.g.h.i.j.k.l.m.n",
        "[" * MOST_TABLES + "[",
        "x" * 5_000,
        "1, 2 = 3, " * 30_000,
        "{}[]" * 30_000,
        "\\" * 4,
        "''' and '' and '",
        '\\"' * 3,
    ],
    ids=lambda notes: notes[:12],
)
@pytest.mark.parametrize("quotes", ['"', '"' * 3])
def test_what_is_written_in_a_note_counts_for_nothing(notes: str, quotes: str) -> None:
    text = f"{SCHEMA}observer = {quotes}{notes}{quotes} # a.b.c.d.e.f.g.h.i.j = [[[["
    assert loads_profile(text).observer == tomllib.loads(text)["observer"]


def test_quotes_at_the_ends_of_a_long_text_belong_to_it() -> None:
    # Five quotes in a row end a text that ends with two (TOML 1.0, multi-line strings).
    text = f"{SCHEMA}observer = {Q * 3}{Q * 2}a{Q * 5}\n[eye]\nglasses = true\n"
    assert loads_profile(text).observer == '""a""'
    check_toml(text)
    with pytest.raises(ProblemsError):
        check_toml(text + ".".join("a" * 10) + " = 1")


def test_as_many_lines_as_are_allowed_are_read() -> None:
    assert loads_profile(SCHEMA + "#\n" * (MOST_LINES - 2)).observer == ""
