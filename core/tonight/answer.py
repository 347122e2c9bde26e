"""The one answer on top: what is in prospect, and the one thing that limits it."""

from attrs import frozen

from core.ladder.ladder import Ladder
from core.moments.best_minutes import BestMinutes
from core.sky.bodies import Body
from core.tonight.limiter import Limiter, find_limiter
from core.tonight.prospect import Prospect


@frozen(kw_only=True)
class Answer:
    """The answer for one evening and one planet, as facts."""

    prospect: Prospect
    limiter: Limiter

    @classmethod
    def of(cls, prospect: Prospect) -> "Answer":
        """Return the answer that a prospect comes to."""
        return cls(prospect=prospect, limiter=find_limiter(prospect))

    @property
    def planet(self) -> Body:
        """The body that it is about."""
        return self.prospect.planet

    @property
    def best(self) -> BestMinutes | None:
        """The best minutes still to come."""
        return self.prospect.best

    @property
    def ladder(self) -> Ladder | None:
        """The ladder that its powers are of."""
        return self.prospect.ladder
