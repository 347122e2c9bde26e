"""The evening in order, as far as the owner and the sky have settled it, and what is due in it."""

from typing import TYPE_CHECKING

from core.lazy import lazy
from core.situation.findings import Findings
from core.sky.bodies import Body
from core.tonight.notices_due import Due, notices_due
from core.tonight.plan import plan_evening
from core.tonight.steps import CarryOutItem, EveningItem

if TYPE_CHECKING:
    from core.looks.happenings import Happenings


class InOrder(Findings):
    """The steps of the evening, with what was ticked off, moved and added, and what is due."""

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
    def carry_out(self) -> CarryOutItem | None:
        """That the telescope is to be carried out, later this evening or now; None where nobody waits for it.

        So where it is out, or is taken to be, and where it is as warm as the air already.
        """
        now = self.present
        if now is None:
            return None
        found = (item for item in self.evening_steps if isinstance(item, CarryOutItem))
        item = next(found, None)
        if item is None or item.is_done or item.readiness.is_ready_at_once:
            return None
        return item if item.start >= now else None

    @lazy
    def happenings(self) -> "Happenings | None":
        """What happens on the planet in hand this evening."""
        night, planet = self.night, self.planet
        if night is None or planet is None:
            return None
        # Loaded when it is first needed.
        from core.looks.happenings import find_happenings

        return find_happenings(night, planet, self.red_spot_passes if planet is Body.JUPITER else None)

    @lazy
    def happenings_left(self) -> "Happenings | None":
        """What of it there is still to see in the hours that are left."""
        found, hours, now = self.happenings, self.hours_left, self.present
        if found is None or hours is None:
            return found
        return found.between(hours.start if now is None else max(hours.start, now), hours.end)

    @lazy
    def notices(self) -> tuple[Due, ...]:
        """What is due in the evening in progress, the most pressing first."""
        night, now = self.night, self.present
        if night is None or now is None or not self.follows_tonight:
            return ()
        happenings = self.happenings if self.planet is Body.JUPITER else None
        return notices_due(night, self.planet, now=now, steps=self.evening_steps, happenings=happenings)
