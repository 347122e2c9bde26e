"""A name in any script shows letters; where no font has them, the window says once what to install."""

import re
from collections.abc import Callable
from pathlib import Path

import attrs
import pytest
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.record.profile import read_profile
from core.words.missing_letters import missing_letters_text
from gui.profile.session import SessionFile
from gui.state import AppState
from gui.widgets.theme import Theme
from gui.window import letters_watch
from gui.window.shell import Shell

ROOT = Path(__file__).resolve().parents[2]


class LatinOnly:
    """The measures of a system whose fonts have nothing but Latin, Greek and Cyrillic letters."""

    def __init__(self, _font: object) -> None:
        pass

    def inFontUcs4(self, code: int) -> bool:  # noqa: N802 - named by Qt
        return code < 0x530


@pytest.fixture
def latin_only(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(letters_watch, "QFontMetrics", LatinOnly)


@pytest.mark.usefixtures("latin_only")
def test_a_script_without_a_font_is_told_once_with_its_package(
    make_shell: Callable[..., Shell], state: AppState
) -> None:
    shell = make_shell(state)
    assert not shell.message_line.isVisible()
    state.edit_profile("Change the observer's name", attrs.evolve(state.profile, observer="はるか"))
    assert shell.message_line.text.text() == (
        "No font here has letters for Japanese, so boxes stand in their place (かはる). "
        "On Debian or Ubuntu the package fonts-noto-cjk brings one; elsewhere any font for Japanese does."
    )
    shell.message_line.dismiss.click()
    state.edit_profile("Change the observer's name", attrs.evolve(state.profile, observer="ゆき"))
    assert not shell.message_line.isVisible()
    state.edit_profile("Change the observer's name", attrs.evolve(state.profile, observer="Ελένη Ñ Ж"))
    assert not shell.message_line.isVisible()


@pytest.mark.usefixtures("latin_only")
def test_a_profile_that_is_opened_is_looked_at_after_what_else_is_said(
    make_shell: Callable[..., Shell], make_state: Callable[..., AppState]
) -> None:
    profile = read_profile(ROOT / "sample_profiles" / "first_refractor_japan.toml")
    shell = make_shell(make_state(profile), shown=False)
    shell.state.tell("Edits from the last time are back.")
    shell.show()
    QApplication.processEvents()
    assert shell.message_line.text.text() == "Edits from the last time are back."
    shell.message_line.dismiss.click()
    assert "fonts-noto-cjk" in shell.message_line.text.text()


@pytest.mark.usefixtures("latin_only")
def test_the_next_start_says_it_no_more(
    qtbot: QtBot, theme: Theme, make_state: Callable[..., AppState], state_folder: Path
) -> None:
    profile = read_profile(ROOT / "sample_profiles" / "first_refractor_japan.toml")

    def told_at_a_start() -> str:
        file = SessionFile(state_folder)
        shell = Shell(make_state(profile), theme, session=file.read()[0], session_file=file)
        qtbot.addWidget(shell)
        shell.show()
        QApplication.processEvents()
        return shell.message_line.text.text()

    assert "fonts-noto-cjk" in told_at_a_start()
    assert told_at_a_start() == ""


def test_several_scripts_name_several_packages() -> None:
    told = missing_letters_text("अก家🔭")
    for words in (
        "Devanagari, Thai, Chinese characters and small pictures",
        "fonts-noto-core, fonts-noto-cjk and",
    ):
        assert words in told


def test_the_samples_show_letters_with_what_the_checks_install(qapp: QApplication) -> None:
    """Skipped only where the packages of ``.ci/system-packages`` are not installed."""
    packages = (ROOT / ".ci" / "system-packages").read_text("utf-8")
    assert re.search(r"\bfonts-ipafont-gothic\b", packages)
    metrics = QFontMetrics(qapp.font())
    if not metrics.inFontUcs4(ord("は")):
        pytest.skip("no Japanese font is installed")
    for path in sorted((ROOT / "sample_profiles").glob("*.toml")):
        texts = letters_watch._texts(read_profile(path))
        missing = {letter for text in texts for letter in text if not metrics.inFontUcs4(ord(letter))}
        assert {letter for letter in missing if letter.isprintable()} == set(), path.name
