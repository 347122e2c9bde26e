"""The longer texts of the Help menu."""

from pathlib import Path

from core.words.controls import LIBRARY
from core.words.help_pages import ABOUT
from gui.versions import notices, versions


def about_text(report: Path) -> str:
    """Return what the program is, whose work it rests on, and where the report of an error would lie."""
    numbers = "\n".join(LIBRARY.format(name=name, version=number) for name, number in versions())
    return ABOUT.format(report=report, versions=numbers) + notices()
