"""How each body is found this evening, which of them stand close together, and what a date must have."""

from datetime import datetime

from core.air.limits import ceiling_of
from core.gear.combinations import Combination, combinations
from core.ladder.aim import Aim
from core.lazy import lazy
from core.looks.finding import Finding, find
from core.moments.aiming import aim_at
from core.moments.best_minutes import find_best_minutes, highest_within
from core.moments.pairs import ClosePair, close_pairs
from core.situation.warmth import Warmth
from core.sky.bodies import Body
from core.sky.night import Night
from core.year.dates import DateWishes, HeightWish, usual_height_deg


class Findings(Warmth):
    """Ways to the bodies of the evening, for the kit in hand."""

    @lazy
    def kit_powers(self) -> tuple[Combination, ...]:
        """Everything of the kit that fits the telescope in hand, lowest power first."""
        return () if self.scope is None else combinations(self.scope, self.eyepieces, self.barlows)

    @lazy
    def findings(self) -> tuple[Finding, ...]:
        """How each body is found: at the moment looked at, else in its best one; the one in hand first.

        Only bodies that are offered are among them.
        """
        night = self.night
        if night is None:
            return ()
        bodies = sorted((each.body for each in night.bodies), key=lambda body: body is not self.planet)
        times = ((body, self._time_to_find(night, body)) for body in bodies)
        return tuple(
            self._find(night, aim_at(night, body, time), body, time)
            for body, time in times
            if time is not None
        )

    @lazy
    def finding(self) -> Finding | None:
        """How the planet in hand is found where the telescope points, None where nothing is offered."""
        night, aim = self.night, self.aim
        if night is None or aim.planet is None or aim.at is None or not aim.is_offered:
            return None
        return self._find(night, aim, aim.planet, aim.at)

    @lazy
    def pairs(self) -> tuple[ClosePair, ...]:
        """Which bodies stand under 2 degrees apart this evening while both can be looked at."""
        return () if self.night is None else close_pairs(self.night)

    @lazy
    def date_wishes(self) -> DateWishes:
        """What a date must have that is sought: as it was said, else the planet in hand high enough."""
        if self._date_wishes is not None:
            return self._date_wishes
        planet = self.planet
        if planet is None:
            return DateWishes(heights=())
        return DateWishes(heights=(HeightWish(body=planet, above_deg=usual_height_deg(planet)),))

    def _find(self, night: Night, aim: Aim, body: Body, time: datetime) -> Finding:
        scope, ceiling_power = self.scope, None
        if scope is not None:
            limits = aim.limits_of(
                scope,
                blur=self.blur_along(aim),
                mirror_arcsec=self.mirror_arcsec(scope, time),
                usual_air=self.usual_air,
            )
            ceiling_power = ceiling_of(limits).power
        return find(night, body, time, scope=scope, kit=self.kit_powers, ceiling_power=ceiling_power)

    def _time_to_find(self, night: Night, body: Body) -> datetime | None:
        """Return when a body is looked for: at the moment looked at where it can be, else at its best."""
        windows = night.of(body).windows
        if any(window.holds(self.time) for window in windows):
            return self.time
        if self.chosen_time is not None:
            aim = aim_at(night, body, self.time)
            # By day nothing is offered unasked.
            if aim.is_offered and aim.daylight is not None and aim.path is not None and aim.behind is None:
                return self.time
        best = find_best_minutes(night, body, since=self.present, hours=self.hours_left)
        return None if best is None else highest_within(night, body, best).time
