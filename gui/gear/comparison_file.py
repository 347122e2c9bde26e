"""The page of two scopes as a file: a PDF or an SVG to print, a PNG to show."""

from collections.abc import Callable
from pathlib import Path

from core.drawing.comparison_sheet import SHEET_HEIGHT, SHEET_WIDTH
from core.drawing.marks import Drawing, Page
from core.problems import refuse
from core.record.files import write_atomically

_FORMATS = {".pdf": "pdf", ".png": "png", ".svg": "svg"}


def write_sheet(path: Path, draw: Callable[[Page], Drawing]) -> None:
    """Write what ``draw`` draws on a sheet, in the format that the name ends in.

    Raises ProblemsError for another ending, or when the file cannot be written.
    """
    file_format = _FORMATS.get(path.suffix.lower())
    if file_format is None:
        raise refuse("must end in .png, .pdf or .svg", where=path.name)
    # Matplotlib takes half a second to load, and nothing else in the window needs it.
    from core.drawing.paper import file_content, paper

    write_atomically(path, file_content(draw(paper(SHEET_WIDTH, SHEET_HEIGHT)), file_format))
