"""Which schema a profile file may have, what an older one becomes, and the keys that the second brought."""

from datetime import time

import pytest

from core.air.first_look import FirstLook
from core.gear.owned import Stand
from core.record import migrations
from core.record import profile as profile_module
from core.record.observer import SCHEMA
from core.record.profile import loads_profile
from core.sky.bodies import FACTS, TARGETS, Body
from tests.core.record.told import EYEPIECE, told


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("a = 1", "schema: is missing; it must be {now}, the number of this form of file"),
        ("schema = true", "schema: must be {now}, the number of this form of file"),
        ("schema = 0", "schema: must be {now}, the number of this form of file"),
        ('schema = "1"', "schema: must be {now}, the number of this form of file"),
        ("schema = 99\nnew = 1", "schema: is of a newer Stillair than this one, which reads schema {now}"),
    ],
)
def test_the_schema_number_decides_who_can_read(text: str, problem: str) -> None:
    assert told(text)[0] == problem.format(now=SCHEMA)


def test_an_older_schema_is_brought_up_step_by_step(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(profile_module, "SCHEMA", 3)
    monkeypatch.setattr(migrations, "SCHEMA", 3)
    monkeypatch.setattr(
        migrations,
        "MIGRATIONS",
        {
            1: lambda old: {"observer": old["who"]},
            2: lambda old: {"observer": old["observer"] + "!"},
        },
    )
    assert loads_profile('schema = 1\nwho = "Ines"').observer == "Ines!"
    assert loads_profile('schema = 3\nobserver = "Ines"').observer == "Ines"


def test_ids_are_made_from_names_in_any_script_and_keep_clear_of_those_given() -> None:
    text = "schema = 1\n" + "".join(
        EYEPIECE.replace("Ten", name) for name in ("25 mm", "25-mm!", "१० मिमी", "Καλό", "★")
    )
    text += EYEPIECE.replace("Ten", "own") + 'id = "25-mm"\n'
    assert [thing.id for thing in loads_profile(text).eyepieces] == [
        "25-mm-2",
        "25-mm-3",
        "१०-मिमी",
        "καλό",
        "eyepiece",
        "25-mm",
    ]


SCHEMA_2 = """\
schema = 2
id = "3f0c1f6e-8a54-4d0b-9d3c-5e2f7a61b0d4"

[preferences]
out_from = "19:30"
out_until = "01:15"

[air]
steady_arcsec = 1
fair_arcsec = 1.8
boiling_arcsec = 4

[dark]
venus_deg = -6
moon_deg = -3

[[telescopes]]
name = "Six-inch"
kind = "reflector"
aperture_mm = 150
focal_length_mm = 1200
mirror_thickness_mm = 25
mask_mm = 80
binoviewer_factor = 1.7
settles_s = 3
stands_on = "deck"
"""


def test_the_keys_of_schema_2_are_read() -> None:
    profile = loads_profile(SCHEMA_2)
    assert profile.id == "3f0c1f6e-8a54-4d0b-9d3c-5e2f7a61b0d4"
    assert (profile.preferences.out_from_time, profile.preferences.out_until_time) == (
        time(19, 30),
        time(1, 15),
    )
    assert [profile.air.arcsec_of(look) for look in FirstLook] == [1.0, 1.8, 4.0]
    assert profile.dark.sun_altitude_deg_of(Body.VENUS) == -6.0
    assert profile.dark.sun_altitude_deg_of(Body.NEPTUNE) == -12.0
    (six,) = profile.telescopes
    assert (six.mirror_thickness_mm, six.mask_mm, six.binoviewer_factor, six.settles_s) == (25, 80, 1.7, 3)
    assert six.stands_on is Stand.DECK


def test_keys_of_schema_2_left_out_take_their_usual_values() -> None:
    profile = loads_profile("schema = 2")
    assert (profile.id, profile.preferences.out_from, profile.preferences.out_until) == ("", "dusk", "23:30")
    assert (profile.preferences.out_from_time, profile.preferences.out_until_time) == (None, time(23, 30))
    assert [profile.air.arcsec_of(look) for look in FirstLook] == [0.8, 1.45, 3.0]
    dark = {body: profile.dark.sun_altitude_deg_of(body) for body in TARGETS}
    assert dark == {body: FACTS[body].dark_enough_sun_altitude_deg for body in TARGETS}


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ('id = "3f0c1f6e-', 'id = "3f0c', "id: must be a UUID such as "),
        ('"19:30"', '"24:00"', 'preferences.out_from: must be "dusk" or a time from "00:00" to "23:59"'),
        ('"19:30"', '"7:30"', 'preferences.out_from: must be "dusk" or a time from "00:00" to "23:59"'),
        ('"19:30"', '"dawn"', 'preferences.out_from: must be "dusk" or a time'),
        ('"19:30"', "19:30:00", "preferences.out_from: must be text in quotes, not 19:30:00"),
        ('"01:15"', '"dusk"', 'preferences.out_until: must be "dawn" or a time'),
        ('"01:15"', '"19:30"', "preferences: out_until must be after out_from"),
        ('"01:15"', '"18:00"', "preferences: out_until must be after out_from"),
        ("steady_arcsec = 1", "steady_arcsec = 0.1", "air.steady_arcsec: must be from 0.2 to 8 arcsec"),
        ("boiling_arcsec = 4", "boiling_arcsec = 8.1", "air.boiling_arcsec: must be from 0.2 to 8 arcsec"),
        ("fair_arcsec = 1.8", "fair_arcsec = 1", "air: steady_arcsec must be less than fair_arcsec"),
        ("fair_arcsec = 1.8", "fair_arcsec = 4", "air: steady_arcsec must be less than fair_arcsec"),
        ("venus_deg = -6", "venus_deg = 0", "dark.venus_deg: must be from -18 to -0.833 degrees, not 0"),
        ("venus_deg", "venuss_deg", "dark.venuss_deg: is not a known key; did you mean venus_deg?"),
        ("mask_mm = 80", "mask_mm = 150", "mask_mm must be less than the aperture, 150 mm"),
        ("_mm = 25", "_mm = 2", "mirror_thickness_mm: must be from 3 to 200 mm, not 2"),
        ("factor = 1.7", "factor = 0.9", "binoviewer_factor: must be from 1 to 4 x, not 0.9"),
        ("settles_s = 3", "settles_s = 61", "settles_s: must be from 0.1 to 60 seconds, not 61"),
        ('"deck"', '"dek"', 'must be one of ground, deck, balcony, not "dek"; did you mean deck?'),
    ],
)
def test_what_is_wrong_with_a_key_of_schema_2_is_told_in_one_sentence(
    old: str, new: str, problem: str
) -> None:
    assert old in SCHEMA_2
    (sentence,) = told(SCHEMA_2.replace(old, new))
    assert problem in sentence
