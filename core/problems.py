"""What is wrong with something a person gave: one sentence each, with its place."""

from attrs import frozen


@frozen
class Problem:
    """One thing that is wrong.

    ``where`` is the place as a person would look for it (``telescopes[2].aperture_mm``), empty when the
    whole input is meant; ``what`` is the rest of the sentence with the allowed range.
    """

    where: str
    what: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what}" if self.where else self.what


class ProblemsError(ValueError):
    """Input that is refused, with every problem found in it.

    Raised by readers of files and by the command line's own checks; never for a fault of the program.
    """

    def __init__(self, *problems: Problem) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems: tuple[Problem, ...] = problems


def refuse(what: str, *, where: str = "") -> ProblemsError:
    """Return the error that refuses one thing."""
    return ProblemsError(Problem(where, what))
