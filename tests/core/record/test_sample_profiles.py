"""The profiles that come with the program: read without a fault, and different enough to show the kinds."""

import re
from importlib import resources
from pathlib import Path

import pytest

from core.gear.owned import TelescopeKind
from core.record.observer import SCHEMA, LengthUnit, Profile
from core.record.profile import dumps_profile, loads_profile, read_profile

PATHS = sorted(
    Path(str(entry)) for entry in resources.files("sample_profiles").iterdir() if entry.name.endswith(".toml")
)


@pytest.fixture(scope="module")
def samples() -> list[Profile]:
    return [read_profile(path) for path in PATHS]


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_a_sample_is_kept_to_the_byte_and_has_ids_for_all(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    profile = loads_profile(text)
    # A newer schema than the sample's gives it another number, and nothing else.
    of_now = re.sub(r"(?m)^schema = \d+", f"schema = {SCHEMA}", text, count=1)
    assert dumps_profile(profile, previous=text) == of_now
    assert profile.sites
    assert profile.telescopes


def test_the_samples_show_the_kinds_of_observers(samples: list[Profile]) -> None:
    assert len(samples) >= 3
    sites = [site for profile in samples for site in profile.sites]
    assert any(site.latitude_deg < 0 for site in sites)
    assert any(site.blocked and site.warm_air for site in sites)
    assert any(len(profile.telescopes) > 1 for profile in samples)
    assert {profile.preferences.clock for profile in samples} == {12, 24}
    assert any(profile.preferences.length is LengthUnit.INCH for profile in samples)
    assert any(
        scope.kind is TelescopeKind.REFRACTOR and 60 <= scope.aperture_mm <= 80 and scope.barrel_mm == 24.5
        for profile in samples
        for scope in profile.telescopes
    )
