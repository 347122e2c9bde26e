"""Whether a window can open is known before Qt is asked, and what is missing is named."""

import importlib
import os
import socket
import sys
from pathlib import Path

import pytest

from gui import display
from gui.display import NoWindowError, check_qt, check_window

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="displays are looked for on Linux only")


class Libraries:
    """A system that has every library but some."""

    def __init__(self, *missing: str) -> None:
        self.missing = missing

    def __call__(self, name: str) -> object:
        if name in self.missing:
            raise OSError(f"{name}: cannot open shared object file: No such file or directory")
        return None


def test_missing_libraries_are_named_with_their_packages() -> None:
    load = Libraries("libxcb-cursor.so.0", "libxkbcommon-x11.so.0")

    with pytest.raises(NoWindowError) as caught:
        check_window({"DISPLAY": ":0"}, load=load)

    sentence = str(caught.value)
    assert "the system lacks libxcb-cursor.so.0, libxkbcommon-x11.so.0" in sentence
    assert "install libxcb-cursor0 libxkbcommon-x11-0" in sentence
    assert "stillair heights PROFILE" in sentence


def test_qt_s_own_libraries_are_named_too(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(name: str) -> object:
        raise ImportError("libEGL.so.1: cannot open shared object file: No such file or directory")

    monkeypatch.setattr(importlib, "import_module", fail)

    with pytest.raises(NoWindowError, match=r"lacks libEGL\.so\.1; on Debian or Ubuntu install libegl1"):
        check_qt(load=Libraries("libEGL.so.1"))


def test_qt_that_does_not_load_for_another_reason_gives_that_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(name: str) -> object:
        raise ImportError("No module named 'PySide6'")

    monkeypatch.setattr(importlib, "import_module", fail)

    with pytest.raises(NoWindowError, match=r"Qt does not load \(No module named 'PySide6'\)"):
        check_qt(load=Libraries())


@pytest.mark.parametrize("platform", ["offscreen", "minimal", "minimal:enable_fonts", "xcb;offscreen"])
def test_a_platform_that_needs_no_display_is_enough(platform: str) -> None:
    with pytest.raises(NoWindowError):
        check_window({}, load=Libraries())

    check_window({"QT_QPA_PLATFORM": platform}, load=Libraries())


def test_a_compositor_that_does_not_answer_is_told(tmp_path: os.PathLike[str]) -> None:
    environ = {"WAYLAND_DISPLAY": "wayland-7", "XDG_RUNTIME_DIR": str(tmp_path)}

    with pytest.raises(NoWindowError, match="the display 'wayland-7' does not answer"):
        check_window(environ, load=Libraries())


@pytest.mark.parametrize("plugins", [("libqwayland-egl.so", "libqwayland-generic.so"), ("libqwayland.so",)])
def test_a_wayland_session_is_enough_for_older_and_newer_qt(
    plugins: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The names of the plugins in Qt for Python 6.8 and 6.10.
    for name in plugins:
        (tmp_path / name).touch()
    monkeypatch.setattr(display, "_plugin_folder", lambda: tmp_path)
    compositor = socket.socket(socket.AF_UNIX)
    compositor.bind(str(tmp_path / "wayland-7"))
    compositor.listen()
    environ = {"WAYLAND_DISPLAY": "wayland-7", "XDG_RUNTIME_DIR": str(tmp_path)}

    check_window(environ, load=Libraries())

    compositor.close()


def test_one_display_that_answers_is_enough() -> None:
    server = os.environ.get("DISPLAY")
    if not server:
        pytest.skip("there is no X server here")

    with pytest.raises(NoWindowError):
        check_window({"WAYLAND_DISPLAY": "wayland-none"})

    check_window({"DISPLAY": server, "WAYLAND_DISPLAY": "wayland-none"})
