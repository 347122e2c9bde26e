"""The strip on top: what gives way in it before it takes another row."""

from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from gui.state import AppState
from gui.window.strip import Strip


def test_the_clocks_caption_is_short_before_the_strip_takes_another_row(
    qtbot: QtBot, state: AppState
) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    strip = Strip(state, window)
    window.resize(1400, 200)
    window.show()
    qtbot.waitExposed(window)
    told = []
    for width in range(1400, 700, -8):
        strip.resize(width, 120)
        QApplication.processEvents()
        told.append((strip.sizeHint().height(), strip.universal.text()))
    rows = sorted({height for height, _ in told})
    in_one = [caption for height, caption in told if height == rows[0]]

    assert len(rows) > 1
    assert (in_one[0], in_one[-1]) == ("Site time (UT 21:42)", "Site (UT 21:42)")
    # In two rows there is room again.
    assert next(caption for height, caption in told if height == rows[1]) == "Site time (UT 21:42)"
