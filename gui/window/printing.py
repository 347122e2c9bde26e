"""Printing: asks for a printer, and puts pages on its paper."""

from PySide6.QtCore import QMarginsF, QRectF, QSizeF, Qt
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QWidget

from core.drawing.paper_sizes import Paper
from core.situation.situation import Situation

_SIZES = {Paper.A4: QPageSize.PageSizeId.A4, Paper.LETTER: QPageSize.PageSizeId.Letter}
# Twice what a printer's dots let the eye see at arm's length; more only takes longer.
_DOTS_PER_INCH = 300.0


def ask_printer(parent: QWidget, paper: Paper) -> QPrinter | None:
    """Ask for a printer, upright paper of that size in it; None when it was not to be."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName("Evening")
    prepare(printer, paper)
    return printer if QPrintDialog(printer, parent).exec() else None


def prepare(printer: QPrinter, paper: Paper) -> None:
    """Let a printer use the whole of upright paper: the sheet has margins of its own."""
    printer.setFullPage(True)
    size = QPageSize(_SIZES[paper])
    printer.setPageLayout(QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF()))


def page_pictures(situation: Situation, paper: Paper, *, with_place: bool) -> list[bytes]:
    """Return the pages of a situation's sheet as PNG files; for another thread than the window's."""
    from core.drawing.evening_sheet import draw_evening_sheet
    from core.drawing.paper import PaperMeasure, png_of_pages

    pages = draw_evening_sheet(paper, PaperMeasure(), situation, with_place=with_place)
    return [png_of_pages([page], dots_per_inch=_DOTS_PER_INCH) for page in pages]


def print_pages(printer: QPrinter, pictures: list[bytes]) -> None:
    """Print pictures, one on each page, as large as its paper allows."""
    painter = QPainter(printer)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    for number, picture in enumerate(pictures):
        if number:
            printer.newPage()
        image = QImage.fromData(picture)
        room = QRectF(painter.viewport())
        size = QSizeF(image.size()).scaled(room.size(), Qt.AspectRatioMode.KeepAspectRatio)
        place = QRectF(
            room.x() + (room.width() - size.width()) / 2,
            room.y() + (room.height() - size.height()) / 2,
            size.width(),
            size.height(),
        )
        painter.drawImage(place, image)
    painter.end()
