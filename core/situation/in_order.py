"""The evening in order, as far as the owner and the sky have settled it, and what is due in it."""

from typing import TYPE_CHECKING

from core.lazy import lazy
from core.situation.choices import EveningSteps
from core.situation.findings import Findings
from core.sky.bodies import Body
from core.tonight.notices_due import Notice, notices_due
from core.tonight.plan import plan_evening
from core.tonight.steps import EveningItem

if TYPE_CHECKING:
    from core.looks.planet_appearance import Happenings


class InOrder(Findings):
    """The steps of the evening, with what was ticked off, moved and added, and what is due."""

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

    @lazy
    def happenings(self) -> "Happenings | None":
        """What happens on the planet in hand this evening."""
        night, planet = self.night, self.planet
        if night is None or planet is None:
            return None
        # Loaded when it is first needed.
        from core.looks.planet_appearance import find_happenings

        return find_happenings(night, planet, self.red_spot_passes if planet is Body.JUPITER else None)

    @lazy
    def notices(self) -> tuple[Notice, ...]:
        """What is due in the evening in progress, the most pressing first."""
        night, now = self.night, self.present
        if night is None or now is None or not self.follows_tonight:
            return ()
        happenings = self.happenings if self.planet is Body.JUPITER else None
        return notices_due(night, self.planet, now=now, steps=self.evening_steps, happenings=happenings)
