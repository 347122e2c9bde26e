"""The look of the window: one palette for every widget, and letters that grow on request."""

import sys
from functools import cache
from importlib import resources
from importlib.util import find_spec
from pathlib import Path
from string import Template

from PySide6.QtCore import QDir, QObject, Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QFontInfo, QPalette, qt_set_sequence_auto_mnemonic
from PySide6.QtWidgets import QApplication

from core.drawing.palette import Palette, PaletteName, load_palette
from gui.widgets.red_filter import RedFilters

# Qt counts 72 of the window's pixels to an inch on macOS and 96 elsewhere: 14 px either way.
USUAL_POINTS = 14.0 if sys.platform == "darwin" else 10.5
# Sizes of letters by their names in the style sheet, times the base.
_SIZES = {"small": 0.9, "base": 1.0, "large": 1.18, "title": 1.42, "numeral": 1.75}


class Theme(QObject):
    """Dresses the whole application, which has one theme (``of``).

    ``wear`` may be called at any time, best before the first window.
    """

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._app = app
        self._filters = RedFilters(app)
        # Before the style, of whose coming every widget hears: some ask which palette is worn.
        self._worn: tuple[str, float] | None = None
        app.setStyle("Fusion")
        # A system's own file dialog would be bright at night.
        app.setAttribute(Qt.ApplicationAttribute.AA_DontUseNativeDialogs)
        # Icons of a style are neither of the palette nor of the program.
        app.setAttribute(Qt.ApplicationAttribute.AA_DontShowIconsInMenus)
        if sys.platform != "darwin":  # where everybody looks for it at the top of the screen
            app.setAttribute(Qt.ApplicationAttribute.AA_DontUseNativeMenuBar)
        else:
            qt_set_sequence_auto_mnemonic(True)  # else an underlined letter is no key there
        # There Tab passes buttons and lists by, unless it is told otherwise.
        app.styleHints().setTabFocusBehavior(Qt.TabFocusBehavior.TabFocusAllControls)
        QDir.setSearchPaths("look", [str(resources.files("resources"))])
        self._family = _usable_family()

    @classmethod
    def of(cls, app: QApplication) -> "Theme":
        """Return the application's theme."""
        return app.findChild(cls) or cls(app)

    @property
    def palette_name(self) -> str:
        """The palette that is worn, the first one before any is."""
        return PaletteName.DAY.value if self._worn is None else self._worn[0]

    def wear(self, palette_name: str, text_scale: float = 1.0) -> None:
        """Put on a palette by its name, with letters ``text_scale`` times their usual size."""
        if (palette_name, text_scale) == self._worn:
            return
        self._worn = (palette_name, text_scale)
        palette = load_palette(palette_name)
        at_night = palette.name is PaletteName.NIGHT
        dark = palette.name is not PaletteName.DAY
        if not at_night:  # before all the events of dressing, each of which the filters would look at
            self._filters.set_on(False)
        self._app.styleHints().setColorScheme(Qt.ColorScheme.Dark if dark else Qt.ColorScheme.Light)
        font = QFont(self._family) if self._family else self._app.font()
        font.setPointSizeF(USUAL_POINTS * text_scale)
        self._app.setFont(font)
        # Qt puts a new sheet in the place of an old one by dressing every widget once for each that it lies
        # in; without an old one, once.
        self._app.setStyleSheet("")
        self._app.setPalette(widget_palette(palette))
        self._app.setStyleSheet(style_sheet(palette, text_scale))
        if at_night:
            self._filters.set_on(True)

    def dim(self, step: int) -> None:
        """Take the light of the night palette down to a step, from 0 to the last of ``DIMMER_STEPS``."""
        self._filters.dim(step)


def worn_palette() -> str:
    """Return the name of the palette that the application wears."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    return Theme.of(app).palette_name


def widget_palette(palette: Palette) -> QPalette:
    """Return Qt's palette in the colours of ours, for every state of a widget."""
    role = QPalette.ColorRole
    colours = {
        role.Window: palette.background,
        role.WindowText: palette.ink,
        role.Base: palette.surface,
        role.AlternateBase: palette.background,
        role.Text: palette.ink,
        role.Button: palette.surface,
        role.ButtonText: palette.ink,
        role.BrightText: palette.warning,
        role.Highlight: palette.chosen,
        role.HighlightedText: palette.chosen_ink,
        role.Accent: palette.accent,
        role.Link: palette.accent,
        role.LinkVisited: palette.accent,
        role.PlaceholderText: palette.faint_ink,
        role.ToolTipBase: palette.surface,
        role.ToolTipText: palette.ink,
        role.Light: palette.surface,
        role.Midlight: palette.surface,
        role.Mid: palette.line,
        role.Dark: palette.line,
        role.Shadow: palette.line,
    }
    made = QPalette()
    for name, colour in colours.items():
        made.setColor(name, QColor(colour))
    for name in (role.WindowText, role.Text, role.ButtonText, role.HighlightedText):
        made.setColor(QPalette.ColorGroup.Disabled, name, QColor(palette.faint_ink))
    made.setColor(QPalette.ColorGroup.Disabled, role.Highlight, QColor(palette.line))
    return made


def style_sheet(palette: Palette, text_scale: float = 1.0) -> str:
    """Return the style sheet of ``resources/window.qss`` with colours and sizes filled in."""
    colours = {name: value for name in _colour_names() if isinstance(value := getattr(palette, name), str)}
    sizes = {f"{name}_size": f"{USUAL_POINTS * text_scale * by:.2f}pt" for name, by in _SIZES.items()}
    return Template(_sheet()).substitute(colours | sizes, name=palette.name.value)


def _colour_names() -> tuple[str, ...]:
    return (
        "background",
        "surface",
        "ink",
        "faint_ink",
        "line",
        "accent",
        "accent_ink",
        "chosen",
        "chosen_ink",
        "chosen_frame",
        "warning",
    )


@cache
def _sheet() -> str:
    return resources.files("resources").joinpath("window.qss").read_text("utf-8")


def _usable_family() -> str | None:
    """Return a family to name, or None where the system has fonts of its own.

    Without any, Qt shows an empty box for each letter; Matplotlib brings a font along.
    """
    if QFontInfo(QFont()).family():
        return None
    # Found without being imported, which would take longer than all else here.
    package = find_spec("matplotlib")
    if package is None or package.origin is None:
        return None
    font = Path(package.origin).parent / "mpl-data" / "fonts" / "ttf" / "DejaVuSans.ttf"
    added = QFontDatabase.addApplicationFont(str(font))
    families = QFontDatabase.applicationFontFamilies(added)
    return families[0] if families else None
