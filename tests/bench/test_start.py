"""Start-up and memory of the real window, beside a bare PySide6 and Matplotlib window in the same run.

Each side is a fresh interpreter: time from the command to the plot, or to the answer and the chart, on the
screen, and peak memory up to two seconds later. As for whoever has installed the program, its modules are
compiled already: Python does it once, in the pair that is not counted. Both run on the platform that
QT_QPA_PLATFORM names (offscreen by default).
"""

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

from attrs import frozen
from pytest_benchmark.fixture import BenchmarkFixture

ROOT = Path(__file__).resolve().parent.parent.parent
PROFILE = ROOT / "sample_profiles" / "balcony_greece.toml"
RUNS = 5

# Tells the moment of the first paint, then ends the program and tells its peak memory.
WATCH = """
import resource, sys, time
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication, QMainWindow

class Watch(QObject):
    painted = False
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint and not self.painted and is_complete():
            self.painted = True
            print("painted", time.monotonic(), flush=True)
            QTimer.singleShot(2000, QApplication.instance().quit)
        return False

def is_complete():
    return True

def watch(app):
    app.watch = Watch()
    app.installEventFilter(app.watch)

def tell_memory():
    print("peak_kib", resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, flush=True)
"""

BARE = (
    WATCH
    + """
from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg
from matplotlib.figure import Figure
app = QApplication(sys.argv)
watch(app)
window = QMainWindow()
figure = Figure()
figure.subplots().plot([0, 1], [0, 1])
window.setCentralWidget(FigureCanvasQTAgg(figure))
window.resize(1280, 800)
window.show()
app.exec()
tell_memory()
"""
)

# The program is loaded in its own order before anything is watched.
STILLAIR = (
    """
import gui.app
gui.app.load_window()
"""
    + WATCH
    + """
import PySide6.QtWidgets as widgets

def is_complete():
    # The answer and the chart are there; what is painted now shows them.
    for window in QApplication.topLevelWidgets():
        state, view = getattr(window, "state", None), getattr(window, "current_view", None)
        canvas = getattr(view, "canvas", None)
        if state is not None and state.situation.answer is not None and getattr(canvas, "chart", None):
            return True
    return False

made = widgets.QApplication.__init__
def init(self, *args):
    made(self, *args)
    watch(self)
widgets.QApplication.__init__ = init
from gui.app import main
main(sys.argv[1:])
tell_memory()
"""
)


@frozen
class Start:
    """What one fresh interpreter took."""

    seconds: float
    peak_mib: float


def start(script: str, state_folder: Path, *words: str) -> Start:
    """Run a script in a fresh interpreter and return what it told."""
    environment = os.environ | {
        "STILLAIR_STATE_FOLDER": str(state_folder),
        "PYTHONDONTWRITEBYTECODE": "",
        "PYTHONPYCACHEPREFIX": str(state_folder / "compiled"),
    }
    begun = time.monotonic()
    told = subprocess.run(
        [sys.executable, "-c", script, *words],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    ).stdout.split()
    return Start(float(told[1]) - begun, float(told[3]) / 1024)


def test_answer_and_chart_come_up_soon(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    pairs: list[tuple[Start, Start]] = []

    def start_both() -> None:
        pairs.append((start(BARE, tmp_path), start(STILLAIR, tmp_path, str(PROFILE))))

    # The warm-up pair compiles, and brings the files into the disk's memory.
    benchmark.pedantic(start_both, rounds=RUNS, warmup_rounds=1)

    bare, ours = zip(*pairs[1:], strict=True)
    bare_s = statistics.median(each.seconds for each in bare)
    ours_s = statistics.median(each.seconds for each in ours)
    peak_mib = max(each.peak_mib for each in ours)
    benchmark.extra_info.update(bare_s=bare_s, ours_s=ours_s, peak_mib=peak_mib)
    assert ours_s <= 2 * bare_s
