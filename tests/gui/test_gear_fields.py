"""Figures as people write them: read on each key, asked about when doubtful, kept when refused."""

from collections.abc import Callable, Iterator

import pytest
from attrs import evolve
from PySide6.QtCore import QLocale, Qt
from PySide6.QtWidgets import QLineEdit, QPushButton, QTableWidget
from pytestqt.qtbot import QtBot

from core.gear.owned import Eyepiece, Stand
from core.words.owned_kinds import Kind
from gui.gear.powers_columns import WORDS
from gui.gear.view import GearView
from gui.state import AppState
from gui.widgets.plain_label import PlainLabel
from gui.window.shell import Shell
from tests.gui.gear_hand import GearHand


@pytest.fixture(params=["de_DE", "en_US", "fr_FR", "C"])
def habit(request: pytest.FixtureRequest) -> Iterator[str]:
    """Run under the decimal habits of several countries."""
    before = QLocale()
    QLocale.setDefault(QLocale(request.param))
    yield request.param
    QLocale.setDefault(before)


@pytest.mark.usefixtures("habit")
def test_comma_and_point_are_decimal_in_every_country(hand: GearHand) -> None:
    hand.open("10 mm")
    for typed in ("12,5", "12.5", " 12,5 ", "12,5 mm", "12½"):
        hand.type("focal_length", "10")
        hand.type("focal_length", typed)

        assert hand.focal_lengths == [25, 12.5, 8]
        # 1200 mm by 12.5 mm.
        assert "96x 12.5 mm" in hand.powers
        hand.leave()
        assert hand.field("focal_length").entry == "12.5"


def test_an_aperture_is_taken_in_any_unit_and_kept_in_mm(hand: GearHand) -> None:
    for typed, aperture_mm in {
        "114": 114,
        "4.5 in": 114.3,
        '4 1/2"': 114.3,
        "4½ in": 114.3,
        "11,4 cm": 114,
        "6″": 152.4,
    }.items():
        hand.type("aperture_mm", "200")
        hand.type("aperture_mm", typed)
        assert hand.profile.telescopes[0].aperture_mm == pytest.approx(aperture_mm), typed


def test_a_focal_ratio_stands_for_a_focal_length(hand: GearHand) -> None:
    hand.type("focal_length_mm", "f/5")
    assert hand.profile.telescopes[0].focal_length_mm == 750
    hand.leave()
    assert hand.field("focal_length_mm").entry == "750"
    assert "f/5" in hand.words()


def test_a_doubtful_aperture_is_asked_about_and_never_guessed(hand: GearHand) -> None:
    hand.type("aperture_mm", "8")
    hand.leave()
    assert hand.profile.telescopes[0].aperture_mm == 150
    assert "did you mean" in hand.field("aperture_mm").message

    # The keyboard has gone to the first answer; the second is one further.
    hand.leave()
    answer = hand.focused()
    assert answer is not None
    assert answer.accessibleName() == "Aperture: 8 in"
    hand.qtbot.keyClick(answer, Qt.Key.Key_Space)

    assert hand.profile.telescopes[0].aperture_mm == pytest.approx(203.2)
    assert hand.field("aperture_mm").message == ""


def test_a_reducer_written_as_a_focal_ratio_is_asked_about(hand: GearHand) -> None:
    hand.open("2x")
    hand.type("factor", "6.3")
    hand.leave()
    assert hand.profile.barlows[0].factor == 2
    answer = hand.focused()
    assert answer is not None
    hand.qtbot.keyClick(answer, Qt.Key.Key_Space)
    assert hand.profile.barlows[0].factor == 0.63
    assert hand.profile.barlows[0].name == "0.63x reducer"


def test_a_range_makes_a_zoom_and_shows_the_fields_of_both_ends(hand: GearHand) -> None:
    hand.open("8 mm")
    assert hand.field("field_stop_mm").isVisible()
    hand.type("focal_length", "8-24")
    assert hand.profile.eyepieces[2].focal_length_max_mm == 24
    assert not hand.field("field_stop_mm").isVisible()
    hand.type("apparent_field_at_min_deg", "60")
    assert hand.profile.eyepieces[2].apparent_field_at_min_deg == 60

    hand.type("focal_length", "8")
    assert hand.profile.eyepieces[2] == Eyepiece(
        id="8-mm", name="8 mm", focal_length_mm=8, apparent_field_deg=52
    )


def test_lengths_are_shown_in_inches_to_who_wants_inches(hand: GearHand) -> None:
    hand.type("aperture_mm", "114.3")
    hand.open("Observer")
    hand.choose("length", "inches")
    hand.open("Six-inch")
    assert hand.field("aperture_mm").entry == "4.5"
    assert hand.field("aperture_mm").editor.accessibleName() == "Aperture, in"

    # Editing another figure leaves what was rounded for the eye as it was.
    hand.type("focal_length_mm", "50")
    assert hand.profile.telescopes[0].aperture_mm == pytest.approx(114.3)
    assert hand.profile.telescopes[0].focal_length_mm == pytest.approx(1270)


def test_a_difference_of_temperatures_follows_the_owners_unit(hand: GearHand) -> None:
    hand.open("Observer")
    hand.choose("temperature", "Fahrenheit")
    hand.open("Six-inch")
    hand.type("cooling_minutes", "40")
    assert "go together" in hand.field("cooling_minutes").message
    hand.type("cooling_from_c", "18")
    assert hand.profile.telescopes[0].cooling_from_c == pytest.approx(10)
    assert hand.profile.telescopes[0].cooling_minutes == 40


def test_a_light_share_over_one_is_asked_about(hand: GearHand) -> None:
    hand.add(Kind.FILTER)
    hand.choose("known_by", "light let through")
    hand.type("transmittance", "13")
    hand.leave()
    assert [each.name for each in hand.profile.filters] == []
    answer = hand.focused()
    assert answer is not None
    hand.qtbot.keyClick(answer, Qt.Key.Key_Space)
    assert hand.profile.filters[0].transmittance == pytest.approx(0.13)


def test_a_wratten_number_tells_what_the_filter_is_for(hand: GearHand) -> None:
    hand.add(Kind.FILTER)
    hand.type("wratten", "25")
    assert hand.profile.filters[0].wratten == "25"
    assert "no new features" in hand.words()


def test_a_filter_is_found_by_the_name_that_people_say(hand: GearHand) -> None:
    hand.add(Kind.FILTER)
    hand.type("wratten", "moon filter")
    assert hand.profile.filters[0].wratten == "96-0.9"
    line = hand.field("wratten").editor
    assert isinstance(line, QLineEdit)
    offered = line.completer().popup()
    hand.qtbot.keyClick(offered, Qt.Key.Key_Down)
    hand.qtbot.keyClick(offered, Qt.Key.Key_Return)
    hand.leave()
    assert hand.profile.filters[0].wratten == "96-0.9"
    assert hand.field("wratten").entry == "96-0.9"

    hand.add(Kind.FILTER)
    hand.type("name", "Light blue")
    assert hand.field("wratten").entry == "82A"
    assert hand.profile.filters[1].wratten == "82A"
    assert hand.profile.filters[1].name == "Light blue"
    assert "Pale blue, passes 73% of the light" in hand.words()


def test_a_number_that_was_typed_stands_whatever_the_name(hand: GearHand) -> None:
    hand.add(Kind.FILTER)
    hand.type("wratten", "21")
    hand.type("name", "Like blue, but orange")

    assert hand.profile.filters[0].wratten == "21"


def test_every_form_of_a_filter_says_that_it_keeps_no_sun_out(hand: GearHand) -> None:
    hand.add(Kind.FILTER)
    assert "No filter here makes the Sun safe to look at." in hand.words()
    hand.type("wratten", "82A")
    assert "No filter here makes the Sun safe to look at." in hand.words()
    hand.type("wratten", "47")
    assert "not even a neutral or a dark one" in hand.words()


def test_a_date_is_typed_or_is_today(hand: GearHand) -> None:
    hand.type("collimated_on", "1 November")
    hand.leave()
    assert "year, month and day" in hand.field("collimated_on").message
    assert hand.profile.telescopes[0].collimated_on is None

    today = hand.focused()
    assert today is not None
    assert today.accessibleName() == "Collimated: today"
    hand.qtbot.keyClick(today, Qt.Key.Key_Space)
    assert str(hand.profile.telescopes[0].collimated_on) == "2026-12-05"


def test_blocked_sky_is_typed_into_the_last_row(hand: GearHand) -> None:
    hand.open("Back terrace")
    table = hand.field("blocked").editor
    assert isinstance(table, QTableWidget)
    table.setFocus()
    for column, text in enumerate(("350", "20", "15,5", "trees")):
        table.setCurrentCell(1, column)
        hand.qtbot.keyClicks(table, text[0])
        editor = table.findChild(QLineEdit)
        assert editor is not None
        hand.qtbot.keyClicks(editor, text[1:])
        hand.qtbot.keyClick(editor, Qt.Key.Key_Return)
        hand.qtbot.waitUntil(lambda: table.findChild(QLineEdit) is None)
    sector = hand.profile.sites[0].blocked[1]
    assert (sector.azimuth_from_deg, sector.azimuth_to_deg, sector.below_altitude_deg) == (350, 20, 15.5)
    assert sector.what == "trees"

    # Delete alone, pressed for a cell, takes no row away.
    hand.qtbot.keyClick(table, Qt.Key.Key_Delete)
    assert [each.what for each in hand.profile.sites[0].blocked] == ["roof ridge", ""]
    hand.undo()
    table.setCurrentCell(1, 0)
    hand.qtbot.keyClick(table, Qt.Key.Key_Delete, Qt.KeyboardModifier.ControlModifier)
    assert [each.what for each in hand.profile.sites[0].blocked] == ["roof ridge"]
    hand.undo()
    assert [each.what for each in hand.profile.sites[0].blocked] == ["roof ridge", "trees"]


def test_a_name_is_shown_letter_by_letter(hand: GearHand) -> None:
    for name in (
        *("My<s>ecret", "tube & <br>", '10" f/4.7 <b>dob</b>', '8" <f/5', "<3 my dob", "&amp; &lt;", "$$"),
        "Сатурн ♄",
    ):
        hand.type("name", name)
        assert hand.profile.telescopes[0].name == name
        assert hand.rows[1] == f"  {name}"
        assert f"What {name} gives" in hand.words()
    labels = hand.view.findChildren(PlainLabel)
    assert all(label.textFormat() is Qt.TextFormat.PlainText for label in labels)


def test_undo_of_the_window_reaches_fields(
    make_shell: Callable[..., Shell], state: AppState, qtbot: QtBot
) -> None:
    shell = make_shell(state, view=0)
    gear = shell.current_view
    assert isinstance(gear, GearView)
    line = gear.form_column.form_of(Kind.TELESCOPE).fields["aperture_mm"].editor
    assert isinstance(line, QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "200")
    assert state.profile.telescopes[0].aperture_mm == 200
    qtbot.keyClick(line, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert state.profile.telescopes[0].aperture_mm == 150
    assert line.text() == "150"


def more(hand: GearHand) -> QPushButton:
    form = hand.view.form_column.form
    assert form is not None
    (button,) = (each for each in form.findChildren(QPushButton) if each.text().startswith("More"))
    return button


def test_what_is_seldom_needed_of_a_telescope_comes_on_a_click_and_stays_once_said(hand: GearHand) -> None:
    hand.open("Six-inch")
    names = ("mirror_thickness_mm", "mask_mm", "binoviewer_factor", "settles_s", "stands_on")
    assert not any(hand.field(name).isVisible() for name in names)
    hand.press(more(hand))
    for name, text in zip(names, ("25", "80", "1.7", "3"), strict=False):
        hand.type(name, text)
    hand.choose("stands_on", "a balcony")
    six = hand.profile.telescopes[0]
    assert [getattr(six, name) for name in names] == [25.0, 80.0, 1.7, 3.0, Stand.BALCONY]
    hand.press(more(hand))
    assert all(hand.field(name).isVisible() for name in names)
    # Each key in the list was a step of its own.
    hand.undo()
    assert hand.profile.telescopes[0].stands_on is Stand.DECK
    hand.type("mask_mm", "150")
    hand.leave()
    assert "must be less than the aperture" in hand.field("mask_mm").message
    assert hand.profile.telescopes[0].mask_mm is None


def test_a_mask_is_told_in_the_unit_that_is_chosen(hand: GearHand) -> None:
    hand.open("Six-inch")
    hand.press(more(hand))
    hand.type("mask_mm", "76.2")
    hand.leave()
    lowest = hand.view.gives.table.model().index(0, WORDS)
    assert "a telescope of 76.2 mm without obstruction" in lowest.data()
    hand.open("Observer")
    hand.choose("length", "inches")
    lowest = hand.view.gives.table.model().index(0, WORDS)
    # 150 mm are 5.91 in.
    assert "a telescope of 3 in without obstruction" in lowest.data()
    assert "than the whole 5.91 in shows" in lowest.data()
    hand.open("Six-inch")
    hand.type("mask_mm", "6")
    hand.leave()
    assert "must be less than the aperture, 5.91 in" in hand.field("mask_mm").message


def test_the_usual_hours_are_typed_by_either_clock(hand: GearHand) -> None:
    hand.open("Observer")
    assert (hand.text("out_from"), hand.text("out_until")) == ("dusk", "dawn")
    hand.type("out_until", "23:30")
    hand.leave()
    hand.type("out_from", "7:30 pm")
    assert hand.profile.preferences.out_from == "19:30"
    hand.type("out_until", "25:00")
    hand.leave()
    assert "19:30 or 7:30 pm, or the word dawn" in hand.field("out_until").message
    hand.type("out_until", "18:30")
    hand.leave()
    assert hand.field("out_until").message.startswith("Out until must be after out from")
    assert hand.profile.preferences.out_until == "23:30"
    hand.type("out_until", "00:15")
    assert hand.profile.preferences.out_until == "00:15"
    hand.choose("clock", "12 hours")
    assert (hand.text("out_from"), hand.text("out_until")) == ("7:30 pm", "12:15 am")


def test_the_blur_of_a_first_look_is_the_owners_to_change(hand: GearHand) -> None:
    hand.open("Observer")
    assert not hand.field("fair_arcsec").isVisible()
    hand.press(more(hand))
    assert hand.text("fair_arcsec") == "1.45"
    hand.type("fair_arcsec", "2")
    assert hand.profile.air.fair_arcsec == 2.0
    hand.type("boiling_arcsec", "1.5")
    hand.leave()
    assert "must be less than" in hand.field("boiling_arcsec").message
    assert hand.profile.air.boiling_arcsec == 3.0


def test_a_focal_ratio_is_told_as_it_is_said(hand: GearHand) -> None:
    """1200 mm over 254 mm is 4.724: nobody says more than f/4.7."""
    scope = evolve(hand.profile.telescopes[0], aperture_mm=254)
    hand.state.edit_profile("Larger", evolve(hand.profile, telescopes=(scope,)))

    assert "f/4.7" in hand.words()
    assert "f/4.72" not in hand.words()
