"""Combinations that people argue about: reducers, fixed-power instruments, and figures rounded honestly.

The situations come from public questions and threads; the arithmetic is geometric optics.
"""

import re
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.air.blur import Blur
from core.air.readiness import readiness_in_still_air
from core.gear.figures import parse_factor, parse_fixed_instrument
from core.gear.numbers import DoubtfulFigureError, FigureError
from core.gear.owned import Barlow
from core.ladder.aim import aim_overhead
from core.ladder.ladder import Rung, build_ladder
from core.ladder.side import build_side
from core.looks.feature_rules import Feature, Likelihood
from core.report.ladder import ladder_text
from core.sky.bodies import Body
from core.sky.night import compute_night
from core.words.notices import notice_texts
from gui.app import main
from tests.core.telling import appearance_of, best_aim
from tests.situations.conftest import Ask, AskJson
from tests.situations.owners import LONDON, barlows, eyepieces, owner, place, scope

AIR = Blur(overhead_arcsec=0.8)


# What field does a 0.63 reducer give? The thread had 2000 or 2032 mm, and 50 or 52 degrees.
@pytest.mark.parametrize("focal_length_mm", [2000, 2032])
@pytest.mark.parametrize("apparent_field_deg", [50, 52])
def test_a_reducer_gives_the_field_that_the_thread_disputes(
    ask_json: AskJson, focal_length_mm: float, apparent_field_deg: float
) -> None:
    kit = owner(
        scope("catadioptric", 203, focal_length_mm, barrel_mm=50.8),
        eyepieces=eyepieces(25, apparent_field_deg=apparent_field_deg),
        barlows=barlows(0.63, 2),
    )

    reduced, plain, doubled = ask_json(kit, "ladder")["rungs"]

    assert reduced["power"] == pytest.approx(50.4, abs=0.9)
    assert 0.96 <= reduced["true_field_deg"] <= 1.04
    assert plain["power"] == pytest.approx(80, abs=1.3)
    assert doubled["power"] == pytest.approx(160, abs=2.6)
    assert doubled["true_field_deg"] == pytest.approx(0.32, abs=0.015)


def test_a_long_eyepiece_behind_a_reducer_is_said_to_lose_its_edge(ask_json: AskJson) -> None:
    kit = owner(
        scope("catadioptric", 203, 2000),
        eyepieces=eyepieces(40, apparent_field_deg=44),
        barlows=barlows(0.63),
    )

    reduced, plain = ask_json(kit, "ladder")["rungs"]

    assert reduced["power"] == pytest.approx(31.5)
    assert reduced["true_field_deg"] == pytest.approx(1.40, abs=0.005)
    assert "vignetting" in " ".join(reduced["notices"])
    assert "vignetting" not in " ".join(plain["notices"])


def test_a_reducer_of_0_63_is_right_on_a_slower_scope_too(ask_json: AskJson) -> None:
    # f/12 becomes f/7.6: a 25 mm eyepiece then leaves an exit pupil of 25 / 7.6 mm.
    kit = owner(scope("catadioptric", 150, 1800), eyepieces=eyepieces(25), barlows=barlows(0.63))

    assert ask_json(kit, "ladder")["rungs"][0]["exit_pupil_mm"] == pytest.approx(25 / 7.56)


@given(
    st.integers(30, 95),
    st.sampled_from(["{tenfold}", "f/{tenfold}", "F {tenfold}", "{hundredfold}", "{hundredfold} %"]),
    st.sampled_from([".", ","]),
)
def test_a_reducer_read_as_focal_ratio_or_percentage_is_never_taken_as_it_stands(
    hundredths: int, form: str, mark: str
) -> None:
    typed = form.format(tenfold=hundredths / 10, hundredfold=hundredths).replace(".", mark)

    with pytest.raises(DoubtfulFigureError) as asked:
        parse_factor(typed, reducer=True)

    assert hundredths / 100 in [candidate.value for candidate in asked.value.candidates]


@pytest.mark.parametrize("factor", [6.3, 63, 0.063, 0.29, 0.96, 1.0, 1.05, 5.1])
def test_a_profile_with_a_factor_out_of_range_is_refused_with_the_range(
    factor: float, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "reducer.toml"
    path.write_text(f'schema = 1\n[[barlows]]\nname = "reducer"\nfactor = {factor}\n', "utf-8")

    assert main(["ladder", str(path)]) == 2

    told = capsys.readouterr().err
    assert 'barlows[1] "reducer"' in told
    assert "factor" in told
    assert "from 0.3 to" in told


@settings(max_examples=40, deadline=None)
@given(marked=st.floats(0.3, 0.95), measured=st.none() | st.floats(0.3, 0.95))
def test_a_reducer_counts_with_the_owner_s_factor_and_is_called_approximate(
    marked: float, measured: float | None
) -> None:
    # Thin-lens arithmetic on the spacing does not give the factors that makers state, so none is done.
    lens = Barlow(name="reducer", factor=marked, measured_factor=measured)
    plain, reduced = (
        build_ladder(
            scope=scope("catadioptric", 203, 2000),
            eyepieces=eyepieces(20),
            barlows=lenses,
            aim=aim_overhead(),
            blur=AIR,
        ).rungs[0]
        for lenses in ((), (lens,))
    )

    assert reduced.power / plain.power == pytest.approx(marked if measured is None else measured)
    assert any("spacing, so this power is approximate" in notice for notice in notice_texts(reduced.notices))
    assert not any("approximate" in notice for notice in notice_texts(plain.notices))


def test_a_profile_cannot_ask_for_a_factor_from_spacing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "reducer.toml"
    path.write_text('schema = 1\n[[barlows]]\nname = "reducer"\nspacing_mm = 105\n', "utf-8")

    assert main(["ladder", str(path)]) == 2

    assert "spacing_mm: is not a known key" in capsys.readouterr().err


@given(
    low=st.integers(8, 30),
    more=st.integers(1, 60),
    aperture_mm=st.integers(30, 120),
    dash=st.sampled_from(list("-‐‑–—−")),
    sign=st.sampled_from(list("xX×")),
    blank=st.sampled_from(["", " ", "\u00a0"]),
    suffix=st.sampled_from(["", "mm", " mm"]),
)
def test_a_spotting_scope_is_read_as_it_is_written_on_the_body(
    low: int, more: int, aperture_mm: int, dash: str, sign: str, blank: str, suffix: str
) -> None:
    written = f"{low}{blank}{dash}{blank}{low + more}{blank}{sign}{blank}{aperture_mm}{suffix}"

    figures = parse_fixed_instrument(written)

    assert (figures.power_min, figures.power_max) == (low, low + more)
    assert figures.aperture_mm == aperture_mm


@pytest.mark.parametrize(("written", "power"), [("25x", 25), ("25×", 25), ("25 X", 25), ("7,5x", 7.5)])
def test_a_single_power_alone_is_taken_too(written: str, power: float) -> None:
    figures = parse_fixed_instrument(written)

    assert (figures.power_min, figures.power_max, figures.aperture_mm) == (power, None, None)


@pytest.mark.parametrize("written", ["", "x80", "20-60x", "abc", "20-60x8000", "0x80", "20--60x80"])
def test_what_no_instrument_has_written_on_it_is_refused_or_asked_about(written: str) -> None:
    if written == "20-60x":
        assert parse_fixed_instrument(written).aperture_mm is None
    else:
        with pytest.raises(FigureError):
            parse_fixed_instrument(written)


def test_a_spotting_scope_s_ladder_needs_no_focal_length_and_takes_no_barlow(ask_json: AskJson) -> None:
    spotter = scope("fixed", 80, power_min=20, power_max=60)

    ladder = ask_json(owner(spotter, eyepieces=eyepieces(25, 10), barlows=barlows(2)), "ladder")

    rungs = ladder["rungs"]
    assert (rungs[0]["power"], rungs[-1]["power"]) == (20, 60)
    assert (rungs[0]["exit_pupil_mm"], rungs[-1]["exit_pupil_mm"]) == pytest.approx((4.0, 1.33), abs=0.005)
    assert {(rung["eyepiece"], tuple(rung["barlows"])) for rung in rungs} == {(None, ())}


def test_saturn_for_the_family_in_april_2009(ask: Ask, ask_json: AskJson) -> None:
    # Computed with Skyfield 1.55 / DE421: disc 19.3", ring 43.9", ring tilt -3.8 degrees.
    binocular = owner(scope("fixed", 80, power=20), site=place(52.5, -1.5, "Europe/London"))
    words = ("--evening", "2009-04-15")

    (rung,) = ask_json(binocular, "ladder", "--planet", "saturn", *words)["rungs"]
    heights = ask(binocular, "heights", *words)

    assert rung["power"] == 20
    assert "Stay at 20x, all that this instrument has: tonight would bear about" in heights

    night = compute_night(binocular.sites[0], date(2009, 4, 15))
    ladder = build_ladder(
        scope=binocular.telescopes[0],
        eyepieces=(),
        barlows=(),
        aim=best_aim(night, Body.SATURN),
        blur=AIR,
    )
    appearance = appearance_of(night, Body.SATURN, ladder=ladder)
    side = build_side(
        ladder,
        ladder.scope,
        disc_arcsec=night.of(Body.SATURN).diameter_arcsec,
        readiness=readiness_in_still_air(ladder.scope),
    )
    assert side.disc_diameter_arcmin_at_ceiling == pytest.approx(6.4, abs=0.05)
    assert appearance.subject.ring is not None
    assert appearance.subject.ring.major_axis_arcsec * 20 / 60 == pytest.approx(14.6, abs=0.1)
    told = {item.feature: item.likelihood for item in appearance.expectations}
    # 44 arcsec at 20x look 15 arcmin long: a longish shape, for a ring that is known as such a little small.
    assert told[Feature.RING] is Likelihood.POSSIBLE
    assert told[Feature.RING_GAP] is Likelihood.UNLIKELY


# The ring was edge-on in September 2009 and in March 2025, and widest open in 2003 and in 2017.
@pytest.mark.parametrize(
    ("evening", "is_open"),
    [
        ("2003-01-10", True),
        ("2009-01-10", False),
        ("2009-04-15", False),
        ("2010-04-01", False),
        ("2017-06-15", True),
        ("2018-07-01", True),
        ("2024-09-10", False),
        ("2025-11-20", False),
    ],
)
@pytest.mark.parametrize("power", [20, 300])
def test_power_alone_never_promises_a_ring(evening: str, is_open: bool, power: float) -> None:
    night = compute_night(LONDON, date.fromisoformat(evening))
    ladder = build_ladder(
        scope=scope("fixed", 250, power=power),
        eyepieces=(),
        barlows=(),
        aim=best_aim(night, Body.SATURN),
        blur=Blur(overhead_arcsec=0.4),
    )

    told = {
        item.feature: item.likelihood
        for item in appearance_of(night, Body.SATURN, ladder=ladder).expectations
    }

    if not is_open or power == 20:
        assert told[Feature.RING_GAP] is not Likelihood.LIKELY


def rung_of(focal_length_mm: float, eyepiece_mm: float, field_deg: float) -> tuple[Rung, str]:
    ladder = build_ladder(
        scope=scope("reflector", focal_length_mm / 6, focal_length_mm),
        eyepieces=eyepieces(eyepiece_mm, apparent_field_deg=field_deg),
        barlows=(),
        aim=aim_overhead(),
        blur=AIR,
    )
    lines = ladder_text(ladder, to_buy=None).splitlines()
    return ladder.rungs[0], lines[lines.index(next(line for line in lines if line.startswith("power"))) + 1]


def test_a_field_is_rounded_as_marked_focal_lengths_deserve() -> None:
    # 1200 mm, 25 mm, 50 degrees: 48x and 1.042 degrees.
    rung, row = rung_of(1200, 25, 50)

    assert rung.power == pytest.approx(48)
    assert rung.true_field_deg == pytest.approx(1.042, abs=0.0005)
    assert re.search(r" 48x .* 1° ", row)
    # Marked 25, really 25.02: nobody is shown 47.96x or 1.0425 degrees.
    assert re.search(r" 48x .* 1° ", rung_of(1200, 25.02, 50)[1])


@settings(max_examples=60, deadline=None)
@given(st.floats(300, 4000), st.floats(3, 40), st.floats(35, 100))
def test_no_figure_is_shown_finer_than_it_is_known(
    focal_length_mm: float, eyepiece_mm: float, field_deg: float
) -> None:
    rung, row = rung_of(focal_length_mm, eyepiece_mm, field_deg)

    shown_power = re.search(r"([\d.]+)x ", row)
    shown_field = re.search(r"([\d.]+)([°′])", row)
    assert shown_power is not None
    assert shown_field is not None
    assert rung.true_field_deg is not None
    # Real focal lengths differ by 5 % from those marked; so much may be lost in rounding, and no more shown.
    assert float(shown_power[1]) == pytest.approx(rung.power, rel=0.05)
    assert len(shown_power[1].replace(".", "")) <= max(2, len(f"{rung.power:.0f}"))
    degrees = float(shown_field[1]) / (60 if shown_field[2] == "′" else 1)
    assert degrees == pytest.approx(rung.true_field_deg, rel=0.051, abs=0.51 / 60)
    assert len(shown_field[1].replace(".", "").lstrip("0")) <= 2
