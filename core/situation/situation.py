"""What follows from what is chosen and from the clock."""

from datetime import datetime
from typing import TYPE_CHECKING

from attrs import evolve

from core.air.usual_air import USUAL_BLURS
from core.gear.owned import Barlow, Eyepiece, TelescopeKind
from core.ladder.aim import Aim
from core.ladder.buying import Purchase, as_gear, what_to_buy
from core.ladder.compare import Comparison, compare
from core.ladder.contenders import Contender, Pick, contender_of, second_pick, told_apart
from core.ladder.gaps import WhatIf, what_if
from core.ladder.ladder import Ladder, Rung
from core.ladder.wishes import rungs_with
from core.lazy import lazy
from core.moments.aiming import aim_at
from core.situation.climb import Climb
from core.tonight.answer import Answer
from core.tonight.prospect import Prospect
from core.year.better import Better, better_evening

if TYPE_CHECKING:
    from core.looks.filter_offers import FilterOffers
    from core.looks.planet_appearance import PlanetAppearance


class Situation(Climb):
    """All that follows from choices and clock, each worked out when asked for.

    ``now`` is the present moment (aware). Without ``has_sky``, while the sky tables are being read, there is
    no night and nothing that needs one. ``before`` is the situation until now; what still holds of it is
    taken over.
    """

    # The answer.

    @lazy
    def answer(self) -> Answer | None:
        """The one answer on top, or None while there is no night."""
        night, planet = self.night, self.planet
        if night is None or planet is None:
            return None
        at = None if self.best is None else self.best_aim.at
        ladder = None if at is None else self.best_ladder
        return Answer.of(
            Prospect(
                night=night,
                body=night.of(planet),
                now=self.present,
                best=self.best,
                over=None if self.best is not None else self.whole_best,
                past_best_since=self.past_best_since,
                standing=self.standing,
                rising_on=self.rising_on,
                targets=self.targets,
                better_later=self.better_later,
                meanwhile=self.meanwhile,
                hours=self.hours,
                elsewhen=self.elsewhen,
                served=self.served,
                turn=self.turn_of_another,
                following=self.next_target,
                first=self.first_target,
                nothing_before=self.nothing_before,
                position=None if at is None else night.position(planet, at),
                ladder=ladder,
                readiness=self.readiness,
                outside_since=self.outside_since,
                ready_at=self.ready_at,
                mirror_climb=self._mirror_climb_of(ladder),
                owns_eyepieces=bool(self.eyepieces),
                in_passing=planet is not self.own_planet,
            )
        )

    @lazy
    def better(self) -> Better | None:
        """The next evening that is better, sought only where the answer is poor."""
        answer, site = self.answer, self.site
        if answer is None or site is None or not answer.is_poor:
            return None
        dark_below_deg = self.dark.sun_altitude_deg_of(answer.planet)
        return better_evening(
            site,
            answer.planet,
            self.evening,
            sharpness=self.usual_sharpness,
            dark_below_deg=dark_below_deg,
        )

    # How the planet looks. What this is found with is loaded when it is first needed.

    @lazy
    def bare_appearance(self) -> "PlanetAppearance | None":
        """How the planet in hand looks where the scope points, whatever the telescope."""
        return self._appearance(self.aim)

    @lazy
    def appearance(self) -> "PlanetAppearance | None":
        """How the planet in hand looks where the scope points, through the scope in hand."""
        return self.appearance_through(self.ladder)

    def appearance_through(self, ladder: Ladder | None) -> "PlanetAppearance | None":
        """Return how the planet in hand looks through the telescope of a ladder, where that one points."""
        aim = self.aim if ladder is None else ladder.aim
        bare = self.bare_appearance if aim == self.aim else self._appearance(aim)
        if bare is None or ladder is None:
            return bare
        from core.looks.planet_appearance import seen_through

        # Of a moment outside the hours all is told that the evening has.
        hours = self.hours_left
        is_inside = hours is not None and aim.at is not None and hours.holds(aim.at)
        to_come = self.happenings_left if is_inside else None
        return seen_through(ladder, bare, self.stillness, to_come=to_come)

    @lazy
    def best_appearance(self) -> "PlanetAppearance | None":
        """How it looks in the planet's best moment, in a chosen one where the planet is up then."""
        return self.appearance_through(self.ladder if self.chosen_time is not None else self.best_ladder)

    def appearance_at(self, moment: datetime) -> "PlanetAppearance | None":
        """Return how the planet in hand looks at a moment of the evening, whatever the telescope."""
        night, planet = self.night, self.planet
        return None if night is None or planet is None else self._appearance(aim_at(night, planet, moment))

    def _appearance(self, aim: Aim) -> "PlanetAppearance | None":
        night, planet, happenings = self.night, self.planet, self.happenings
        if night is None or planet is None or happenings is None or aim.planet is None:
            return None
        from core.looks.planet_appearance import find_planet_appearance

        return find_planet_appearance(night, planet, aim=aim, happenings=happenings)

    @lazy
    def filter_offers(self) -> "FilterOffers | None":
        """What the owner's filters are good for on the planet in hand, at the rung in hand."""
        return None if self.rung is None else self._filter_offers_at(self.rung.power)

    @lazy
    def best_filter_offers(self) -> "FilterOffers | None":
        """The same at the highest power that tonight bears, else at the lowest there is."""
        ladder = self.ladder
        if ladder is None or not ladder.rungs:
            return None
        return self._filter_offers_at(ladder.rungs[0].power if ladder.climb_to is None else ladder.climb_to)

    def _filter_offers_at(self, power: float) -> "FilterOffers | None":
        if self.appearance is None:
            return None
        from core.looks.filter_offers import filter_offers

        return filter_offers(self.profile.filters, self.appearance, power, eye=self.eye)

    # One more thing, and two telescopes.

    @lazy
    def to_buy(self) -> Purchase | None:
        """The one thing that would help the scope in hand most over many nights, whatever the air is now."""
        return self._to_buy_for(self._own_kit)

    @lazy
    def trial(self) -> WhatIf | None:
        """What the thing tried out would give on the ladder, None when there is none or no ceiling."""
        kit, ceiling = self._own_kit, None if self.ladder is None else self.ladder.ceiling.power
        if kit is None or ceiling is None or kit.scope.kind is TelescopeKind.FIXED or self.tried is None:
            return None
        return what_if(kit.scope, kit.eyepieces, kit.barlows, ceiling, _fitted(self.tried, kit))

    @lazy
    def wished(self) -> tuple[Rung, ...]:
        """The rungs that the thing tried out would add to the ladder; what is only to buy adds none."""
        if self._own_kit is None or self.ladder is None or self.tried is None:
            return ()
        return _rungs_of(_fitted(self.tried, self._own_kit), self._own_kit, self.ladder)

    @lazy
    def first_pick(self) -> Pick | None:
        """The first telescope of a comparison: the one in hand, or a usual one in its place."""
        if self._first is not None:
            return self._first
        return None if self.scope is None else Pick(self.scope.id)

    @lazy
    def second_pick(self) -> Pick | None:
        """The second telescope of a comparison, or None."""
        in_hand = None if self.scope is None else Pick(self.scope.id)
        return second_pick(self._second, self.first_pick, self.profile, in_hand=in_hand)

    @lazy
    def contenders(self) -> tuple[Contender, Contender] | None:
        """Both telescopes of a comparison with what is used on them."""
        if self.first_pick is None or self.second_pick is None:
            return None
        usual = self.with_usual_eyepieces
        one = contender_of(self.first_pick, self.profile, with_usual_eyepieces=usual)
        other = contender_of(self.second_pick, self.profile, with_usual_eyepieces=usual)
        return None if one is None or other is None else told_apart(one, other)

    @lazy
    def comparison(self) -> Comparison | None:
        """Both telescopes under the sky in hand, or None without a second one."""
        if self.contenders is None:
            return None
        one, other = (self._ladder_of(contender, self.aim) for contender in self.contenders)
        if one is None or other is None:
            return None
        night, planet = self.night, one.aim.planet
        disc_arcsec = None if night is None or planet is None else night.of(planet).diameter_arcsec
        minutes_outside = dict(self.minutes_outside)
        return compare(
            one,
            other,
            disc_arcsec=disc_arcsec,
            readiness=(self.readiness_of(one.scope), self.readiness_of(other.scope)),
            steady_arcsec=self.profile.air.steady_arcsec,
            minutes_outside=(minutes_outside.get(one.scope.id), minutes_outside.get(other.scope.id)),
        )

    @lazy
    def compared_to_buy(self) -> tuple[Purchase | None, Purchase | None]:
        """The one thing that would help each of two telescopes compared most, over many nights."""
        if self.contenders is None:
            return None, None
        one, other = self.contenders
        return self._to_buy_for(one), self._to_buy_for(other)

    @lazy
    def compared_wished(self) -> tuple[tuple[Rung, ...], tuple[Rung, ...]]:
        """The rungs that the thing tried out, or else what to buy, would add to each of two ladders."""
        if self.contenders is None or self.comparison is None:
            return (), ()
        kits, sides = self.contenders, (self.comparison.a, self.comparison.b)
        one, other = (
            () if thing is None else _rungs_of(thing, kit, side.ladder)
            for thing, kit, side in zip(self._compared_things, kits, sides, strict=True)
        )
        return one, other

    @lazy
    def _compared_things(self) -> tuple[Eyepiece | Barlow | None, Eyepiece | Barlow | None]:
        """The thing not owned that is drawn beside each of two telescopes compared."""
        if self.contenders is None:
            return None, None
        tried = self.tried
        if tried is not None:
            one, other = (_fitted(tried, kit) for kit in self.contenders)
            return one, other
        first, second = (
            None if found is None else as_gear(found.thing, scope=kit.scope)
            for found, kit in zip(self.compared_to_buy, self.contenders, strict=True)
        )
        return first, second

    def _to_buy_for(self, kit: Contender | None) -> Purchase | None:
        if kit is None:
            return None
        usual = self.usual_air_here
        blurs = USUAL_BLURS if usual is None else usual.blur
        return what_to_buy(kit.scope, kit.eyepieces, kit.barlows, eye=self.eye, blurs=blurs)


def _fitted(thing: Eyepiece | Barlow, kit: Contender) -> Eyepiece | Barlow:
    """Return a typed thing, which has no barrel of its own, in one that the scope can use."""
    return evolve(thing, barrel_mm=min(thing.barrel_mm, kit.scope.barrel_mm))


def _rungs_of(thing: Eyepiece | Barlow, kit: Contender, ladder: Ladder) -> tuple[Rung, ...]:
    """Return the rungs that a thing not owned adds; none without a ceiling to weigh them by."""
    if ladder.ceiling.power is None or kit.scope.kind is TelescopeKind.FIXED:
        return ()
    return rungs_with(ladder, kit.eyepieces, kit.barlows, thing)
