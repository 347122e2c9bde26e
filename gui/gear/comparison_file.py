"""A drawing as a file: a PNG to show or a PDF to print."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from core.drawing.comparison_sheet import SHEET_INCHES
from core.problems import refuse
from core.record.files import write_atomically

_DOTS_PER_INCH = 150.0
_FORMATS = {".png": "png", ".pdf": "pdf"}


def write_sheet(path: Path, draw: Callable[[Figure], None]) -> None:
    """Write what ``draw`` draws on a sheet, in the format that the name ends in.

    Raises ProblemsError for another ending, or when the file cannot be written.
    """
    file_format = _FORMATS.get(path.suffix.lower())
    if file_format is None:
        raise refuse("must end in .png or .pdf", where=path.name)
    figure = Figure(figsize=SHEET_INCHES, dpi=_DOTS_PER_INCH)
    FigureCanvasAgg(figure)
    draw(figure)
    content = BytesIO()
    figure.savefig(content, format=file_format)
    write_atomically(path, content.getvalue())
