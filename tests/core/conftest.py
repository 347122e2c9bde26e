"""What the tests of the commands begin with."""

from pathlib import Path

import pytest

from tests.core.commands_by_hand import PROFILE


@pytest.fixture
def profile(tmp_path: Path) -> str:
    """Return the path of a profile file for the commands."""
    path = tmp_path / "noa.toml"
    path.write_text(PROFILE, encoding="utf-8")
    return str(path)
