"""An evening as a file: pages to print, a picture, a calendar or a table, by the ending of its name."""

from pathlib import Path
from typing import Final

from core.drawing.paper_sizes import Paper
from core.problems import refuse
from core.record.files import write_atomically
from core.situation.situation import Situation
from core.words.evening_sheet import NO_CALENDAR

ENDINGS: Final = (".pdf", ".png", ".ics", ".csv")


def check_ending(path: Path) -> None:
    """Raise ProblemsError unless a file's name ends in one of the ``ENDINGS``."""
    if path.suffix.lower() not in ENDINGS:
        raise refuse("must end in .pdf, .png, .ics or .csv", where=path.name or str(path))


def write_evening(path: Path, situation: Situation, paper: Paper, *, with_place: bool = False) -> None:
    """Write a situation's evening, which must have a night, over what is there.

    Coordinates are in it only ``with_place``. Raises ProblemsError in one sentence and leaves what was there.
    """
    check_ending(path)
    write_atomically(path, _content(path, situation, paper, with_place=with_place))


def _content(path: Path, situation: Situation, paper: Paper, *, with_place: bool) -> bytes | str:
    # What each of these needs takes long to load.
    match path.suffix.lower():
        case ".csv":
            from core.export.evening_csv import evening_csv

            return evening_csv(situation, with_place=with_place)
        case ".ics":
            if not situation.evening_steps:
                raise refuse(NO_CALENDAR, where=path.name)
            from core.export.evening_calendar import evening_calendar

            return evening_calendar(situation, with_place=with_place)
    from core.drawing.evening_sheet import draw_evening_sheet
    from core.drawing.paper import PaperMeasure, pdf_of_pages, png_of_pages

    pages = draw_evening_sheet(paper, PaperMeasure(), situation, with_place=with_place)
    return png_of_pages(pages) if path.suffix.lower() == ".png" else pdf_of_pages(pages)
