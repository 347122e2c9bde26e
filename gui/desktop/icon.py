"""The program's icon in any size, painted from its one drawing."""

from importlib import resources

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtSvg import QSvgRenderer


def icon_image(size_px: int) -> QImage:
    """Return the icon as a square picture."""
    drawing = resources.files("resources").joinpath("stillair.svg").read_bytes()
    image = QImage(size_px, size_px, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    QSvgRenderer(QByteArray(drawing)).render(painter)
    painter.end()
    return image


def icon_png(size_px: int) -> bytes:
    """Return the icon as the content of a PNG file."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    icon_image(size_px).save(buffer, "PNG")  # type: ignore[call-overload]
    return bytes(buffer.data().data())
