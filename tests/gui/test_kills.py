"""Killed at random moments, again and again: no profile and no draft is ever lost or half written."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

posix = pytest.mark.skipif(os.name != "posix", reason="needs fork and SIGKILL")

# Many short lives of a writer, each begun from one that has loaded all it needs.
_HARNESS = """
import os, random, signal, sys, time
from pathlib import Path
from attrs import evolve
from core.record.files import sweep
from core.record.own_copies import OwnCopies
from core.record.profile import read_profile, save_profile
from gui.profile.drafts import DraftPlace, place_left, used_places
from tests.gui.conftest import make_profile

folder, kills, kind = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3]
path = folder / "ines.toml"
profile = make_profile()
save_profile(path, profile)
(folder / "unsaved").mkdir()

def write_on_and_on(begin, told):
    if kind == "profile":
        write = lambda each: save_profile(path, each, own_copies=OwnCopies(folder / "copies.json"))
    else:
        place = DraftPlace(folder / "unsaved", "new-1")
        assert place.take()
        write = lambda each: place.write(each, None)
    number = begin
    while True:
        number += 1
        write(evolve(profile, observer=f"Ines {number}"))
        os.write(told, f"{number}\\n".encode())

def number_there():
    if kind == "profile":
        name = read_profile(path).observer
        read_profile(path.with_name(path.name + "~"))
    else:
        place = place_left(used_places(folder), None)
        assert place is not None
        name = place.read().profile.observer
        place.let_go()
    return int(name.removeprefix("Ines") or 0)

chance, last = random.Random(13), 0
for kill in range(kills):
    heard, told = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            write_on_and_on(last, told)
        finally:
            os._exit(9)
    os.close(told)
    # At least one line is told, then the end comes at any moment.
    first = os.read(heard, 20)
    time.sleep(chance.random() * 0.02)
    os.kill(child, signal.SIGKILL)
    assert os.waitpid(child, 0)[1] == signal.SIGKILL, "the writer ended by itself"
    rest = b""
    while piece := os.read(heard, 65536):
        rest += piece
    os.close(heard)
    acknowledged = int((first + rest).split(b"\\n")[-2])
    found = number_there()
    assert found in (acknowledged, acknowledged + 1), (kill, acknowledged, found)
    last = found

left = [each for place in (folder, folder / "unsaved") for each in place.glob(".stillair-*.tmp")]
for each in left:
    os.utime(each, (1, 1))
for place in (folder, folder / "unsaved"):
    sweep(place)
assert not [each for place in (folder, folder / "unsaved") for each in place.glob(".*")]
print("lived through", kills, "kills with", last, "writings;", len(left), "half-written files swept")
"""


def _live(folder: Path, kills: int, kind: str) -> str:
    ran = subprocess.run(
        [sys.executable, "-c", _HARNESS, str(folder), str(kills), kind],
        capture_output=True,
        encoding="utf-8",
        timeout=500,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr[-2000:]
    return ran.stdout


@posix
@pytest.mark.parametrize("kind", ["profile", "draft"])
def test_a_dozen_kills_lose_nothing(tmp_path: Path, kind: str) -> None:
    assert "lived through 12 kills" in _live(tmp_path, 12, kind)


@posix
@pytest.mark.long
@pytest.mark.timeout(600)
@pytest.mark.parametrize("kind", ["profile", "draft"])
def test_three_hundred_kills_lose_nothing(tmp_path: Path, kind: str) -> None:
    assert "lived through 300 kills" in _live(tmp_path, 300, kind)
