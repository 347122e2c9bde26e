"""The JSON of a ladder and of a comparison has every key that is promised."""

import json
from collections.abc import Callable
from datetime import date

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.export.ladder import compare_json, ladder_json
from core.export.parts import to_json
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.aim import Aim, aim_altitude, aim_overhead
from core.ladder.buying import what_to_buy
from core.ladder.compare import compare
from core.ladder.ladder import Ladder, build_ladder
from core.sky.bodies import Body
from tests.core.sent import BOX, LISBON, SIX, night, sent
from tests.core.telling import best_aim

EIGHTY = Telescope(
    id="eighty", name="Eighty", kind=TelescopeKind.REFRACTOR, aperture_mm=80, focal_length_mm=480
)
BINOCULAR = Telescope(id="bino", name="Binocular", kind=TelescopeKind.FIXED, aperture_mm=50, power=10)
DOUBLE = (Barlow(id="b2", name="2x", factor=2),)
LADDER_KEYS = {
    "schema",
    "scope",
    "planet",
    "at",
    "altitude_deg",
    "path",
    "overhead",
    "blur",
    "limits",
    "finest_detail_arcsec",
    "ceiling",
    "to_buy",
    "start",
    "climb_to",
    "rungs",
}
RUNG_KEYS = {
    "power",
    "eyepiece",
    "eyepiece_focal_length_mm",
    "barlows",
    "approximate",
    "exit_pupil_mm",
    "true_field_deg",
    "drift_s",
    "standing",
    "notices",
    "alternatives",
}
SIDE_KEYS = LADDER_KEYS | {
    "light_ratio_to_other",
    "resolution_arcsec",
    "disc_diameter_arcmin_at_ceiling",
    "elements_across_disc",
    "usable_minutes",
    "settled_minutes",
    "lowest_power",
    "widest_field_deg",
    "collimation",
}


def ladder(scope: Telescope, aim: Aim) -> Ladder:
    return build_ladder(scope=scope, eyepieces=BOX, barlows=DOUBLE, aim=aim, blur=Blur.assumed())


@pytest.mark.parametrize(
    "find_aim",
    [
        aim_overhead,
        lambda: aim_altitude(3),
        lambda: aim_altitude(45),
        lambda: best_aim(night(LISBON, date(2026, 12, 5)), Body.SATURN),
    ],
    ids=["overhead", "too low", "height", "planet"],
)
@pytest.mark.parametrize("scope", [SIX, BINOCULAR], ids=lambda scope: scope.id)
def test_a_ladder_has_every_key(scope: Telescope, find_aim: Callable[[], Aim]) -> None:
    result = sent(ladder_json(ladder(scope, find_aim()), to_buy=None))

    assert result.keys() == LADDER_KEYS
    assert result["scope"] == {"id": scope.id, "name": scope.name}
    assert result["blur"] == {"overhead_arcsec": 1.45, "source": "assumed"}
    assert result["limits"].keys() == {"aperture", "usual_air", "tonight_air", "together", "band"}
    assert result["ceiling"].keys() == {"power", "set_by", "reason"}
    assert [rung["power"] for rung in result["rungs"]] == sorted(rung["power"] for rung in result["rungs"])
    for rung in result["rungs"]:
        assert rung.keys() == RUNG_KEYS
        for other in rung["alternatives"]:
            assert other.keys() == {"eyepiece", "eyepiece_focal_length_mm", "barlows", "power"}


def test_the_figures_of_a_ladder_are_exact() -> None:
    result = sent(ladder_json(ladder(SIX, aim_overhead()), to_buy=None))
    lowest, *_, highest = result["rungs"]

    # 1200 / 25 = 48 and 1200 * 2 / 8 = 300; 150 mm bears 2x per mm.
    assert lowest["power"] == 48
    assert lowest["eyepiece"] == "25 mm"
    assert lowest["barlows"] == []
    assert lowest["exit_pupil_mm"] == 3.125
    assert highest["power"] == pytest.approx(300)
    assert highest["barlows"] == ["2x"]
    assert result["limits"]["aperture"] == 300
    assert result["overhead"] is True
    assert result["planet"] is None
    assert result["at"] is None


def test_what_to_buy_is_told_with_what_it_is_for() -> None:
    # 25 and 10 mm on 80/480 mm give 19x and 48x; the nights bear far more.
    owned = (BOX[0], Eyepiece(name="10 mm", focal_length_mm=10))
    result = sent(ladder_json(ladder(EIGHTY, aim_overhead()), to_buy=what_to_buy(EIGHTY, owned, ())))[
        "to_buy"
    ]

    assert result["kind"] == "eyepiece"
    assert result["focal_length_mm"] < 10
    assert result["to_focal_length_mm"] is None
    assert result["factor"] is None
    assert result["for"] == "for nights that bear more than 48x: you have nothing above"


def test_a_ladder_too_low_gives_a_reason_and_no_ceiling() -> None:
    result = sent(ladder_json(ladder(SIX, aim_altitude(3)), to_buy=None))

    assert result["path"] is None
    assert result["limits"]["tonight_air"] is None
    assert result["ceiling"]["power"] is None
    assert result["ceiling"]["set_by"] is None
    assert result["ceiling"]["reason"]
    assert result["climb_to"] is None


def test_a_built_in_power_has_no_eyepiece() -> None:
    (rung,) = sent(ladder_json(ladder(BINOCULAR, aim_overhead()), to_buy=None))["rungs"]

    assert rung["power"] == 10
    assert rung["eyepiece"] is None
    assert rung["eyepiece_focal_length_mm"] is None
    assert rung["true_field_deg"] is None


def test_a_comparison_has_every_key_on_both_sides() -> None:
    aim = best_aim(night(LISBON, date(2026, 12, 5)), Body.SATURN)

    result = sent(
        compare_json(compare(ladder(SIX, aim), ladder(EIGHTY, aim), disc_arcsec=18.0), to_buy=(None, None))
    )

    assert result.keys() == {"schema", "planet", "at", "a", "b", "verdict"}
    assert result["planet"] == "saturn"
    assert result["at"] == result["a"]["at"]
    assert result["a"].keys() == SIDE_KEYS
    assert result["b"].keys() == SIDE_KEYS
    assert result["verdict"]
    assert all(sentence.endswith(".") for sentence in result["verdict"])


def test_no_name_can_command_a_terminal_through_json() -> None:
    nasty = "\x1b[31mred\x07\x7f\u202e\x9b"
    text = to_json(ladder_json(ladder(evolve(SIX, name=nasty), aim_overhead()), to_buy=None))

    assert text.isascii()
    assert all(character.isprintable() or character == "\n" for character in text)
    assert json.loads(text)["scope"]["name"] == nasty


def test_what_does_not_fit_the_focuser_is_named_with_the_first_rung() -> None:
    wide = Eyepiece(id="w", name="40 mm wide", focal_length_mm=40, barrel_mm=50.8)
    found = ladder_json(
        build_ladder(
            scope=SIX, eyepieces=[*BOX, wide], barlows=DOUBLE, aim=aim_overhead(), blur=Blur.assumed()
        ),
        to_buy=None,
    )

    said = "40 mm wide has a 50.8 mm barrel and does not fit the 31.75 mm focuser of Six."
    assert said in found["rungs"][0]["notices"]
    assert said not in found["rungs"][1]["notices"]
