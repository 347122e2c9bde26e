"""What the sheet of an evening tells of each target: the situation in the middle of its own time."""

from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Final

from attrs import evolve, frozen

from core.looks.outline import Outline, outline_of
from core.looks.picture.turn import Turn, turning_of, zenith_angle_deg
from core.situation.given import to_minute
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.tonight.steps import TargetItem

if TYPE_CHECKING:
    from core.looks.planet_appearance import PlanetAppearance

_A_MINUTE: Final = timedelta(minutes=1)


@frozen(kw_only=True, eq=False)
class TargetOnPaper:
    """A target of the evening and the situation ``then``, in the middle of its time."""

    item: TargetItem
    then: Situation

    @property
    def body(self) -> Body:
        """The body itself."""
        return self.item.body

    @property
    def time(self) -> datetime:
        """The full minute in the middle of its time."""
        return self.then.time

    @property
    def appearance(self) -> "PlanetAppearance":
        """How it looks then, through the telescope in hand where there is one."""
        found = self.then.appearance
        assert found is not None  # there are a night and a planet
        return found

    @property
    def outline(self) -> Outline:
        """Its outline, turned as in the telescope in hand; to the naked eye's view without one."""
        appearance, scope = self.appearance, self.then.scope
        position = appearance.position
        up_deg = zenith_angle_deg(appearance.site.latitude_deg, position.altitude_deg, position.azimuth_deg)
        turn = Turn(up_angle_deg=up_deg)
        return outline_of(
            appearance.subject, turn if scope is None else evolve(turn, turning=turning_of(scope))
        )


def targets_on_paper(situation: Situation) -> tuple[TargetOnPaper, ...]:
    """Return the targets of a situation's evening, each in the middle of its own time, in their order."""
    return tuple(
        TargetOnPaper(item=item, then=_situation_at(situation, item))
        for item in situation.evening_steps
        if isinstance(item, TargetItem)
    )


def before_it_begins(situation: Situation) -> Situation:
    """Return the situation of the same evening, which must have a night, seen from before it begins.

    What is printed holds the whole evening, so that it must not speak of now.
    """
    assert situation.night is not None
    choices = evolve(situation.choices, evening=situation.evening)
    return Situation(choices, situation.night.start - _A_MINUTE, before=situation)


def _situation_at(situation: Situation, item: TargetItem) -> Situation:
    middle = to_minute(item.start + (item.end - item.start) / 2)
    choices = evolve(
        situation.choices,
        evening=situation.evening,
        planet=item.body,
        altitude_deg=None,
        time=max(middle, item.start),
        time_is_asked=True,
    )
    return Situation(choices, situation.now, before=situation)
