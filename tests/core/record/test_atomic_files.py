"""Saving: wholly or not at all, the text from before kept, nothing of the owner's lost."""

import errno
import os
import stat
import uuid
from pathlib import Path

import attrs
import pytest

from core.problems import ProblemsError
from core.record.files import previous_copy, read_text, same_file, set_aside, write_atomically
from core.record.observer import SCHEMA, Profile
from core.record.own_copies import OwnCopies
from core.record.profile import loads_profile, read_profile, save_profile

OWN_ID = "3f0c1f6e-8a54-4d0b-9d3c-5e2f7a61b0d4"
OLD = f'schema = {SCHEMA}\nid = "{OWN_ID}"\nobserver = "Ines" # me\n'


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "kit.toml"
    path.write_text(OLD, encoding="utf-8")
    return path


def names(folder: Path) -> list[str]:
    return sorted(entry.name for entry in folder.iterdir())


def test_a_save_keeps_the_text_from_before_beside_the_new_one(path: Path) -> None:
    assert save_profile(path, Profile(observer="Nobody")) == previous_copy(path)
    assert path.read_text(encoding="utf-8") == OLD.replace("Ines", "Nobody")
    assert previous_copy(path).read_text(encoding="utf-8") == OLD
    assert names(path.parent) == ["kit.toml", "kit.toml~"]


def test_a_save_without_a_change_does_not_push_the_older_text_out(path: Path) -> None:
    save_profile(path, Profile(observer="Nobody"))
    assert save_profile(path, read_profile(path)) is None
    assert previous_copy(path).read_text(encoding="utf-8") == OLD


def test_undo_after_a_save_gives_the_text_as_it_was_opened(path: Path) -> None:
    opened = loads_profile(OLD)
    save_profile(path, attrs.evolve(opened, observer=""), previous=OLD)
    save_profile(path, opened, previous=OLD)
    assert path.read_text(encoding="utf-8") == OLD


def test_a_new_file_is_written_where_there_was_none(tmp_path: Path) -> None:
    assert save_profile(tmp_path / "new.toml", Profile(observer="Ines")) is None
    assert read_profile(tmp_path / "new.toml").observer == "Ines"
    assert names(tmp_path) == ["new.toml"]


def test_a_profile_gets_its_id_at_the_first_save_and_keeps_it(tmp_path: Path) -> None:
    path = tmp_path / "new.toml"
    save_profile(path, Profile(observer="Ines"))
    own_id = read_profile(path).id
    assert str(uuid.UUID(own_id)) == own_id
    save_profile(path, Profile(observer="Ines M."))
    assert read_profile(path) == Profile(id=own_id, observer="Ines M.")
    save_profile(tmp_path / "other.toml", Profile(observer="Ines"))
    assert read_profile(tmp_path / "other.toml").id not in ("", own_id)


def test_a_file_of_schema_1_becomes_one_of_now_with_its_comments_when_saved(path: Path) -> None:
    path.write_text('# mine\nschema = 1 # old\nobserver = "Ines" # me\n', encoding="utf-8")
    save_profile(path, attrs.evolve(read_profile(path), id=OWN_ID))
    expected = f'# mine\nschema = {SCHEMA} # old\nid = "{OWN_ID}"\nobserver = "Ines" # me\n'
    assert path.read_text(encoding="utf-8") == expected


def test_line_ends_are_written_as_they_are(path: Path) -> None:
    path.write_bytes(OLD.replace("\n", "\r\n").encode())
    save_profile(path, Profile(observer="Nobody"))
    assert path.read_bytes() == OLD.replace("Ines", "Nobody").replace("\n", "\r\n").encode()


def test_a_byte_order_mark_stays(path: Path) -> None:
    path.write_bytes(b"\xef\xbb\xbf" + OLD.encode())
    opened = read_profile(path)
    save_profile(path, Profile(observer="Nobody"), previous=OLD)
    assert path.read_bytes() == b"\xef\xbb\xbf" + OLD.replace("Ines", "Nobody").encode()
    save_profile(path, opened, previous=OLD)
    assert path.read_bytes() == b"\xef\xbb\xbf" + OLD.encode()


@pytest.mark.parametrize(
    "bad", [b"", b"\0" * 100, OLD.encode()[:20], b"observer = 5", b"schema = 9", b"\xff"]
)
def test_a_file_that_cannot_be_read_is_set_aside_before_anything_is_written(path: Path, bad: bytes) -> None:
    save_profile(path, Profile(observer="Good"))
    path.write_bytes(bad)
    aside = path.parent / "kit.toml.unreadable"
    assert save_profile(path, Profile(observer="New")) == aside
    assert read_profile(path).observer == "New"
    assert aside.read_bytes() == bad
    assert previous_copy(path).read_text(encoding="utf-8") == OLD


def test_files_set_aside_never_take_each_others_place(path: Path) -> None:
    assert set_aside(path).name == "kit.toml.unreadable"
    assert set_aside(path).name == "kit.toml.unreadable2"
    with pytest.raises(ProblemsError, match=r"^none.toml: cannot be set aside: No such file"):
        set_aside(path.parent / "none.toml")


def test_a_failure_halfway_leaves_the_old_file_and_no_litter(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_descriptor: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(
        ProblemsError, match=r"^kit.toml: cannot be saved: No space left on device; nothing was"
    ):
        write_atomically(path, "new")
    assert path.read_text(encoding="utf-8") == OLD
    assert names(path.parent) == ["kit.toml"]


def test_new_content_takes_the_name_only_when_it_is_whole(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[str] = []
    replace = Path.replace

    def watched(source: Path, target: Path) -> Path:
        seen.append(f"{source.read_text()} over {target.read_text()}")
        assert source.parent == target.parent
        return replace(source, target)

    monkeypatch.setattr(Path, "replace", watched)
    write_atomically(path, "new")
    assert seen == [f"new over {OLD}"]


def test_a_folder_cannot_be_replaced(tmp_path: Path) -> None:
    (tmp_path / "kit").mkdir()
    with pytest.raises(ProblemsError, match=r"^kit: is not a regular file and cannot be replaced$"):
        write_atomically(tmp_path / "kit", "new")
    with pytest.raises(ProblemsError, match=r"^kit: is not a regular file"):
        save_profile(tmp_path / "kit", Profile())
    with pytest.raises(ProblemsError, match=r"cannot be saved: No such file or directory"):
        write_atomically(tmp_path / "nowhere" / "kit.toml", "new")


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="needs permissions that bind this user")
def test_a_folder_that_may_not_be_written_is_told(path: Path) -> None:
    path.parent.chmod(0o500)
    try:
        with pytest.raises(ProblemsError, match=r"^kit.toml: cannot be saved: Permission denied"):
            save_profile(path, Profile())
    finally:
        path.parent.chmod(0o700)


@pytest.mark.skipif(os.name != "posix", reason="permissions and links as on Unix")
def test_permissions_and_links_stay(path: Path) -> None:
    path.chmod(0o640)
    link = path.parent / "link.toml"
    link.symlink_to(path)
    save_profile(link, Profile(observer="Nobody"))
    assert link.is_symlink()
    assert read_profile(path).observer == "Nobody"
    assert [stat.S_IMODE(file.stat().st_mode) for file in (path, previous_copy(path))] == [0o640, 0o640]


def test_half_a_character_and_a_profile_too_large_to_open_again_are_refused(path: Path) -> None:
    with pytest.raises(
        ProblemsError, match=r"^kit.toml: cannot be saved: a text in it has half a character$"
    ):
        save_profile(path, Profile(observer="\ud800"))
    with pytest.raises(ProblemsError, match=r"^kit.toml: would be over 1 MB and could not be opened again$"):
        save_profile(path, Profile(observer="x" * 1_000_000))
    assert read_text(path) == OLD


def refuse_renames(monkeypatch: pytest.MonkeyPatch, *, times: int, onto: str) -> list[str]:
    """Let renames onto a name fail as on Windows while another program has the file open."""
    refused: list[str] = []
    rename = Path.replace

    def replace(self: Path, target: Path) -> Path:
        if target.name == onto and len(refused) < times:
            refused.append(target.name)
            raise PermissionError(errno.EACCES, "Permission denied")
        return rename(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    return refused


def test_a_file_held_for_a_moment_by_another_program_is_saved(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    refused = refuse_renames(monkeypatch, times=3, onto="kit.toml")
    assert save_profile(path, Profile(observer="Nobody")) == previous_copy(path)
    assert len(refused) == 3
    assert read_profile(path).observer == "Nobody"
    assert names(path.parent) == ["kit.toml", "kit.toml~"]


def test_a_file_that_stays_held_is_left_with_the_copy_from_before_and_nothing_beside(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    previous_copy(path).write_text("older", encoding="utf-8")
    refuse_renames(monkeypatch, times=100, onto="kit.toml")
    with pytest.raises(ProblemsError, match=r"^kit.toml: cannot be saved: Permission denied; nothing was"):
        save_profile(path, Profile(observer="Nobody"))
    assert path.read_text(encoding="utf-8") == OLD
    assert previous_copy(path).read_text(encoding="utf-8") == "older"
    assert names(path.parent) == ["kit.toml", "kit.toml~"]


def test_a_held_copy_from_before_does_not_keep_the_save_from_being_one(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    previous_copy(path).write_text(OLD.replace("Ines", "Ana"), encoding="utf-8")
    own_copies = OwnCopies(path.with_name("copies.json"))
    own_copies.note(previous_copy(path))
    refuse_renames(monkeypatch, times=100, onto="kit.toml~")
    assert save_profile(path, Profile(observer="Nobody"), own_copies=own_copies) is None
    assert read_profile(path).observer == "Nobody"
    assert names(path.parent) == ["copies.json", "kit.toml", "kit.toml~"]


def test_a_read_only_file_is_refused_and_nothing_is_left_beside_it(path: Path) -> None:
    path.chmod(0o444)
    with pytest.raises(ProblemsError, match=r"^kit.toml: is read-only; nothing was changed$"):
        save_profile(path, Profile(observer="Nobody"))
    assert path.read_text(encoding="utf-8") == OLD
    assert names(path.parent) == ["kit.toml"]


def test_one_file_is_known_under_any_spelling(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    link = path.with_name("link.toml")
    link.symlink_to(path)
    assert same_file(path, link)
    assert same_file(path, path.parent / "." / "kit.toml")
    assert not same_file(path, path.with_name("other.toml"))
    stat_of = Path.stat
    # A disk that takes capitals and small letters as one.
    monkeypatch.setattr(Path, "stat", lambda self, **more: stat_of(self.with_name(self.name.lower()), **more))
    assert same_file(path, path.with_name("KIT.toml"))
