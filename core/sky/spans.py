"""Stretches of time: as UTC times to be told, and as arrays (N, 2) of Unix seconds to be reckoned with."""

from datetime import datetime

import numpy as np
from attrs import frozen

from core.arrays import Floats, Truths
from core.sky.instant import instant


@frozen(kw_only=True)
class Span:
    """From ``start`` up to, not including, ``end`` (UTC)."""

    start: datetime
    end: datetime

    def holds(self, moment: datetime) -> bool:
        """Tell whether a moment lies in it."""
        return self.start <= moment < self.end


def to_spans(spans: Floats) -> tuple[Span, ...]:
    """Return spans (N, 2) of Unix seconds as UTC times."""
    return tuple(Span(start=instant(start), end=instant(end)) for start, end in spans)


def covers(spans: Floats, times_s: Floats) -> Truths:
    """Tell which times (N,) lie in any of the spans (M, 2), starts included and ends not.

    >>> covers(np.array([[0.0, 10.0], [20.0, 30.0]]), np.array([0.0, 10.0, 25.0])).tolist()
    [True, False, True]
    """
    starts_s, ends_s = np.sort(spans, axis=0).T
    return np.asarray(
        starts_s.searchsorted(times_s, side="right") > ends_s.searchsorted(times_s, side="right")
    )


@frozen(eq=False)
class Pieces:
    """Stretches of time between neighbouring edges of a set of spans: nothing changes within one."""

    starts_s: Floats
    ends_s: Floats

    @classmethod
    def between(cls, *spans: Floats) -> "Pieces":
        """Cut time at every edge of the spans (N, 2)."""
        edges_s = np.sort(np.concatenate([span.ravel() for span in spans]))
        starts_s, ends_s = edges_s[:-1], edges_s[1:]
        are_apart = starts_s < ends_s
        return cls(starts_s[are_apart], ends_s[are_apart])

    @property
    def spans_s(self) -> Floats:
        """Each piece as a span, (N, 2)."""
        return np.column_stack([self.starts_s, self.ends_s])

    def within(self, spans: Floats) -> Truths:
        """Tell which pieces lie in any of the spans."""
        return covers(spans, (self.starts_s + self.ends_s) / 2.0)


def intersect(first: Floats, second: Floats) -> Floats:
    """Return the spans (N, 2) that two sets of spans share.

    >>> intersect(np.array([[0.0, 10.0], [20.0, 30.0]]), np.array([[5.0, 25.0]])).tolist()
    [[5.0, 10.0], [20.0, 25.0]]
    """
    pieces = Pieces.between(first, second)
    keep = pieces.within(first) & pieces.within(second)
    return pieces.spans_s[keep]
