"""A person with a question: a profile is written to a file, and the command is asked as they would ask."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from core.record.observer import Profile
from core.record.profile import dumps_profile
from gui.app import main

# Fixtures of the window, for what a person does there.
from tests.gui.conftest import (  # noqa: F401 - fixtures are found by name
    clock,
    make_shell,
    make_state,
    shell,
    state,
    state_folder,
    theme,
)

Ask = Callable[..., str]
AskJson = Callable[..., Any]


@pytest.fixture
def ask(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Ask:
    """Return a function that runs a command on a profile and returns its text with single spaces."""

    def run(profile: Profile, command: str, *words: str) -> str:
        path = tmp_path / "profile.toml"
        path.write_text(dumps_profile(profile), encoding="utf-8")
        assert main([command, str(path), *words]) == 0, capsys.readouterr().err
        return " ".join(capsys.readouterr().out.split())

    return run


@pytest.fixture
def ask_json(ask: Ask) -> AskJson:
    """Return a function that runs a command on a profile and returns its JSON."""

    def run(profile: Profile, command: str, *words: str) -> Any:  # noqa: ANN401 - any JSON
        return json.loads(ask(profile, command, *words, "--json"))

    return run
