"""Text for a terminal of 80 columns: all that matters is there, nothing sticks out, nothing commands."""

from collections.abc import Sequence
from datetime import date
from functools import cache

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.aim import Aim, aim_altitude, aim_overhead
from core.ladder.compare import compare
from core.ladder.ladder import Ladder, build_ladder
from core.plain_text import width_of
from core.report.heights import heights_text
from core.report.ladder import compare_text, ladder_text
from core.sky.night import Night, compute_night
from core.sky.site import BlockedSky, Site
from core.words.answer import answer_words
from tests.core.telling import situation_of

LISBON = Site(
    name="Back terrace",
    latitude_deg=38.72,
    longitude_deg=-9.14,
    time_zone="Europe/Lisbon",
    blocked=(
        BlockedSky(
            azimuth_from_deg=90, azimuth_to_deg=200, below_altitude_deg=40, what="roof ridge", heated=True
        ),
    ),
)
TROMSO = Site(name="Tromso", latitude_deg=69.65, longitude_deg=18.96, time_zone="Europe/Oslo")
SIX = Telescope(name="Six-inch", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200)
EIGHTY = Telescope(name="Eighty", kind=TelescopeKind.REFRACTOR, aperture_mm=80, focal_length_mm=480)
BOX = tuple(Eyepiece(name=f"{mm} mm", focal_length_mm=mm, apparent_field_deg=52) for mm in (25, 10, 8))
DOUBLE = (Barlow(name="2x", factor=2),)
GOOD = date(2026, 12, 5)


@cache
def night(site: Site, evening: date = GOOD) -> Night:
    return compute_night(site, evening)


def ladder(scope: Telescope = SIX, aim: Aim | None = None, eyepieces: Sequence[Eyepiece] = BOX) -> Ladder:
    return build_ladder(
        scope=scope,
        eyepieces=eyepieces,
        barlows=DOUBLE,
        aim=aim or aim_overhead(),
        blur=Blur.assumed(),
    )


def assert_fits(text: str) -> None:
    assert [line for line in text.splitlines() if width_of(line) > 80] == []
    assert text.replace("\n", "").isprintable()


@pytest.mark.parametrize("clock", [12, 24])
@pytest.mark.parametrize(
    ("site", "evening"),
    [
        (LISBON, GOOD),
        (TROMSO, date(2026, 6, 21)),
        (TROMSO, date(2027, 11, 28)),
        (evolve(LISBON, time_zone="Europe/Berlin"), date(2026, 10, 24)),
    ],
)
def test_an_evening_fits_and_begins_with_the_answer(site: Site, evening: date, clock: int) -> None:
    situation = situation_of(night(site, evening), scope=SIX, eyepieces=BOX, barlows=DOUBLE, clock=clock)

    text = heights_text(situation)

    assert_fits(text)
    first_paragraph = text.split("\n\n")[0].replace("\n", " ")
    assert first_paragraph == answer_words(situation)
    assert all(name in text for name in ("Mercury", "Venus", "Mars", "Jupiter", "Saturn", "Uranus", "Moon"))


def test_the_table_of_an_evening_reads_across() -> None:
    text = heights_text(situation_of(night(LISBON)))
    row = next(line for line in text.splitlines() if line.startswith("Saturn"))

    # ephem 4.2.1, centre at -0:34, no pressure: rise 14:06:49, transit 20:11:16 at 52.08 degrees,
    # set 02:15:43.
    assert row.split()[:5] == ["Saturn", "14:07", "20:11", "52°", "02:16"]


def test_absence_is_told_in_words_in_the_table() -> None:
    text = heights_text(situation_of(night(TROMSO, date(2027, 11, 28))))

    assert "never up" in next(line for line in text.splitlines() if line.startswith("Mars"))
    assert "The Sun stays down: at its lowest it is" in text
    assert "always up" in text


def test_a_sun_that_rolls_along_the_horizon_stays_up_in_every_line() -> None:
    """At the North Pole its centre is within half a degree of the horizon all through 20 March 2026."""
    pole = night(
        Site(name="Pole", latitude_deg=90.0, longitude_deg=0.0, time_zone="Etc/UTC"), date(2026, 3, 20)
    )

    text = heights_text(situation_of(pole))

    assert "The Sun stays up: at its lowest it is on the horizon." in text
    assert "stays down" not in text
    assert "-0°" not in text


def test_a_ladder_marks_start_climb_and_ceiling() -> None:
    lines = ladder_text(ladder(), to_buy=None).splitlines()
    marks = {line.split()[0]: line for line in lines if line.lstrip().startswith(tuple("0123456789"))}

    assert lines[0] == "Six-inch: power ladder"
    assert "rule of thumb" in " ".join(lines)
    # 1200 / 25 = 48; 1200 / 8 = 150 under fair air's 232 / 1.45 = 160 overhead; 1200 * 2 / 10 = 240.
    assert marks["48x"].endswith("begin here")
    assert marks["150x"].endswith("top tonight")
    assert marks["240x"].endswith("not tonight")


@pytest.mark.parametrize("aim", [aim_overhead(), aim_altitude(3), aim_altitude(25)])
@pytest.mark.parametrize(
    "scope",
    [SIX, Telescope(name="20x80", kind=TelescopeKind.FIXED, aperture_mm=80, power_min=20, power_max=60)],
    ids=["six", "fixed"],
)
def test_every_ladder_fits(scope: Telescope, aim: Aim) -> None:
    assert_fits(ladder_text(ladder(scope, aim), to_buy=None))


def test_a_ladder_without_rungs_says_so() -> None:
    text = ladder_text(ladder(eyepieces=()), to_buy=None)

    assert_fits(text)
    assert "Add an eyepiece in Gear" in text
    too_wide = Eyepiece(name="Wide", focal_length_mm=30, barrel_mm=50.8)
    assert "No eyepiece owned fits Six-inch" in ladder_text(ladder(eyepieces=(too_wide,)), to_buy=None)


def test_a_comparison_gives_both_in_figures_and_in_words() -> None:
    text = compare_text(compare(ladder(), ladder(EIGHTY)), to_buy=(None, None))

    assert_fits(text)
    assert "Six-inch" in text
    assert "Eighty" in text
    # Dawes: 116 / 150 and 116 / 80 arcsec.
    assert "0.77″" in text
    assert "1.45″" in text
    assert "Six-inch: 48x, 96x, 120x, 150x, 240x, 300x" in text


def test_long_and_hostile_names_neither_stick_out_nor_command() -> None:
    name = "\x1b]0;owned\x07 the longest name that any telescope has ever had, I should think, 家の庭の望遠鏡"
    what = "\x1b[2Jroof of a neighbour who keeps adding to it year after year"
    scope = evolve(SIX, name=name)
    box = tuple(evolve(eyepiece, name=f"{name} {eyepiece.name}") for eyepiece in BOX)
    roof = evolve(LISBON.blocked[0], what=what)
    site = evolve(LISBON, name=name, blocked=(roof,))
    situation = situation_of(night(site), scope=scope, eyepieces=box, barlows=DOUBLE)

    for text in (
        heights_text(situation),
        ladder_text(ladder(scope, eyepieces=box), to_buy=None),
        compare_text(
            compare(ladder(scope, eyepieces=box), ladder(EIGHTY, eyepieces=box)), to_buy=(None, None)
        ),
    ):
        assert_fits(text)
        assert "\x1b" not in text


def test_what_does_not_fit_the_focuser_is_named() -> None:
    wide = Eyepiece(name="40 mm wide", focal_length_mm=40, barrel_mm=50.8)

    text = ladder_text(ladder(eyepieces=(*BOX, wide)), to_buy=None)

    assert_fits(text)
    words = " ".join(text.split())
    assert "40 mm wide has a 50.8 mm barrel and does not fit the 31.75 mm focuser" in words


def test_a_barlow_is_told_from_a_reducer_however_long_the_owners_names_are() -> None:
    zoom = Eyepiece(
        name="My grandfather's lovely old zoom eyepiece",
        focal_length_min_mm=8,
        focal_length_max_mm=24,
        apparent_field_at_min_deg=60,
        apparent_field_at_max_deg=40,
    )
    which = build_ladder(
        scope=SIX,
        eyepieces=(zoom,),
        barlows=(Barlow(name="A reducer", factor=0.63), Barlow(name="A Barlow lens", factor=2.0)),
        aim=aim_overhead(),
        blur=Blur.assumed(),
    )
    text = ladder_text(which, to_buy=None)

    assert_fits(text)
    assert "24 mm + 0.63x" in text
    assert "8 mm + 2x" in text
    # 8 x 3^(2/5) = 12.4 mm: nobody sets a ring to a tenth.
    assert "about 12 mm + 2x" in text
    assert "12.4" not in text
    assert ("(+1)" in text) == ("one more combination" in text)
