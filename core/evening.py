"""The evening in order: what to prepare, when each target is worth a look, and when to stop."""

from datetime import datetime
from enum import StrEnum

from attrs import frozen

from core.sky.bodies import Body


class ItemKind(StrEnum):
    """What an item of the evening is about, in the order in which it is told."""

    FINDER = "finder"
    CARRY_OUT = "carry_out"
    READY = "ready"
    TARGET = "target"
    STOP = "stop"


@frozen(kw_only=True)
class EveningItem:
    """One item on the evening's time axis, from ``start`` to ``end`` (UTC); for a mere moment they are equal.

    ``title`` is a word or two for a strip under a chart, ``words`` one or more plain sentences. ``body`` is
    set for a target. ``caution`` marks words of safety.
    """

    kind: ItemKind
    start: datetime
    end: datetime
    title: str
    words: str
    body: Body | None = None
    caution: bool = False
