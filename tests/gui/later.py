"""Work that waits until a test lets it run."""

from collections.abc import Callable


class Later:
    """An executor whose jobs run when it is told to."""

    def __init__(self) -> None:
        self.works: list[Callable[[], None]] = []

    def submit(self, work: Callable[[], None], /) -> None:
        self.works.append(work)

    def run(self) -> None:
        """Run all that waits, and what comes by that."""
        while self.works:
            self.works.pop(0)()
