"""What is told of a file that is no profile at all, or none any more."""

import os
import threading
from pathlib import Path

import pytest

from core.problems import ProblemsError
from core.record.profile import read_profile

KIT = """
schema = 1
observer = "Lucía"

[[telescopes]]
name = "Six-inch"
kind = "reflector"
aperture_mm = 150
focal_length_mm = 1200
"""
NESTED = "[" * 5000


@pytest.mark.parametrize(
    ("content", "problem"),
    [
        (b"", "kit.toml: is empty"),
        (b"\n\n  \n", "kit.toml: is empty"),
        (b"\0" * 4096, "kit.toml: holds nothing but zero bytes, as after a power cut"),
        (KIT.encode()[:90], "kit.toml: is not TOML: "),
        (
            "schema = 1\nobserver = 'Lucía'".encode("latin-1"),
            "kit.toml: is not UTF-8 text: line 2 has a byte",
        ),
        (KIT.encode("utf-16"), "kit.toml: is not UTF-8 text: line 1 has a byte"),
        (b"%PDF-1.7 not a profile", "kit.toml: is not TOML: "),
        (b"schema = 1\nschema = 1\n", "kit.toml: is not TOML: Cannot overwrite a value (at line 2"),
        (
            b"schema = 1\nsites = " + NESTED.encode(),
            "kit.toml: is not a profile: its brackets are nested too deep",
        ),
        (
            f"schema = 1\nsites = {NESTED}{NESTED.replace('[', ']')}".encode(),
            "kit.toml: is not a profile: its brackets are nested too deep",
        ),
        (
            b"schema = 1\n#" + b"x" * 1_000_000,
            "kit.toml: is too large: 1,000,012 bytes, where 1,000,000 are allowed",
        ),
    ],
    ids=lambda value: None if isinstance(value, bytes) else value[10:40],
)
def test_a_bad_file_is_told_in_one_clear_sentence(tmp_path: Path, content: bytes, problem: str) -> None:
    path = tmp_path / "kit.toml"
    path.write_bytes(content)
    with pytest.raises(ProblemsError) as caught:
        read_profile(path)
    (found,) = caught.value.problems
    assert str(found).startswith(problem)
    assert path.read_bytes() == content


def test_50_mb_of_zeros_are_refused_unread(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "kit.toml"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    monkeypatch.setattr(Path, "open", lambda *_: pytest.fail("was opened"))
    with pytest.raises(ProblemsError, match=r"^kit.toml: is too large: 50,000,000 bytes"):
        read_profile(path)


def test_a_missing_file_and_a_folder_are_told_apart(tmp_path: Path) -> None:
    with pytest.raises(ProblemsError, match=r"^none.toml: there is no such file$"):
        read_profile(tmp_path / "none.toml")
    (tmp_path / "kit").mkdir()
    with pytest.raises(ProblemsError, match=r"^kit: is a folder, not a file$"):
        read_profile(tmp_path / "kit")
    with pytest.raises(ProblemsError, match=r"cannot be read"):
        read_profile(tmp_path / "zero\0byte")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_that_nobody_writes_to_does_not_hold_the_program_up(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.toml"
    os.mkfifo(pipe)
    told: list[str] = []

    def read() -> None:
        try:
            read_profile(pipe)
        except ProblemsError as error:
            told.append(str(error))

    reader = threading.Thread(target=read, daemon=True)
    reader.start()
    reader.join(timeout=5)
    assert told == ["pipe.toml: is not a regular file"]


def test_a_bad_file_with_a_good_copy_beside_it_says_so(tmp_path: Path) -> None:
    (tmp_path / "kit.toml~").write_text(KIT, encoding="utf-8")
    (tmp_path / "kit.toml").write_bytes(b"")
    with pytest.raises(ProblemsError) as caught:
        read_profile(tmp_path / "kit.toml")
    assert str(caught.value).splitlines() == [
        "kit.toml: is empty",
        "the profile from before the last save is beside it, as kit.toml~",
    ]
