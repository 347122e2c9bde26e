"""The one answer on top: what is in prospect, and the one thing that limits it."""

from attrs import frozen

from core.ladder.ladder import Ladder
from core.moments.best_minutes import BestMinutes, find_best_minutes, is_worth_a_climb
from core.moments.last_call import LastCall, last_call
from core.sky.bodies import Body
from core.tonight.limiter import POOR, Limiter, find_limiter
from core.tonight.prospect import Prospect


@frozen(kw_only=True)
class Answer:
    """The answer for one evening and one planet, as facts.

    In the last minutes before sunrise there is but a ``last_call``.
    """

    prospect: Prospect
    limiter: Limiter
    last_call: LastCall | None = None

    @classmethod
    def of(cls, prospect: Prospect) -> "Answer":
        """Return the answer that a prospect comes to."""
        return cls(
            prospect=prospect,
            limiter=find_limiter(prospect),
            last_call=last_call(prospect.night, prospect.now),
        )

    @property
    def planet(self) -> Body:
        """The body that it is about."""
        return self.prospect.planet

    @property
    def is_poor(self) -> bool:
        """Whether another date is sought.

        Never where this night has good minutes of the planet, or where it is in hand only in passing.
        """
        prospect = self.prospect
        if self.limiter not in POOR or prospect.over is not None or self.last_call is not None:
            return False
        if prospect.in_passing:
            return False
        whole = find_best_minutes(prospect.night, prospect.planet)
        return whole is None or not is_worth_a_climb(whole)

    @property
    def best(self) -> BestMinutes | None:
        """The best minutes still to come."""
        return self.prospect.best

    @property
    def ladder(self) -> Ladder | None:
        """The ladder that its powers are of."""
        return self.prospect.ladder
