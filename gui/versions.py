"""Which versions of the program and of what it is made of are running."""

import platform
from importlib.metadata import PackageNotFoundError, version
from typing import Final

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


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "(not installed)"
