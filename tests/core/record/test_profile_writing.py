"""What a saved profile looks like: only what was changed differs."""

import difflib
import itertools
import tomllib
from datetime import date

import attrs
import pytest
from hypothesis import HealthCheck, given, settings

from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.problems import ProblemsError
from core.record.observer import SCHEMA, Profile, RedSpot
from core.record.profile import dumps_profile, loads_profile, with_ids, without_exact_place
from core.sky.site import BlockedSky
from tests.core.record.strategies import profiles

KEPT = f"""\
# kit of the house
schema = {SCHEMA}
observer = "Ines"            # free text

[eye]
pupil_mm   =   6.50   # measured

# --- places ---

# the one with the view
[[sites]]
id = "terrace"
name = "Back terrace"
latitude_deg = 41.15         # north
longitude_deg = 351.39
time_zone = 'Europe/Lisbon'
[[sites.blocked]]
azimuth_from_deg = 190
azimuth_to_deg = 230
below_altitude_deg = 28.0
what = "roof ridge"
[[sites.warm_air]]
azimuth_from_deg = 205
azimuth_to_deg = 215
below_altitude_deg = 50

# --- telescopes ---

# grandfather's
[[telescopes]]
id = "six"
name = "Six-inch"
kind = "reflector"
aperture_mm = 1.5e2
focal_length_mm = 1_200
notes = '''
[[not a header]] # not a comment
'''
# and still good

[[telescopes]]
id = "small"
name = "Small"
kind = "refractor"
aperture_mm = 70
focal_length_mm = 700
collimated_on = 2026-11-01

[[eyepieces]]
id = "e25"
name = "25 mm"
focal_length_mm = 25
"""


@pytest.fixture
def profile() -> Profile:
    return loads_profile(KEPT)


def changed_lines(text: str) -> list[str]:
    """Return the lines by which a text differs from the one kept, signs in front."""
    lines = difflib.unified_diff(KEPT.splitlines(), text.splitlines(), lineterm="", n=0)
    return [line for line in itertools.islice(lines, 2, None) if not line.startswith("@@")]


def test_without_an_edit_every_byte_stays(profile: Profile) -> None:
    assert dumps_profile(profile, previous=KEPT) == KEPT
    windows = "\ufeff" + KEPT.replace("\n", "\r\n")
    assert dumps_profile(profile, previous=windows) == windows
    mixed = KEPT.replace("\n", "\r\n", 5)
    assert dumps_profile(profile, previous=mixed) == mixed


def test_a_text_of_schema_1_only_gets_another_number(profile: Profile) -> None:
    older = KEPT.replace(f"schema = {SCHEMA}", "schema = 1")
    assert loads_profile(older) == profile
    assert dumps_profile(profile, previous=older) == KEPT


def test_one_figure_changed_is_one_line_changed_and_its_comment_stays(profile: Profile) -> None:
    edited = attrs.evolve(profile, eye=attrs.evolve(profile.eye, pupil_mm=6.0))
    assert changed_lines(dumps_profile(edited, previous=KEPT)) == [
        "-pupil_mm   =   6.50   # measured",
        "+pupil_mm   =   6   # measured",
    ]


def test_undoing_an_edit_gives_the_same_text_back(profile: Profile) -> None:
    six, small = profile.telescopes
    edited = attrs.evolve(profile, telescopes=(attrs.evolve(six, aperture_mm=152.4),), observer="Nobody")
    assert dumps_profile(edited, previous=KEPT) != KEPT
    undone = attrs.evolve(edited, telescopes=(six, small), observer="Ines")
    assert dumps_profile(undone, previous=KEPT) == KEPT


def test_new_keys_stand_where_they_usually_do_and_defaults_are_not_written(profile: Profile) -> None:
    six, small = profile.telescopes
    edited = attrs.evolve(
        profile, telescopes=(attrs.evolve(six, obstruction_mm=35, diagonal=six.diagonal, fan=True), small)
    )
    text = dumps_profile(edited, previous=KEPT)
    assert changed_lines(text) == ["+obstruction_mm = 35", "+fan = true"]
    assert "focal_length_mm = 1_200\nobstruction_mm = 35\nfan = true\nnotes = '''" in text


def test_a_default_that_was_written_stays_written_and_nothing_is_taken_out(profile: Profile) -> None:
    edited = attrs.evolve(profile, eye=attrs.evolve(profile.eye, pupil_mm=7.0))
    assert "pupil_mm   =   7   # measured" in dumps_profile(edited, previous=KEPT)
    small = attrs.evolve(profile.telescopes[1], collimated_on=None)
    edited = attrs.evolve(profile, telescopes=(profile.telescopes[0], small))
    assert changed_lines(dumps_profile(edited, previous=KEPT)) == ["-collimated_on = 2026-11-01"]


def test_a_removed_thing_takes_only_its_own_comments_with_it(profile: Profile) -> None:
    text = dumps_profile(attrs.evolve(profile, telescopes=profile.telescopes[1:]), previous=KEPT)
    assert "grandfather" not in text
    assert "still good" not in text
    assert '# --- telescopes ---\n\n[[telescopes]]\nid = "small"' in text
    assert "\n\n\n" not in text
    none_left = dumps_profile(attrs.evolve(profile, telescopes=()), previous=KEPT)
    assert "# --- telescopes ---" in none_left
    assert loads_profile(none_left).telescopes == ()


def test_things_in_a_new_order_carry_their_comments_along(profile: Profile) -> None:
    six, small = profile.telescopes
    text = dumps_profile(attrs.evolve(profile, telescopes=(small, six)), previous=KEPT)
    assert (
        text.index("# --- telescopes ---")
        < text.index('"Small"')
        < text.index("# grandfather's\n[[telescopes]]")
    )
    assert sorted(text.splitlines()) == sorted(KEPT.splitlines())


def test_new_things_stand_after_those_of_their_kind_or_where_their_kind_belongs(profile: Profile) -> None:
    edited = attrs.evolve(
        profile,
        red_spot=RedSpot(longitude_deg=70, on=date(2026, 11, 1)),
        telescopes=(
            *profile.telescopes,
            Telescope(name="Spotter", kind=TelescopeKind.FIXED, aperture_mm=80, power=25),
        ),
        barlows=(Barlow(name="2x", factor=2),),
    )
    text = dumps_profile(edited, previous=KEPT)
    headers = [line for line in text.splitlines() if line.startswith("[") and "not a" not in line]
    assert headers == [
        *("[eye]", "[red_spot]", "[[sites]]", "[[sites.blocked]]", "[[sites.warm_air]]"),
        *("[[telescopes]]", "[[telescopes]]", "[[telescopes]]", "[[eyepieces]]", "[[barlows]]"),
    ]
    assert not [line for line in changed_lines(text) if line.startswith("-")]
    assert "on = 2026-11-01" in text  # a TOML date, not text
    assert loads_profile(text) == with_ids(edited)


def test_a_sector_changed_leaves_the_others_alone(profile: Profile) -> None:
    site = profile.sites[0]
    tree = BlockedSky(azimuth_from_deg=10, azimuth_to_deg=20, below_altitude_deg=30, what="tree")
    edited = attrs.evolve(profile, sites=(attrs.evolve(site, blocked=(tree, *site.blocked)),))
    text = dumps_profile(edited, previous=KEPT)
    assert set(changed_lines(text)) == {
        "+[[sites.blocked]]",
        "+azimuth_from_deg = 10",
        "+azimuth_to_deg = 20",
        "+below_altitude_deg = 30",
        '+what = "tree"',
    }
    gone = dumps_profile(attrs.evolve(profile, sites=(attrs.evolve(site, warm_air=()),)), previous=KEPT)
    assert len(changed_lines(gone)) == 4
    assert "[[sites.warm_air]]" not in gone


@pytest.mark.parametrize(
    "text",
    [
        'schema = 1\neyepieces = [ {name = "25 mm", focal_length_mm = 25}, # wide\n ]\n# end\n',
        "schema = 1\neye.pupil_mm = 6.5\neye.glasses = true # reading\n",
        'schema = 1\n[[ "eyepieces" ]] # wide\n"name" = "25 mm"\n"focal_length_mm" = 25.0',
        'eyepieces = []\nobserver = """\nInes"""\nschema = 1',
    ],
    ids=["on one line", "dotted", "quoted", "schema last"],
)
def test_other_ways_of_writing_toml_are_kept_and_can_be_edited(text: str) -> None:
    profile = loads_profile(text)
    edited = attrs.evolve(
        profile,
        eye=attrs.evolve(profile.eye, pupil_mm=6.0),
        eyepieces=(*profile.eyepieces, Eyepiece(name="10 mm", focal_length_mm=10)),
    )
    assert loads_profile(dumps_profile(edited, previous=text)) == with_ids(edited)
    with_ids_written = dumps_profile(profile, previous=text)
    assert loads_profile(with_ids_written) == profile
    assert dumps_profile(profile, previous=with_ids_written) == with_ids_written


def test_tables_that_stand_apart_from_their_own_are_still_saved_right() -> None:
    apart = KEPT.replace("[[sites.warm_air]]", "[preferences]\nclock = 12\n[[sites.warm_air]]")
    profile = attrs.evolve(loads_profile(apart), observer="Nobody")
    assert loads_profile(dumps_profile(profile, previous=apart)) == profile


def test_an_older_text_that_is_no_profile_is_not_built_upon(profile: Profile) -> None:
    for previous in ("", "[[", "schema = 9", "observer = 5"):
        assert dumps_profile(profile, previous=previous) == dumps_profile(profile)


def test_ids_are_written_at_the_first_save_and_stay_when_the_name_changes() -> None:
    text = f'schema = {SCHEMA}\n[[eyepieces]]\nname = "25 mm"\nfocal_length_mm = 25\n'
    profile = loads_profile(text)
    saved = dumps_profile(profile, previous=text)
    assert saved == text.replace("name", 'id = "25-mm"\nname')
    renamed = attrs.evolve(profile, eyepieces=(attrs.evolve(profile.eyepieces[0], name="Wide"),))
    assert tomllib.loads(dumps_profile(renamed, previous=saved))["eyepieces"][0]["id"] == "25-mm"


def test_two_of_one_name_are_not_written() -> None:
    twice = (Barlow(name="2x", factor=2), Barlow(id="b", name="2x", factor=2.5))
    with pytest.raises(ProblemsError, match=r'barlows\[2\] "2x".name: is the name of barlows\[1\] already'):
        dumps_profile(Profile(barlows=twice))


def test_a_copy_to_be_mailed_tells_the_town_and_not_the_garden(profile: Profile) -> None:
    home = attrs.evolve(profile.sites[0], latitude_deg=-0.0312, longitude_deg=-8.6142)
    (mailed,) = without_exact_place(attrs.evolve(profile, sites=(home,))).sites
    assert (str(mailed.latitude_deg), mailed.longitude_deg) == ("0.0", -8.6)
    assert attrs.evolve(mailed, latitude_deg=-0.0312, longitude_deg=-8.6142) == home


slow_to_build = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@given(profile=profiles)
@slow_to_build
def test_any_profile_is_read_back_as_it_was_written(profile: Profile) -> None:
    whole = with_ids(profile)
    text = dumps_profile(profile)
    assert loads_profile(text) == whole
    assert dumps_profile(whole, previous=text) == text


@given(before=profiles, after=profiles)
@slow_to_build
def test_any_change_is_read_back_right_and_a_comment_stands_through_it(
    before: Profile, after: Profile
) -> None:
    text = "# my own words\n" + dumps_profile(before) + "\n# the end"
    changed = dumps_profile(after, previous=text)
    assert loads_profile(changed) == with_ids(after)
    assert changed.startswith("# my own words\n")
    assert changed.endswith("# the end")
    assert dumps_profile(before, previous=text) == text
