"""Work that takes too long for the window's own thread."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from typing import Any, Protocol, TypeVar

from PySide6.QtCore import QObject, Qt, Signal

T = TypeVar("T")


class Executor(Protocol):
    """What runs a job: a pool of threads, or something that runs it at once."""

    def submit(self, work: Callable[[], None], /) -> object:
        """Run the work, now or later."""


class AtOnce:
    """An executor that runs each job before it returns; for pictures and tests."""

    def submit(self, work: Callable[[], None], /) -> None:
        """Run the work now."""
        work()


class Jobs(QObject):
    """Run jobs elsewhere and hand their results over on the window's thread.

    A job is given under a name; a newer job of the same name makes the older one stale, and a stale
    result is dropped. A job's error reaches ``failed``, or without that ``sys.excepthook``.
    """

    _finished = Signal(object)

    def __init__(self, executor: Executor | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._own_pool = None if executor else ThreadPoolExecutor(1, "stillair")
        self._executor: Executor = executor or self._own_pool  # type: ignore[assignment]  # one of both is there
        self._tokens: dict[str, int] = {}
        kind = Qt.ConnectionType.DirectConnection if executor else Qt.ConnectionType.QueuedConnection
        self._finished.connect(self._hand_over, kind)

    def submit(
        self,
        name: str,
        work: Callable[[], T],
        done: Callable[[T], None],
        failed: Callable[[Exception], None] | None = None,
    ) -> None:
        """Run ``work`` elsewhere, then ``done`` with its result, or ``failed`` with its error, here."""
        token = self._tokens.get(name, 0) + 1
        self._tokens[name] = token

        def fresh() -> bool:
            return self._tokens[name] == token

        self._executor.submit(partial(self._run, work, done, failed, fresh))

    def cancel(self, name: str) -> None:
        """Drop the result of a job that still runs."""
        self._tokens[name] = self._tokens.get(name, 0) + 1

    def close(self) -> None:
        """Drop what still waits and every result to come."""
        for name in self._tokens:
            self.cancel(name)
        if self._own_pool is not None:
            self._own_pool.shutdown(wait=True, cancel_futures=True)

    def _run(
        self,
        work: Callable[[], Any],
        done: Callable[[Any], None],
        failed: Callable[[Exception], None] | None,
        fresh: Callable[[], bool],
    ) -> None:
        if not fresh():
            return
        try:
            result = work()
        except Exception as error:  # noqa: BLE001 - every error is handed over, none is swallowed
            report = partial(failed or _raise, error)
        else:
            report = partial(done, result)
        self._finished.emit(partial(_if_fresh, fresh, report))

    @staticmethod
    def _hand_over(report: Callable[[], None]) -> None:
        report()


def _if_fresh(fresh: Callable[[], bool], report: Callable[[], None]) -> None:
    if fresh():
        report()


def _raise(error: Exception) -> None:
    raise error
