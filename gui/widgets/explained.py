"""Terms of the trade in labels: the pointer tells them in short, a click opens the glossary at them."""

from collections.abc import Sequence
from typing import Protocol, runtime_checkable

from PySide6.QtWidgets import QWidget

from core.words.glossary import Term
from core.words.names import labelled


def told_shortly(term: Term) -> str:
    """Return a term with the first sentence of its meaning."""
    return labelled(term.name, term.in_short)


@runtime_checkable
class Explains(Protocol):
    """A window that can open its glossary."""

    def explain(self, terms: Sequence[Term]) -> None:
        """Open the glossary at some terms."""


def explainer_of(widget: QWidget) -> Explains | None:
    """Return the nearest window about a widget that can open its glossary, None without one."""
    parent = widget.parentWidget()
    while parent is not None:
        if isinstance(parent, Explains):
            return parent
        parent = parent.parentWidget()
    return None
