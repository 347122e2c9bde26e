"""Texts of tooltips, which Qt takes for rich text where they look like it, shown letter by letter."""

from html import escape
from typing import Final

from PySide6.QtGui import Qt

_AS_IT_IS: Final = '<p style="white-space:pre-wrap">{text}</p>'


def plain_tip(text: str) -> str:
    """Return what to give to ``setToolTip`` so that a text from a file is shown as it was typed.

    Rich text could show pictures from the disk. A tooltip has no switch for plain text as a label has one.
    """
    return _AS_IT_IS.format(text=escape(text)) if Qt.mightBeRichText(text) else text
