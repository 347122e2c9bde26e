"""Which versions of the program and of what it is made of are running."""

import platform
from importlib import resources
from importlib.metadata import PackageNotFoundError, version
from typing import Final

from core.plain_text import fitted
from core.words.commands import VERSION
from core.words.controls import LIBRARY

PROGRAM: Final = "stillair"
_MADE_OF: Final = (
    "PySide6-Essentials",
    "skyfield",
    "skyfield-data",
    "astronomy-engine",
    "numpy",
    "matplotlib",
    "attrs",
    "cattrs",
    "tomlkit",
    "tzdata",
    "tzfpy",
    "platformdirs",
)


def own_version() -> str:
    """Return the version of the program, or that it is not installed."""
    return _version(PROGRAM)


def versions() -> tuple[tuple[str, str], ...]:
    """Return names and versions: the program, the system, Python, and the packages; nothing of the person."""
    return (
        (PROGRAM, own_version()),
        ("system", f"{platform.system()} {platform.release()} {platform.machine()}"),
        ("Python", platform.python_version()),
        *((name, _version(name)) for name in _MADE_OF),
    )


def notices() -> str:
    """Return whose work the program rests on, and under which licences."""
    return resources.files("resources").joinpath("licences", "notices.txt").read_text("utf-8")


def versions_text(width: int) -> str:
    """Return the program's version alone on the first line, then those of its parts, and the notices."""
    lines = [LIBRARY.format(name=name, version=number) for name, number in versions()[1:]]
    told = (VERSION.format(program=PROGRAM, version=own_version()), "", *lines, "", *notices().splitlines())
    return "\n".join(part for line in told for part in fitted(line, width))


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "(not installed)"
