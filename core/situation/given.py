"""What a situation is made of: what is chosen, and the clock."""

from datetime import date, datetime

from core.air.blur import Blur
from core.gear.owned import Barlow, Eyepiece
from core.ladder.contenders import Pick
from core.ladder.experience import UsualAir
from core.lazy import Following, given
from core.looks.picture.stillness import Stillness
from core.record.log_entry import LogEntry
from core.record.observer import Profile
from core.situation.choices import (
    Choices,
    EveningHours,
    EveningSteps,
    EveningTemperatures,
    ScopeOutside,
)
from core.sky.bodies import Body
from core.year.dates import DateWishes


class Given(Following):
    """One reading of choices and clock, part by part, so that each of them can differ alone.

    ``now`` is the present moment (aware). Without ``has_sky``, while the sky tables are being read, there is
    no night and nothing that needs one. ``before`` is the situation until now; what still holds of it is
    taken over.
    """

    choices: Choices
    _now: datetime
    _has_sky: bool

    def __init__(
        self, choices: Choices, now: datetime, *, has_sky: bool = True, before: "Given | None" = None
    ) -> None:
        super().__init__(before)
        self._set("choices", choices)
        self._set("_now", now)
        self._set("_has_sky", has_sky)

    # What is chosen, as far as anything follows from it.

    @given
    def profile(self) -> Profile:
        """The observer and all that is owned."""
        return self.choices.profile

    @given
    def now(self) -> datetime:
        """The moment that it is, UTC."""
        return self._now

    @given
    def minute(self) -> datetime:
        """The minute that it is, UTC."""
        return to_minute(self._now)

    @given
    def has_sky(self) -> bool:
        """Whether the sky tables have been read."""
        return self._has_sky

    @given
    def said_blur(self) -> Blur:
        """Tonight's blur overhead as somebody gave it, else as it is assumed."""
        return self.choices.blur

    @given
    def _usual_airs(self) -> tuple[UsualAir, ...]:
        return self.choices.usual_airs

    @given
    def palette_name(self) -> str:
        """The palette in use: day, dusk or night."""
        return self.choices.palette_name

    @given
    def text_scale(self) -> float:
        """How many times as large as usual letters are."""
        return self.choices.text_scale

    @given
    def dimmer(self) -> int:
        """By how many steps the night palette is dimmed."""
        return self.choices.dimmer

    @given
    def chosen_planet(self) -> Body | None:
        """The planet that was chosen by hand."""
        return self.choices.planet

    @given
    def chosen_evening(self) -> date | None:
        """The evening that was chosen by hand."""
        return self.choices.evening

    @given
    def chosen_time(self) -> datetime | None:
        """The moment that was chosen by hand."""
        return self.choices.time

    @given
    def chosen_altitude_deg(self) -> float | None:
        """A height that was asked for in place of a planet."""
        return self.choices.altitude_deg

    @given
    def _time_is_asked(self) -> bool:
        return self.choices.time_is_asked

    @given
    def _site_id(self) -> str:
        return self.choices.site_id

    @given
    def _scope_id(self) -> str:
        return self.choices.scope_id

    @given
    def _rung_power(self) -> float | None:
        return self.choices.rung_power

    @given
    def _rung_since(self) -> datetime | None:
        return self.choices.rung_since

    @given
    def _rung_planet(self) -> Body | None:
        return self.choices.rung_planet

    @given
    def power_before(self) -> float | None:
        """The power that was in hand before, against which the rung in hand is judged."""
        return self.choices.power_before

    @given
    def _filter_id(self) -> str:
        return self.choices.filter_id

    @given
    def _verdicts(self) -> tuple[LogEntry, ...]:
        return self.choices.verdicts

    @given
    def _lifted_on(self) -> date | None:
        return self.choices.lifted_on

    @given
    def _outside_notes(self) -> tuple[ScopeOutside, ...]:
        return self.choices.outside

    @given
    def _temperature_notes(self) -> tuple[EveningTemperatures, ...]:
        return self.choices.temperatures

    @given
    def _said_hours(self) -> tuple[EveningHours, ...]:
        return self.choices.hours

    @given
    def _step_notes(self) -> tuple[EveningSteps, ...]:
        return self.choices.steps

    @given
    def _first(self) -> Pick | None:
        return self.choices.first

    @given
    def _second(self) -> Pick | None:
        return self.choices.second

    @given
    def with_usual_eyepieces(self) -> bool:
        """Whether a usual telescope is compared with what mostly comes with it."""
        return self.choices.with_usual_eyepieces

    @given
    def tried(self) -> Eyepiece | Barlow | None:
        """The eyepiece or Barlow not owned that is tried out."""
        return self.choices.tried

    @given
    def stillness(self) -> Stillness:
        """Which moments the picture in the eyepiece shows."""
        return self.choices.stillness

    @given
    def mars_longitude_deg(self) -> float | None:
        """The west longitude on Mars whose evenings are sought in the year, None for none."""
        return self.choices.mars_longitude_deg

    @given
    def _date_wishes(self) -> DateWishes | None:
        return self.choices.date_wishes


def to_minute(moment: datetime) -> datetime:
    """Return the minute that a moment lies in."""
    return moment.replace(second=0, microsecond=0)
