"""What is chosen: the one frozen value from which everything that is shown follows."""

from collections.abc import Sequence
from datetime import date, datetime
from itertools import count
from typing import Final

from attrs import evolve, frozen

from core.air.blur import Blur
from core.air.temperatures import Temperatures
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.contenders import Pick
from core.ladder.experience import UsualAir
from core.looks.picture.stillness import Stillness
from core.moments.hours import Hour
from core.record.log_entry import LogEntry
from core.record.observer import Profile
from core.sky.bodies import Body
from core.sky.site import Site
from core.tonight.steps import Marks, OwnItem, OwnStep
from core.year.dates import DateWishes

# The last step of the dimmer of the night palette.
MOST_DIMMED: Final = 3


@frozen(kw_only=True)
class ScopeOutside:
    """Since when a telescope stands outside, in one evening at one site.

    ``warmer_by_c`` is how much warmer than the air it was then, None where nobody has said.
    """

    evening: date
    site_id: str
    scope_id: str
    since: datetime
    warmer_by_c: float | None = None

    def is_of(self, evening: date, site_id: str, scope_id: str) -> bool:
        """Tell whether it is about a telescope at a site in an evening."""
        return (self.evening, self.site_id, self.scope_id) == (evening, site_id, scope_id)


@frozen(kw_only=True)
class EveningTemperatures:
    """The temperatures of one evening at one site, and when they were told: the air was so warm then."""

    evening: date
    site_id: str
    told_at: datetime
    temperatures: Temperatures

    def is_of(self, evening: date, site_id: str) -> bool:
        """Tell whether they are those of an evening at a site."""
        return (self.evening, self.site_id) == (evening, site_id)


@frozen(kw_only=True)
class EveningHours:
    """The hours outside that were said for one evening."""

    evening: date
    start: Hour
    end: Hour


@frozen(kw_only=True)
class EveningSteps:
    """What the owner did with the steps of one evening at one site.

    ``done`` are the keys of those ticked off, ``moved`` keys with the times given to them (aware), ``own``
    the steps added.
    """

    evening: date
    site_id: str
    done: frozenset[str] = frozenset()
    moved: tuple[tuple[str, datetime], ...] = ()
    own: tuple[OwnStep, ...] = ()

    def is_of(self, evening: date, site_id: str) -> bool:
        """Tell whether they are those of an evening at a site."""
        return (self.evening, self.site_id) == (evening, site_id)

    @property
    def marks(self) -> Marks:
        """The same as the plan of an evening takes it."""
        return Marks(done=self.done, moved=dict(self.moved), own=self.own)

    def ticked(self, key: str, *, done: bool) -> "EveningSteps":
        """Return them with one ticked off, or no longer."""
        return evolve(self, done=self.done | {key} if done else self.done - {key})

    def moved_to(self, key: str, at: datetime | None) -> "EveningSteps":
        """Return them with one at another time, or with None at its own; an own step only moves."""
        if any(OwnItem.key_of(step) == key for step in self.own):
            own = tuple(
                evolve(step, at=at or step.at) if OwnItem.key_of(step) == key else step for step in self.own
            )
            return evolve(self, own=own)
        others = tuple(pair for pair in self.moved if pair[0] != key)
        return evolve(self, moved=others if at is None else (*others, (key, at)))

    def added(self, text: str, at: datetime) -> "EveningSteps":
        """Return them with one more step of the owner's own."""
        taken = {step.id for step in self.own}
        number = next(str(each) for each in count(1) if str(each) not in taken)
        return evolve(self, own=(*self.own, OwnStep(id=number, text=text, at=at)))

    def reworded(self, key: str, text: str) -> "EveningSteps":
        """Return them with other words for an own step."""
        own = tuple(evolve(step, text=text) if OwnItem.key_of(step) == key else step for step in self.own)
        return evolve(self, own=own)

    def without(self, key: str) -> "EveningSteps":
        """Return them without an own step."""
        own = tuple(step for step in self.own if OwnItem.key_of(step) != key)
        return evolve(self, own=own, done=self.done - {key})


@frozen(kw_only=True)
class Choices:
    """Everything that a person chooses; what is left open is None and follows the sky or the clock.

    ``site_id`` and ``scope_id`` that nothing has stand for the first there is. ``evening`` is None for
    tonight, ``time`` None for the present minute, or on another evening for the planet's best; a
    ``time_is_asked`` is answered as it is, where else the best minutes are taken when the planet is down.
    ``planet`` is None for the one that the evening serves best; an ``altitude_deg`` stands in for any.
    ``rung_power`` is the rung in hand, taken at ``rung_since`` on ``rung_planet``, and ``power_before`` the
    one before it, against which it is judged; ``filter_id`` is the filter that is in.
    ``verdicts`` are those of the last evenings as the log has them, ``usual_airs`` what it tells of the
    sites.
    ``first`` and ``second`` are compared, ``first`` None for the scope in hand; ``tried`` is not owned.
    ``lifted_on`` is the evening for which the usual limit of the air is lifted. ``hours`` are those that were
    said for single evenings; on any other the profile's usual ones count. ``steps`` is what was
    done with the steps of single evenings. ``stillness`` tells which moments
    the picture in the eyepiece shows. ``date_wishes`` are what a date must have that is sought, None for the
    planet in hand.
    """

    profile: Profile = Profile()
    site_id: str = ""
    scope_id: str = ""
    evening: date | None = None
    time: datetime | None = None
    time_is_asked: bool = False
    planet: Body | None = None
    altitude_deg: float | None = None
    rung_power: float | None = None
    power_before: float | None = None
    rung_since: datetime | None = None
    rung_planet: Body | None = None
    filter_id: str = ""
    blur: Blur = Blur.assumed()
    lifted_on: date | None = None
    verdicts: tuple[LogEntry, ...] = ()
    usual_airs: tuple[UsualAir, ...] = ()
    outside: tuple[ScopeOutside, ...] = ()
    temperatures: tuple[EveningTemperatures, ...] = ()
    hours: tuple[EveningHours, ...] = ()
    steps: tuple[EveningSteps, ...] = ()
    first: Pick | None = None
    second: Pick | None = None
    with_usual_eyepieces: bool = True
    tried: Eyepiece | Barlow | None = None
    stillness: Stillness = Stillness.MOSTLY
    mars_longitude_deg: float | None = None
    date_wishes: DateWishes | None = None
    palette_name: str = "day"
    text_scale: float = 1.0
    dimmer: int = 0

    def with_profile(self, profile: Profile) -> "Choices":
        """Return the choices after an edit of the profile.

        A telescope or a site that has come is taken in hand; where the one in hand has gone, its neighbour.
        """
        return evolve(
            self,
            profile=profile,
            site_id=_in_hand(self.site_id, self.profile.sites, profile.sites),
            scope_id=_in_hand(self.scope_id, self.profile.telescopes, profile.telescopes),
        )

    def of_a_new_evening(self) -> "Choices":
        """Return what stays when the next evening begins: not the planet, the rung, the filter or the air."""
        return evolve(
            self,
            planet=None,
            altitude_deg=None,
            rung_power=None,
            power_before=None,
            rung_since=None,
            rung_planet=None,
            filter_id="",
            blur=Blur.assumed(),
        )

    def of_another_observer(self, profile: Profile) -> "Choices":
        """Return what stays when another profile is taken up: the dress of the window and tonight's air."""
        return Choices(
            profile=profile,
            blur=self.blur,
            stillness=self.stillness,
            palette_name=self.palette_name,
            text_scale=self.text_scale,
            dimmer=self.dimmer,
        )

    def with_hours(self, evening: date, hours: EveningHours | None) -> "Choices":
        """Return the choices with other hours for an evening, or with None the usual ones."""
        others = tuple(each for each in self.hours if each.evening != evening)
        return evolve(self, hours=others if hours is None else (*others, hours))

    def with_steps(self, steps: EveningSteps) -> "Choices":
        """Return the choices with something else done with the steps of an evening at a site."""
        others = tuple(each for each in self.steps if not each.is_of(steps.evening, steps.site_id))
        return evolve(self, steps=(*others, steps))

    def with_outside(self, spot: tuple[date, str, str], note: ScopeOutside | None) -> "Choices":
        """Return the choices with another note on the telescope at a spot, or with None without one."""
        others = tuple(each for each in self.outside if not each.is_of(*spot))
        return evolve(self, outside=others if note is None else (*others, note))

    def with_temperatures(self, evening: date, site_id: str, told: EveningTemperatures | None) -> "Choices":
        """Return the choices with other temperatures of an evening at a site, or with None without any."""
        others = tuple(each for each in self.temperatures if not each.is_of(evening, site_id))
        return evolve(self, temperatures=others if told is None else (*others, told))


def _in_hand(wanted: str, before: Sequence[Site | Telescope], after: Sequence[Site | Telescope]) -> str:
    """Return the id of what is in hand after an edit; what was in hand is the wanted one, else the first."""
    ids_before, ids = [each.id for each in before], [each.id for each in after]
    new = [each for each in ids if each not in ids_before]
    if new:
        return new[0]
    held = wanted if wanted in ids_before else next(iter(ids_before), "")
    if held in ids or not ids:
        return held
    return ids[min(ids_before.index(held), len(ids) - 1)] if held in ids_before else ids[0]
