"""Saving among other programs: their copies, other names of a file, what a kill left, who may read."""

import os
import stat
import time
from pathlib import Path

import pytest

from core.problems import ProblemsError
from core.record.files import has_other_names, kept_beside, set_aside, sweep, write_atomically
from core.record.observer import Profile
from core.record.own_copies import OwnCopies
from core.record.profile import read_profile, save_profile

OWN_ID = "3f0c1f6e-8a54-4d0b-9d3c-5e2f7a61b0d4"
OLD = f'schema = 2\nid = "{OWN_ID}"\nobserver = "Ines"\n'
posix_only = pytest.mark.skipif(os.name != "posix", reason="this system has no modes of this kind")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "kit.toml"
    path.write_text(OLD, encoding="utf-8")
    return path


@pytest.fixture
def noted(tmp_path: Path) -> Path:
    return tmp_path / "state" / "copies.json"


@pytest.mark.parametrize("theirs", ["an editor's own copy\n", OLD, OLD.replace("Ines", "Ana"), ""])
def test_a_copy_that_another_program_keeps_is_not_written_over(path: Path, noted: Path, theirs: str) -> None:
    copy = path.with_name("kit.toml~")
    copy.write_text(theirs, encoding="utf-8")

    kept = save_profile(path, Profile(observer="Rui"), own_copies=OwnCopies(noted))

    assert copy.read_text(encoding="utf-8") == theirs
    assert kept == path.with_name("kit.toml~2")
    assert kept.read_text(encoding="utf-8") == OLD
    # The second of our own takes the place of the first of our own, at a later start too.
    assert save_profile(path, Profile(observer="Lea"), own_copies=OwnCopies(noted)) == kept
    assert read_profile(kept).observer == "Rui"
    assert copy.read_text(encoding="utf-8") == theirs


def test_an_editor_that_took_the_name_of_our_copy_keeps_it(path: Path, noted: Path) -> None:
    copy = path.with_name("kit.toml~")
    assert save_profile(path, Profile(observer="Rui"), own_copies=OwnCopies(noted)) == copy
    assert save_profile(path, Profile(observer="Lea"), own_copies=OwnCopies(noted)) == copy
    # An editor keeps what it opened: once a text that stood there before, too.
    copy.write_text(OLD, encoding="utf-8")
    path.write_text(OLD.replace("Ines", "Ana"), encoding="utf-8")

    kept = save_profile(path, Profile(observer="Mia"), own_copies=OwnCopies(noted))

    assert kept == path.with_name("kit.toml~2")
    assert copy.read_text(encoding="utf-8") == OLD
    assert read_profile(kept).observer == "Ana"


@pytest.mark.parametrize("damage", ["", "{", "{}", "[1, {}]", '[{"path": 1, "digest": ""}]', "[" * 100_000])
def test_damaged_marks_of_our_copies_cost_one_more_copy(path: Path, noted: Path, damage: str) -> None:
    save_profile(path, Profile(observer="Rui"), own_copies=OwnCopies(noted))
    noted.write_text(damage, encoding="utf-8")
    kept = save_profile(path, Profile(observer="Lea"), own_copies=OwnCopies(noted))
    assert kept == path.with_name("kit.toml~2")
    assert save_profile(path, Profile(observer="Mia"), own_copies=OwnCopies(noted)) == kept


def test_where_no_mark_can_be_kept_one_window_writes_over_its_own_copy_alone(path: Path, noted: Path) -> None:
    noted.parent.write_text("in the way", encoding="utf-8")
    own_copies = OwnCopies(noted)
    for name in ("Rui", "Lea", "Mia"):
        assert save_profile(path, Profile(observer=name), own_copies=own_copies) == path.with_name(
            "kit.toml~"
        )
    assert save_profile(path, Profile(), own_copies=OwnCopies(noted)) == path.with_name("kit.toml~2")


def test_only_the_last_marks_of_many_copies_are_kept_and_for_the_owner_alone(
    tmp_path: Path, noted: Path
) -> None:
    copy = tmp_path / "kit.toml~"
    copy.write_text(OLD, encoding="utf-8")
    own_copies = OwnCopies(noted)
    for number in range(3):
        own_copies.note(tmp_path / f"{number}.toml~")
        own_copies.note(copy)
    assert own_copies.has(copy)
    assert noted.read_text(encoding="utf-8").count("kit.toml~") == 1
    if os.name == "posix":
        assert stat.S_IMODE(noted.stat().st_mode) == 0o600
    assert not own_copies.has(tmp_path / "0.toml~")


def test_the_newest_copy_is_the_one_that_is_told(path: Path) -> None:
    copy = path.with_name("kit.toml~")
    copy.write_text("an editor's own copy", encoding="utf-8")
    os.utime(copy, (1, 1))
    save_profile(path, Profile(observer="Rui"))
    path.write_text("schema =", encoding="utf-8")
    with pytest.raises(ProblemsError, match=r"is beside it, as kit.toml~2$"):
        read_profile(path)


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="this system has no links")
def test_a_link_stays_one_and_the_copy_lies_beside_the_file(path: Path, tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    far = path.rename(tmp_path / "far" / "kit.toml")
    path.symlink_to(far)
    assert save_profile(path, Profile(observer="Rui")) == far.with_name("kit.toml~")
    assert path.is_symlink()
    assert read_profile(far).observer == "Rui"
    assert kept_beside(path) == far.with_name("kit.toml~")


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="this system has no links")
def test_links_in_a_circle_are_refused_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "a.toml").symlink_to(tmp_path / "b.toml")
    (tmp_path / "b.toml").symlink_to(tmp_path / "a.toml")
    with pytest.raises(ProblemsError, match=r"^a.toml: cannot be read: "):
        read_profile(tmp_path / "a.toml")
    with pytest.raises(ProblemsError, match=r"^a.toml: cannot be saved: "):
        save_profile(tmp_path / "a.toml", Profile())


def test_another_name_of_a_file_keeps_the_old_text_and_is_noticed(path: Path, tmp_path: Path) -> None:
    assert not has_other_names(path)
    os.link(path, tmp_path / "other.toml")
    assert has_other_names(path)
    save_profile(path, Profile(observer="Rui"))
    assert (tmp_path / "other.toml").read_text(encoding="utf-8") == OLD


@pytest.mark.parametrize("name", [".", "..", "/", "", "x" * 300, "a/b", "null\0byte"])
def test_any_name_is_read_and_written_or_refused_in_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.chdir(tmp_path)
    for act in (read_profile, lambda path: save_profile(path, Profile())):
        with pytest.raises(ProblemsError) as caught:
            act(Path(name))
        (problem,) = caught.value.problems
        assert problem.where
        assert problem.what
    assert list(tmp_path.iterdir()) == []


@posix_only
def test_nobody_else_may_read_what_is_private_at_any_moment(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[int] = []
    flush = os.fsync

    def look(descriptor: int) -> None:
        found = os.fstat(descriptor)
        if stat.S_ISREG(found.st_mode):
            seen.append(stat.S_IMODE(found.st_mode))
        flush(descriptor)

    monkeypatch.setattr(os, "fsync", look)
    path.chmod(0o600)
    save_profile(path, Profile(observer="Rui"))
    write_atomically(path.with_name("draft.json"), "{}", is_private=True)
    assert set(seen) == {0o600}
    modes = {file.name: stat.S_IMODE(file.stat().st_mode) for file in path.parent.iterdir()}
    assert modes == {"kit.toml": 0o600, "kit.toml~": 0o600, "draft.json": 0o600}
    assert stat.S_IMODE(set_aside(path).stat().st_mode) == 0o600


def test_what_a_kill_left_half_written_is_swept_and_nothing_else(tmp_path: Path) -> None:
    others = {".0123456789ab.tmp", ".stillair-0123.tmp", "kit.toml", ".stillair-0123456789aa.tmp"}
    for name in {*others, ".stillair-0123456789ab.tmp"}:
        (tmp_path / name).write_text("half", encoding="utf-8")
        old = time.time() - 3600
        os.utime(tmp_path / name, (old, old))
    # Another window may just be writing this one.
    os.utime(tmp_path / ".stillair-0123456789aa.tmp")
    sweep(tmp_path)
    assert {file.name for file in tmp_path.iterdir()} == others
    sweep(tmp_path / "nowhere")
    sweep(tmp_path / ("x" * 300))
