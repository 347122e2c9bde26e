"""What the window remembers between two starts, whatever became of its file."""

import json
from pathlib import Path

import pytest

from core.record.observer import Profile
from gui.profile.drafts import used_places
from gui.profile.session import Session, SessionFile
from gui.window.start import _first_profile


def test_a_session_is_read_back(state_folder: Path) -> None:
    session = Session(
        palette="night",
        text_scale=1.3,
        recent=("/a.toml",),
        site="x",
        scope="y",
        place="AdnQ",
        dimmer=1,
        tour_step=3,
        tour_is_done=True,
    )
    SessionFile(state_folder).write(session)
    assert SessionFile(state_folder).read() == (session, "")


@pytest.mark.parametrize(
    "content",
    [b"", bytes(300), b'{"palette": "ni', b"[1, 2]", b"\xff\xfe{", b"[" * 5000],
    ids=lambda content: ascii(content[:16]),
)
def test_a_damaged_session_is_set_aside_and_told_once(state_folder: Path, content: bytes) -> None:
    state_folder.mkdir(parents=True)
    path = state_folder / "session.json"
    path.write_bytes(content)
    session, sentence = SessionFile(state_folder).read()
    assert session == Session()
    assert "could not be read" in sentence
    (aside,) = (entry for entry in state_folder.iterdir() if entry != path)
    assert aside.read_bytes() == content


def test_single_values_that_make_no_sense_fall_back_alone(state_folder: Path) -> None:
    state_folder.mkdir(parents=True)
    strange = {"palette": "pink", "text_scale": True, "recent": ["a", 3, ""], "view": 9, "site": 4, "new": 1}
    (state_folder / "session.json").write_text(json.dumps(strange), "utf-8")
    assert SessionFile(state_folder).read() == (Session(recent=("a",)), "")


def test_the_window_starts_with_the_last_profile_or_says_why_not(
    profile_file: Path, tmp_path: Path, state_folder: Path
) -> None:
    session = Session().with_opened(profile_file)
    profile, path, trouble = _first_profile(None, session, used_places(state_folder))
    assert (profile.observer, path, trouble) == ("Ines", profile_file, "")
    gone = Session().with_opened(tmp_path / "gone.toml")
    profile, path, trouble = _first_profile(None, gone, used_places(state_folder))
    assert (profile, path) == (Profile(), None)
    assert "gone.toml" in trouble
