"""Colours that can be read, and a night that stays dark."""

import itertools

import attrs
import pytest

from core.drawing.lines import DASHES, TINT_FAIR, TINT_LOW
from core.drawing.palette import PALETTES, Palette, PaletteName, load_palette
from core.sky.bodies import TARGETS

SKIES = ("daylight", "civil_twilight", "nautical_twilight", "astronomical_twilight", "night_sky")
INKS = ("ink", "faint_ink", "accent", "warning")


def relative_luminance(rgb: tuple[float, ...]) -> float:
    """WCAG 2.2, "relative luminance": https://www.w3.org/TR/WCAG22/#dfn-relative-luminance."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in rgb]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a: tuple[float, ...], b: tuple[float, ...]) -> float:
    """WCAG 2.2, "contrast ratio": https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio."""
    high, low = sorted((relative_luminance(a), relative_luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def rgb(colour: str) -> tuple[float, ...]:
    return tuple(int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))


def tinted(sky: str, tint: str, strength: float) -> tuple[float, ...]:
    return tuple(
        (1 - strength) * below + strength * over for below, over in zip(rgb(sky), rgb(tint), strict=True)
    )


def chart_grounds(palette: Palette) -> dict[str, tuple[float, ...]]:
    """Every colour that words on the height chart can stand on."""
    grounds = {}
    for sky in SKIES:
        colour = getattr(palette, sky)
        grounds[sky] = rgb(colour)
        grounds[f"{sky}, fair"] = tinted(colour, palette.band_fair, TINT_FAIR)
        grounds[f"{sky}, low"] = tinted(colour, palette.band_low, TINT_LOW)
    return grounds


def all_colours(palette: Palette) -> list[str]:
    named = attrs.asdict(palette, filter=lambda _attribute, value: str(value).startswith("#"))
    assert len(named) >= 17, "the colours of a palette are not where this test looks for them"
    return [*named.values(), *palette.bodies.values()]


# Least contrast of words: 4.5 is level AA of WCAG 2.2 for text of any size. By night the eye is used to
# the dark, and pure red on black cannot pass 5.3; dim but readable is the aim.
LEAST = {PaletteName.DAY: 4.5, PaletteName.PAPER: 4.5, PaletteName.DUSK: 4.5, PaletteName.NIGHT: 2.1}


@pytest.mark.parametrize("name", PaletteName)
def test_words_can_be_read_on_every_ground(name: PaletteName) -> None:
    palette = load_palette(name)
    grounds = {
        "background": rgb(palette.background),
        "surface": rgb(palette.surface),
        **chart_grounds(palette),
    }
    inks = {ink: getattr(palette, ink) for ink in INKS}
    inks |= {body.value: colour for body, colour in palette.bodies.items()}

    too_faint = {
        f"{ink} on {ground}": round(ratio, 2)
        for (ink, colour), (ground, under) in itertools.product(inks.items(), grounds.items())
        if (ratio := contrast(rgb(colour), under)) < LEAST[name]
    }

    assert too_faint == {}


@pytest.mark.parametrize("name", PaletteName)
def test_words_on_the_accent_can_be_read(name: PaletteName) -> None:
    palette = load_palette(name)

    assert contrast(rgb(palette.accent_ink), rgb(palette.accent)) >= min(LEAST[name], 3.5)


@pytest.mark.parametrize("name", PaletteName)
def test_the_row_in_hand_can_be_read(name: PaletteName) -> None:
    palette = load_palette(name)

    assert contrast(rgb(palette.chosen_ink), rgb(palette.chosen)) >= min(LEAST[name], 3.5)
    # 3:1 is what WCAG 2.2 asks of what tells a state (success criterion 1.4.11): the ground or its frame.
    ground, frame = rgb(palette.chosen), rgb(palette.accent)
    # By night the row in hand is told by its place and frame, and stays dim.
    least = 1.9 if name is PaletteName.NIGHT else 3.0
    assert max(contrast(each, rgb(palette.surface)) for each in (ground, frame)) >= least


def test_the_row_in_hand_is_no_light_at_night() -> None:
    night = load_palette("night")

    assert relative_luminance(rgb(night.chosen)) < relative_luminance(rgb(night.line))


@pytest.mark.parametrize("name", PaletteName)
def test_marks_stand_out_in_an_eyepiece_s_field(name: PaletteName) -> None:
    palette = load_palette(name)
    marks = palette.surface if name is PaletteName.DAY else palette.ink

    # 3:1 is what WCAG 2.2 asks of graphics (success criterion 1.4.11).
    assert contrast(rgb(marks), rgb(palette.disc_field)) >= 3.0


def test_night_has_no_green_and_no_blue_at_all() -> None:
    assert [colour for colour in all_colours(load_palette("night")) if not colour.endswith("0000")] == []


def test_night_is_dimmer_than_full_red_and_focus_is_not_the_brightest() -> None:
    brightest = max(int(colour[1:3], 16) for colour in all_colours(load_palette("night")))

    assert brightest == 190
    night = load_palette("night")
    assert relative_luminance(rgb(night.accent)) < relative_luminance(rgb(night.ink))


def test_night_stands_on_black() -> None:
    assert load_palette("night").background == "#000000"


@pytest.mark.parametrize("name", PaletteName)
def test_the_sky_grows_darker_from_day_to_night(name: PaletteName) -> None:
    palette = load_palette(name)
    luminances = [relative_luminance(rgb(getattr(palette, sky))) for sky in SKIES]

    assert luminances == sorted(luminances, reverse=True)
    assert len(set(luminances)) == len(SKIES)


def test_every_body_has_a_rhythm_of_its_own() -> None:
    patterns = [DASHES[body] for body in TARGETS]

    assert len(set(patterns)) == len(TARGETS)


def test_a_palette_of_another_name_is_refused() -> None:
    with pytest.raises(ValueError, match="sepia"):
        load_palette("sepia")


def test_a_colour_must_be_six_digits() -> None:
    with pytest.raises(ValueError, match="ink must be a colour such as #1d2229, not 'black'"):
        attrs.evolve(load_palette("day"), ink="black")


def test_paper_has_no_colour_that_a_red_torch_would_wash_out() -> None:
    greys = [(colour[1:3], colour[3:5], colour[5:7]) for colour in all_colours(load_palette("paper"))]

    assert [grey for grey in greys if len(set(grey)) > 1] == []


def test_a_window_cannot_be_dressed_in_paper() -> None:
    assert set(PALETTES) == set(PaletteName) - {PaletteName.PAPER}
