"""The evening in order, as far as the owner and the sky have settled it."""

from core.lazy import lazy
from core.situation.choices import EveningSteps
from core.situation.findings import Findings
from core.tonight.plan import plan_evening
from core.tonight.steps import EveningItem


class InOrder(Findings):
    """The steps of the evening, with what was ticked off, moved and added."""

    @lazy
    def step_notes(self) -> EveningSteps:
        """What was done with the steps of this evening at this site."""
        here = self.evening, self._site_here
        found = next((notes for notes in self._step_notes if notes.is_of(*here)), None)
        return found or EveningSteps(evening=here[0], site_id=here[1])

    @lazy
    def evening_steps(self) -> tuple[EveningItem, ...]:
        """The steps of the evening by their times: preparation, targets, when to stop, and own ones."""
        if self.night is None:
            return ()
        return plan_evening(
            self.night,
            self.scope,
            targets=self.targets,
            in_hand=self.planet,
            readiness=self.readiness,
            outside_since=self.outside_since,
            dew=self.dew,
            owns_filters=bool(self.profile.filters),
            marks=self.step_notes.marks,
            now=self.present,
        )
