"""What a profile file may hold, and what each bad one is told."""

from datetime import date
from pathlib import Path

import pytest

from core.gear.owned import Diagonal, TelescopeKind
from core.record.observer import LengthUnit, TemperatureUnit
from core.record.profile import loads_profile, read_profile
from tests.core.record.told import EYEPIECE, told

WHOLE = """
schema = 1
observer = "Ines"

[eye]
pupil_mm = 6.5
glasses = true

[preferences]
length = "in"
temperature = "f"
clock = 12

[red_spot]
longitude_deg = 70
on = 2026-11-01

[[sites]]
id = "terrace"
name = "Back terrace"
latitude_deg = 41.15
longitude_deg = 351.39
time_zone = "Europe/Lisbon"
[[sites.blocked]]
azimuth_from_deg = 350
azimuth_to_deg = 20
below_altitude_deg = 28
what = "roof ridge"
heated = true
[[sites.warm_air]]
azimuth_from_deg = 205
azimuth_to_deg = 215
below_altitude_deg = 50
what = "chimney"

[[telescopes]]
id = "six"
name = "Six-inch reflector"
kind = "reflector"
aperture_mm = 150
focal_length_mm = 1200
diagonal = "erect"
collimated_on = 2026-11-01

[[telescopes]]
name = "Spotting scope"
kind = "fixed"
aperture_mm = 80
power_min = 20
power_max = 60

[[eyepieces]]
name = "8-24 mm"
focal_length_min_mm = 8
focal_length_max_mm = 24

[[barlows]]
name = "2x"
factor = 2

[[filters]]
name = "Light blue"
wratten = "82A"
"""
SITE = '[[sites]]\nname = "Here"\nlatitude_deg = 41\nlongitude_deg = -8\ntime_zone = "Europe/Lisbon"\n'
SCOPE = '[[telescopes]]\nname = "Six"\nkind = "reflector"\naperture_mm = 150\nfocal_length_mm = 1200\n'


def test_every_part_of_a_profile_arrives_with_its_type() -> None:
    profile = loads_profile(WHOLE)
    assert profile.observer == "Ines"
    assert (profile.eye.pupil_mm, profile.eye.glasses, profile.eye.astigmatism) == (6.5, True, False)
    assert profile.preferences.length is LengthUnit.INCH
    assert profile.preferences.temperature is TemperatureUnit.FAHRENHEIT
    assert profile.preferences.clock == 12
    assert profile.red_spot is not None
    assert (profile.red_spot.longitude_deg, profile.red_spot.on) == (70.0, date(2026, 11, 1))
    site = profile.sites[0]
    assert site.longitude_deg == pytest.approx(-8.61)  # given from 0 to 360
    assert (site.elevation_m, site.blocked[0].heated, site.warm_air[0].what) == (0.0, True, "chimney")
    six, spotter = profile.telescopes
    assert (six.kind, six.diagonal) == (TelescopeKind.REFLECTOR, Diagonal.ERECT)
    assert isinstance(six.aperture_mm, float)
    assert (six.barrel_mm, six.closed_tube, six.obstruction_mm) == (31.75, None, None)
    assert (spotter.power_min, spotter.power_max) == (20.0, 60.0)
    assert profile.eyepieces[0].is_zoom
    assert profile.filters[0].wratten == "82A"


def test_a_profile_just_begun_has_nothing_but_a_schema() -> None:
    profile = loads_profile("schema = 1")
    assert (profile.sites, profile.telescopes, profile.eye.pupil_mm) == ((), (), 7.0)


def test_a_byte_order_mark_and_windows_line_ends_are_taken(tmp_path: Path) -> None:
    path = tmp_path / "kit.toml"
    path.write_bytes(b"\xef\xbb\xbf" + WHOLE.replace("\n", "\r\n").encode())
    assert read_profile(path) == loads_profile(WHOLE)


def test_everything_wrong_is_told_at_once() -> None:
    text = """
schema = 1
observer = 5
[eye]
pupil = 7
[[telescopes]]
name = "Big"
kind = "reflecter"
aperture_mm = -3
focal_length_mm = nan
fan = 1
[[telescopes]]
name = "Big"
kind = "refractor"
aperture_mm = true
collimated_on = 2026-11-01T00:00:00
[[sites]]
name = "Roof"
latitude_deg = 95
longitude_deg = "12"
time_zone = "Asia/Beijing"
[[sites.blocked]]
azimuth_from_deg = inf
azimuth_to_deg = 20
below_altitude_deg = 10
what = "tree"
"""
    zone = "must be the name of an IANA time zone, not 'Asia/Beijing'; did you mean Asia/Shanghai?"
    kinds = "refractor, reflector, catadioptric, fixed"
    assert set(told(text)) == {
        "observer: must be text in quotes, not 5",
        "eye.pupil: is not a known key; did you mean pupil_mm?",
        f'telescopes[1] "Big".kind: must be one of {kinds}, not "reflecter"; did you mean reflector?',
        'telescopes[1] "Big".aperture_mm: must be from 20 to 2000 mm, not -3',
        'telescopes[1] "Big".focal_length_mm: must be a number from 50 to 20000 mm, not nan',
        'telescopes[1] "Big".fan: must be true or false, not 1',
        'telescopes[2] "Big".aperture_mm: must be a number from 20 to 2000 mm, not True',
        'telescopes[2] "Big".collimated_on: must be a date such as 2026-11-01, not 2026-11-01 00:00:00',
        'telescopes[2] "Big".name: is the name of telescopes[1] already; each needs its own',
        'sites[1] "Roof".latitude_deg: must be from -90 to 90 degrees, not 95',
        "sites[1] \"Roof\".longitude_deg: must be a number from -180 to 180 degrees, not '12'",
        f'sites[1] "Roof".time_zone: {zone}',
        'sites[1] "Roof".blocked[1] "tree".azimuth_from_deg: must be a number from 0 to 360 degrees, not inf',
    }


@pytest.mark.parametrize(
    ("zone", "meant"),
    [
        ("IST", "Asia/Kolkata"),
        ("Asia/Beijing", "Asia/Shanghai"),
        ("europe/lisbon", "Europe/Lisbon"),
        ("Lisbon", "Europe/Lisbon"),
        ("Europe/Lisboa", "Europe/Lisbon"),
    ],
)
def test_a_zone_that_does_not_exist_is_refused_with_the_right_name(zone: str, meant: str) -> None:
    (problem,) = told("schema = 1\n" + SITE.replace("Europe/Lisbon", zone))
    assert problem.startswith('sites[1] "Here".time_zone: must be the name of an IANA time zone')
    assert problem.endswith(f"did you mean {meant}?")


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        (
            "telescopes = 3",
            "telescopes: must be a list, each of its things under a header in double brackets",
        ),
        ("[telescopes]", "telescopes: must be a list, each of its things under a header in double brackets"),
        ("eye = 7", "eye: must be a table, not 7"),
        ("eyepieces = [7]", "eyepieces[1]: must be a table, not 7"),
        ("[preferences]\nclock = 12.5", "preferences.clock: must be a whole number, not 12.5"),
        ("[preferences]\nclock = 13", "preferences.clock: must be one of 12, 24, not 13"),
        ("[preferences]\nclock = true", "preferences.clock: must be a whole number, not true"),
        ("[red_spot]\nlongitude_deg = 5", "red_spot.on: is missing; it must be a date such as 2026-11-01"),
        (
            SCOPE.replace("aperture_mm = 150\n", ""),
            'telescopes[1] "Six".aperture_mm: is missing; it must be a number from 20 to 2000 mm',
        ),
        (
            SCOPE.replace("focal_length_mm = 1200\n", ""),
            'telescopes[1] "Six": needs focal_length_mm, from 50 to ',
        ),
        (
            SCOPE.replace("1200", "1" + "0" * 400),
            'telescopes[1] "Six".focal_length_mm: must be a number from 50 to 20000 mm',
        ),
        (
            EYEPIECE.replace('"Ten"', '"  "'),
            'eyepieces[1] "  ".name: must have at least one visible character',
        ),
        (
            EYEPIECE.replace("focal_length_mm", "focal_lenght_mm"),
            'eyepieces[1] "Ten".focal_lenght_mm: is not a known key; did you mean focal_length_mm?',
        ),
        (
            EYEPIECE + 'id = "a"\n' + EYEPIECE.replace("Ten", "Six") + 'id = "a"',
            'eyepieces[2] "Six".id: is the id',
        ),
        (EYEPIECE * 1001, "eyepieces: must be at most 1000 things, not 1001"),
    ],
)
def test_one_thing_wrong_is_told_in_one_sentence(text: str, problem: str) -> None:
    (sentence,) = told("schema = 1\n" + text)
    assert sentence.startswith(problem)


def test_names_are_the_same_however_the_accent_was_typed() -> None:
    composed, decomposed = "Caf\u00e9", "Cafe\u0301"
    text = EYEPIECE.replace("Ten", composed) + EYEPIECE.replace("Ten", decomposed)
    (sentence,) = told("schema = 1\n" + text)
    assert sentence.endswith(".name: is the name of eyepieces[1] already; each needs its own")


def test_what_is_told_never_carries_control_characters_or_pages_of_text() -> None:
    text = (
        'schema = 1\n"\\u001b[2Jkey" = 1\n'
        + SITE.replace("Here", "\\u001b[31mred\\u0007").replace("Europe/Lisbon", "x" * 10_000 + "\\u001b")
        + SCOPE.replace('"reflector"', '"\\u001b]0;title\\u0007"')
    )
    sentences = told(text)
    assert len(sentences) == 3
    assert all(character.isprintable() for sentence in sentences for character in sentence)
    assert max(len(sentence) for sentence in sentences) < 400


def test_a_file_wrong_in_a_thousand_ways_tells_a_hundred_and_how_many_more() -> None:
    sentences = told("schema = 1\n" + "".join(f"key_{n} = 1\n" for n in range(1000)))
    assert len(sentences) == 101
    assert sentences[-1] == "and 900 more of the kind"
