"""The ladder of the scope in hand, the rung in hand, and what to do after it."""

from core.ladder.aim import Aim
from core.ladder.climb import NextStep, next_step
from core.ladder.contenders import Contender
from core.ladder.ladder import Ladder, Rung, build_ladder, nearest_rung
from core.ladder.mirror_climb import MirrorClimb, mirror_climb
from core.lazy import lazy
from core.moments.best_minutes import offered_windows
from core.record.log_entry import LogEntry
from core.situation.in_order import InOrder


class Climb(InOrder):
    """The ladder where the scope points in tonight's air, and how far the climb has come."""

    @lazy
    def ladder(self) -> Ladder | None:
        """The power ladder of the scope in hand where it points, or None without a scope."""
        return self._ladder_of(self._own_kit, self.aim)

    @lazy
    def mirror_climb(self) -> MirrorClimb | None:
        """How the ceiling of the ladder climbs as the mirror cools, None where it hardly does."""
        return self._mirror_climb_of(self.ladder)

    @lazy
    def best_ladder(self) -> Ladder | None:
        """The ladder of the scope in hand in the planet's best moment."""
        return self._ladder_of(self._own_kit, self.best_aim)

    @lazy
    def rung(self) -> Rung | None:
        """The rung in hand: the nearest to the power that was taken, else where the climb starts."""
        ladder = self.ladder
        return None if ladder is None else nearest_rung(ladder, self._rung_power)

    @lazy
    def rung_is_taken(self) -> bool:
        """Whether a person took the rung in hand, or it is only where the climb would start."""
        return self._rung_power is not None

    @lazy
    def is_out_of_sight(self) -> bool:
        """Whether the ladder is that of another moment, since what it is about cannot be seen now."""
        return self.following_now and self.aim.at is not None and self.aim.at != self.time

    @lazy
    def can_be_judged(self) -> bool:
        """Whether there was a step to the rung in hand to judge, it can be seen, and there is time to."""
        before, rung = self.power_before, self.rung
        has_stepped = before is not None and rung is not None and before != rung.power
        return has_stepped and self.last_call is None and not self.is_out_of_sight

    @lazy
    def verdict_on_step(self) -> LogEntry | None:
        """The verdict on the step to the rung in hand, None unless it is the last one of the evening."""
        last, rung = self.last_verdict, self.rung
        if last is None or rung is None or self.scope is None:
            return None
        is_same = (last.scope_id, last.from_power, last.power) == (
            self.scope.id,
            self.power_before,
            rung.power,
        )
        return last if is_same else None

    @lazy
    def next_step(self) -> NextStep | None:
        """What to do after the rung in hand, as far as verdicts and the first look tell.

        None in the last minutes before sunrise, in which nothing counts but to stop.
        """
        ladder, rung = self.ladder, self.rung
        if ladder is None or rung is None or self.last_call is not None:
            return None
        at = ladder.aim.at or self.minute
        belief = self.belief.faded(at.timestamp())
        return next_step(ladder, rung, belief, self.evidence, now=self.present)

    @lazy
    def _own_kit(self) -> Contender | None:
        if self.scope is None:
            return None
        return Contender(scope=self.scope, eyepieces=self.eyepieces, barlows=self.barlows)

    def _ladder_of(self, kit: Contender | None, aim: Aim) -> Ladder | None:
        if kit is None:
            return None
        return build_ladder(
            scope=kit.scope,
            eyepieces=kit.eyepieces,
            barlows=kit.barlows,
            eye=self.eye,
            aim=aim,
            blur=self.blur_along(aim),
            mirror_arcsec=self.mirror_arcsec(kit.scope, aim.at),
            usual_air=self.usual_air,
        )

    def _mirror_climb_of(self, ladder: Ladder | None) -> MirrorClimb | None:
        """Return how the ceiling climbs as the mirror cools.

        While the planet stays in its windows, and where the moment lies in the owner's hours, to their end.
        """
        if ladder is None or ladder.aim.planet is None or ladder.aim.at is None or self.night is None:
            return None
        course, windows = self.mirror_course, offered_windows(self.night, ladder.aim.planet)
        if course is None or not windows:
            return None
        until, hours = windows[-1].end, self.hours_left
        if hours is not None and hours.holds(ladder.aim.at):
            until = min(until, hours.end)
        return mirror_climb(ladder, course, until=until)
