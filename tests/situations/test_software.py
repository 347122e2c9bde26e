"""What goes wrong on a desktop: decimal marks, other screens, dates out of range, damaged files."""

import json
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from attrs import evolve
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QLocale, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QComboBox, QScrollArea, QWidget
from pytestqt.qtbot import QtBot

from core.gear.figures import parse_aperture_mm, parse_eyepiece_mm, parse_factor
from core.record.files import previous_copy
from core.record.observer import Profile
from core.record.profile import dumps_profile, read_profile, save_profile
from core.sky.ephemeris import usable_dates
from gui.app import main
from gui.height.view import HeightView
from gui.ladder.view import LadderView
from gui.profile.drafts import used_places
from gui.profile.session import Session
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.readings import reads
from gui.widgets.typed_field import TypedField
from gui.window.start import _first_profile
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import EVENING_START, HandClock, MakeShell, MakeState, make_profile
from tests.situations.owners import eyepieces, owner, place, scope

DECIMALS = {"12.5": 12.5, "12,5": 12.5, " 12,50 ": 12.5, "12.3": 12.3, "12,3": 12.3, "9.": 9.0}


@pytest.fixture(params=["C", "en_US", "de_DE", "de_CH", "fr_FR"])
def country(request: pytest.FixtureRequest) -> Iterator[str]:
    before = QLocale()
    QLocale.setDefault(QLocale(request.param))
    yield request.param
    QLocale.setDefault(before)


def test_either_decimal_mark_is_one_in_every_country(qtbot: QtBot, theme: object, country: str) -> None:
    field = TypedField("focal_length", "Focal length", read=reads(parse_eyepiece_mm), write=str)
    qtbot.addWidget(field)
    field.show()
    for typed, value in DECIMALS.items():
        field.editor.selectAll()
        qtbot.keyClicks(field.editor, typed)
        assert field.reading.value is not None, typed
        assert field.reading.value.low_mm == value


@pytest.mark.parametrize(
    ("parse", "typed", "choices"),
    [
        # Ten times too long, as when a mark is swallowed: asked about.
        (parse_eyepiece_mm, "125", ["12.5 mm"]),
        (parse_eyepiece_mm, "123", ["12.3 mm"]),
        # 1200,5 is 1200.5 and never 12005; a point before three digits may be either.
        (parse_aperture_mm, "1200,5", []),
        (parse_aperture_mm, "1.200", ["1200 mm"]),
        (parse_factor, "6.3", ["0.63x"]),
        (parse_factor, "25", []),
    ],
)
def test_a_figure_out_of_range_is_asked_about_or_refused_in_every_country(
    qtbot: QtBot, theme: object, country: str, parse: Callable[[str], object], typed: str, choices: list[str]
) -> None:
    field = TypedField("figure", "Figure", read=reads(parse), write=str)
    qtbot.addWidget(field)
    field.show()

    qtbot.keyClicks(field.editor, typed)

    assert not field.reading.is_good
    assert field.reading.problem.endswith(("?", "."))
    assert [choice.label for choice in field.reading.choices][: len(choices)] == choices


def at(view: HeightView, moment: datetime) -> QPointF:
    """A place over a moment where no planet's curve or name is in the way."""
    chart = view.canvas.chart
    assert chart is not None
    x = chart.x_of(moment)
    y = next(y for y in map(chart.frame.y, range(88, 0, -4)) if chart.body_at(x, y) is None)
    return QPointF(*view.canvas.from_page(x, y))


@pytest.mark.parametrize("kind", [HeightView, LadderView])
def test_a_chart_keeps_its_place_and_its_size_from_screen_to_screen(
    qtbot: QtBot,
    theme: object,
    state: AppState,
    monkeypatch: pytest.MonkeyPatch,
    kind: type[HeightView] | type[LadderView],
) -> None:
    view = kind(state)
    qtbot.addWidget(view)
    view.resize(800, 440)
    view.show()
    qtbot.waitExposed(view)
    canvas = view.canvas
    canvas.ensure_drawn()
    usual = canvas.page
    # To a laptop's screen and back, to scaled ones, as after waking from sleep.
    for ratio in (2.0, 1.0, 1.25, 1.5):
        monkeypatch.setattr(canvas, "devicePixelRatioF", lambda ratio=ratio: ratio)
        canvas.ensure_drawn()
        # The drawing covers the place to the last pixel, and its words keep their size.
        for place_px, drawn_px in (
            (canvas.width(), canvas._picture.width()),
            (canvas.height(), canvas._picture.height()),
        ):
            assert place_px <= drawn_px / ratio < place_px + 1.6 / ratio
        assert canvas._picture.devicePixelRatio() == ratio
        assert canvas.page.measure == usual.measure
        assert canvas.chart is not None
        assert canvas.chart.drawing.page == canvas.page
        if isinstance(view, HeightView):
            # What the mouse points at is what is read out: a pixel is about a minute wide.
            moment = EVENING_START + timedelta(minutes=30 * ratio)
            QTest.mouseClick(canvas, Qt.MouseButton.LeftButton, pos=at(view, moment).toPoint())
            assert abs(state.situation.time - moment) <= timedelta(minutes=1)


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_no_button_is_cut_off_on_a_small_laptop(make_shell: MakeShell, state: AppState, view: int) -> None:
    shell = make_shell(state, view=view, size=(1366, 700))  # 768 less a task bar and a title

    for control in shell.findChildren(QAbstractButton) + shell.findChildren(QComboBox):
        if control.isVisible() and not control.visibleRegion().isEmpty() and not _is_scrolled_to(control):
            corner = control.mapTo(shell, control.rect().bottomRight())
            assert shell.rect().contains(corner), control.accessibleName()


def _is_scrolled_to(control: QWidget) -> bool:
    """Tell whether a control stands in a form that scrolls, and is reached by that."""
    parent = control.parentWidget()
    while parent is not None:
        if isinstance(parent, QScrollArea) and parent.verticalScrollBar().maximum() > 0:
            return True
        parent = parent.parentWidget()
    return False


FIRST, LAST = usable_dates()


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.dates(date(1800, 1, 1), FIRST - timedelta(days=1)) | st.dates(LAST + timedelta(days=1)))
def test_a_date_outside_the_tables_is_refused_with_their_range(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], evening: date
) -> None:
    # DE421 covers 1899-07-29 to 2053-10-09.
    path = tmp_path / "profile.toml"
    path.write_text(dumps_profile(owner(scope("reflector", 150, 1200))), "utf-8")
    for words in (
        ["heights", str(path), "--evening", evening.isoformat()],
        ["ladder", str(path), "--planet", "mars", "--evening", evening.isoformat()],
        ["ladder", str(path), "--planet", "moon", "--at", f"{evening}T23:00"],
    ):
        assert main(words) == 2
        told = capsys.readouterr()
        assert told.out == ""
        assert told.err.count("\n") == 1
        assert evening.year > 9990 or "choose a date from 1899-08-14 to 2053-09-23" in told.err


@pytest.mark.parametrize("evening", [FIRST, LAST, LAST - timedelta(days=90)])
@pytest.mark.parametrize("latitude_deg", [69.65, -45.0])
def test_the_ends_of_the_tables_still_have_their_answers(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], evening: date, latitude_deg: float
) -> None:
    # Looking ahead for a better evening runs past the end of the tables there.
    path = tmp_path / "profile.toml"
    kit = owner(
        scope("reflector", 150, 1200),
        eyepieces=eyepieces(25, 10),
        site=place(latitude_deg, 19, "Europe/Oslo"),
    )
    path.write_text(dumps_profile(kit), "utf-8")

    assert main(["heights", str(path), "--evening", evening.isoformat(), "--json"]) == 0

    told = json.loads(capsys.readouterr().out)
    assert len(told["bodies"]) == 8
    assert "two years" not in told["answer"] or evening < date(2051, 9, 23)


def test_the_window_asks_for_no_date_that_cannot_be_had(make_shell: MakeShell, make_state: MakeState) -> None:
    state = make_state()
    told: list[str] = []
    state.told.connect(told.append)
    shell = make_shell(state, view=HEIGHT)
    for evening, step in ((LAST, 1), (FIRST, -1)):
        state.set_evening(evening)
        assert state.situation.night is not None
        assert state.situation.answer is not None
        state.step_evening(step)
        assert state.situation.evening == evening
        assert "choose a date from 1899-08-14 to 2053-09-23" in told[-1]
    assert shell.strip.date.minimumDate().toPython() == FIRST
    assert shell.strip.date.maximumDate().toPython() == LAST


def whole_profile() -> bytes:
    return dumps_profile(make_profile()).encode()


# As a power cut, another program, a newer Stillair or a slip of the hand leave a file behind.
DAMAGED = {
    "nothing in it": b"",
    "zero bytes": bytes(2000),
    "cut in half": whole_profile()[: len(whole_profile()) // 2] + b'"',
    "wrong types": b'schema = 1\nobserver = 5\ntelescopes = "none"\n',
    "newer": b"schema = 7\n",
    "another encoding": "schema = 1\nobserver = 'Lucía'\n".encode("latin-1"),
    "half a character": whole_profile() + "ü".encode()[:1],
    "wide characters": whole_profile().decode().encode("utf-16"),
}


@pytest.mark.parametrize("content", DAMAGED.values(), ids=DAMAGED)
def test_a_damaged_profile_neither_stops_the_start_nor_is_written_over(
    make_shell: MakeShell,
    make_state: MakeState,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    content: bytes,
) -> None:
    path = tmp_path / "kit.toml"
    path.write_bytes(content)

    profile, opened, trouble = _first_profile(None, Session().with_opened(path), used_places(tmp_path))

    # It starts with nothing, says so once, and leaves the file alone: the kit was typed by hand.
    assert (profile, opened) == (Profile(), None)
    assert trouble.startswith("The last profile, kit.toml, could not be opened and is left as it is: ")
    assert trouble.endswith(".")
    assert "\n" not in trouble
    state = make_state(profile)
    shell = make_shell(state, shown=False)
    assert path.read_bytes() == content
    # Saving something new under the same name sets the damaged file aside first.
    state.edit_profile("Begin anew", make_profile())
    monkeypatch.setattr(dialogs, "ask_save", lambda *_asked: path)
    assert shell.documents.save_as()
    assert read_profile(path).observer == "Ines"
    kept = [other.read_bytes() for other in tmp_path.iterdir() if other.is_file() and other != path]
    assert content in kept


@pytest.mark.parametrize("content", DAMAGED.values(), ids=DAMAGED)
def test_a_damaged_profile_names_the_good_copy_beside_it(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "kit.toml"
    save_profile(path, make_profile())
    save_profile(path, evolve(make_profile(), observer="Later"))
    path.write_bytes(content)

    _, _, trouble = _first_profile(None, Session().with_opened(path), used_places(tmp_path))

    assert f"as {previous_copy(path).name}" in trouble
    assert read_profile(previous_copy(path)).observer == "Ines"


@pytest.mark.parametrize("year", [1980, 2052, 2070])
def test_the_clock_of_a_machine_may_be_far_off(make_state: MakeState, clock: HandClock, year: int) -> None:
    clock.now = datetime(year, 1, 1, 20, tzinfo=UTC)

    state = make_state()

    assert (state.situation.night is None) == (year > 2053)
    assert bool(state.situation.night_problem) == (year > 2053)
