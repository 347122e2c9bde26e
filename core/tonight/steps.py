"""What an evening is made of: each step as a fact with its time, and what its owner did with it."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta
from enum import StrEnum
from typing import Final

from attrs import field, frozen

from core.air.dew_outlook import DewOutlook
from core.air.readiness import Readiness
from core.gear.owned import Stand
from core.moments.best_minutes import BestMinutes
from core.moments.hours import LAST_CALL
from core.sky.bodies import Body
from core.sky.night import Night


class ItemKind(StrEnum):
    """What a step of the evening is about, in the order in which steps of one time are told."""

    COLLIMATION = "collimation"
    KIT = "kit"
    PLACE = "place"
    CARRY_OUT = "carry_out"
    FINDER = "finder"
    COVERS = "covers"
    DEW = "dew"
    READY = "ready"
    STAR_TEST = "star_test"
    SETTLED = "settled"
    OWN = "own"
    TARGET = "target"
    PACK_UP = "pack_up"
    STOP = "stop"


# What is only to be known of, and nothing to do.
ESTIMATES: Final = frozenset({ItemKind.READY, ItemKind.SETTLED})
# How long a mere moment is still told as due (ours).
MOMENT_LASTS: Final = timedelta(minutes=10)
# What the owner may do at another time; all else follows from the sky, the glass or the Sun.
MOVABLE: Final = frozenset(
    {
        ItemKind.COLLIMATION,
        ItemKind.KIT,
        ItemKind.FINDER,
        ItemKind.PLACE,
        ItemKind.CARRY_OUT,
        ItemKind.COVERS,
        ItemKind.DEW,
        ItemKind.STAR_TEST,
        ItemKind.PACK_UP,
        ItemKind.OWN,
    }
)


@frozen(kw_only=True)
class EveningItem:
    """One step on the evening's time axis, from ``start`` to ``end`` (UTC); for a mere moment they are equal.

    ``caution`` marks what concerns safety. ``is_done`` where the owner ticked it off, ``is_moved`` where it
    stands at a time of the owner's.
    """

    kind: ItemKind
    start: datetime
    end: datetime
    caution: bool = False
    is_done: bool = False
    is_moved: bool = False

    @property
    def key(self) -> str:
        """What tells this step from the others of its evening."""
        return self.kind.value

    @property
    def can_be_moved(self) -> bool:
        """Whether its time is the owner's to choose."""
        return self.kind in MOVABLE


@frozen(kw_only=True)
class KitItem(EveningItem):
    """Laying out what will be wanted in the dark; ``owns_filters`` where there are any to lay out."""

    kind: ItemKind = ItemKind.KIT
    owns_filters: bool


@frozen(kw_only=True)
class CollimationItem(EveningItem):
    """A rough check of the alignment of the optics, before dark; ``checked_on`` is when it last was."""

    kind: ItemKind = ItemKind.COLLIMATION
    checked_on: date | None


@frozen(kw_only=True)
class FinderItem(EveningItem):
    """Aligning the finder; by day ``sun_azimuths_deg`` are the Sun's at both ends, else None.

    ``before_out`` where the telescope is else carried out only later.
    """

    kind: ItemKind = ItemKind.FINDER
    sun_azimuths_deg: tuple[float, float] | None
    before_out: bool = False


@frozen(kw_only=True)
class PlaceItem(EveningItem):
    """Where to stand; ``warm`` names what warms the air above this site."""

    kind: ItemKind = ItemKind.PLACE
    stands_on: Stand | None
    warm: tuple[str, ...]


@frozen(kw_only=True)
class CarryOutItem(EveningItem):
    """Carrying the telescope out for a first target, or that it stands outside since then.

    ``in_shade`` says that the Sun is up then, ``is_late`` that its time went by and it is to go out now.
    """

    kind: ItemKind = ItemKind.CARRY_OUT
    is_outside: bool
    is_late: bool = False
    readiness: Readiness
    body: Body
    first_look: datetime
    in_shade: bool


@frozen(kw_only=True)
class CoversItem(EveningItem):
    """Taking the covers off once the Sun is down."""

    kind: ItemKind = ItemKind.COVERS


@frozen(kw_only=True)
class DewItem(EveningItem):
    """Keeping dew off the glass; without an ``outlook`` nobody knows how damp it is."""

    kind: ItemKind = ItemKind.DEW
    outlook: DewOutlook | None


@frozen(kw_only=True)
class SettledItem(EveningItem):
    """When the mirror has settled after it was usable: likely at ``likely``, between the other two."""

    kind: ItemKind = ItemKind.SETTLED
    soonest: datetime
    likely: datetime
    latest: datetime


@frozen(kw_only=True)
class StarTestItem(EveningItem):
    """A look at a star out of focus, once the telescope has cooled."""

    kind: ItemKind = ItemKind.STAR_TEST


@frozen(kw_only=True)
class TargetItem(EveningItem):
    """A body's own time in the order of the evening; ``is_chosen`` for the one in hand."""

    kind: ItemKind = ItemKind.TARGET
    body: Body
    best: BestMinutes
    is_chosen: bool = False

    @property
    def key(self) -> str:
        """The kind and the body."""
        return f"{self.kind.value}:{self.body.value}"


@frozen(kw_only=True)
class StopItem(EveningItem):
    """Off the planet, in time before the Sun rises."""

    kind: ItemKind = ItemKind.STOP
    sunrise: datetime


@frozen(kw_only=True)
class OwnStep:
    """A step that the owner added: its words, and when (aware)."""

    id: str
    text: str
    at: datetime


@frozen(kw_only=True)
class OwnItem(EveningItem):
    """A step of the owner's own."""

    kind: ItemKind = ItemKind.OWN
    step: OwnStep

    @property
    def key(self) -> str:
        """The kind and the step."""
        return self.key_of(self.step)

    @staticmethod
    def key_of(step: OwnStep) -> str:
        """Return what tells an own step from the others of its evening."""
        return f"{ItemKind.OWN.value}:{step.id}"


@frozen(kw_only=True)
class Marks:
    """What the owner did with an evening's steps, by their keys: done, moved to a time, added."""

    done: frozenset[str] = frozenset()
    moved: Mapping[str, datetime] = field(factory=dict)
    own: tuple[OwnStep, ...] = ()

    def time_of(self, kind: ItemKind, night: Night) -> datetime | None:
        """Return the time that was given to a step of a kind, None for none inside the evening."""
        moment = self.moved.get(kind.value)
        return moment if moment is not None and night.holds(moment) else None


UNMARKED: Final = Marks()


def step_in_hand(items: Sequence[EveningItem], now: datetime | None) -> EveningItem | None:
    """Return what to do now: what began last of all that is not done or over, else what comes next.

    A telescope that should be out by now comes before what is done with it. In the last minutes before the
    stop line that one; None where nothing is left to do. Estimates such as
    when a mirror is ready are nothing to do.
    """
    left = [item for item in items if not (item.is_done or item.kind in ESTIMATES or is_over(item, now))]
    begun = [item for item in left if now is not None and _begins(item) <= now]
    late = next((item for item in begun if isinstance(item, CarryOutItem) and item.is_late), None)
    if late is not None and begun[-1].kind is not ItemKind.STOP:
        return late
    return begun[-1] if begun else next(iter(left), None)


def _begins(item: EveningItem) -> datetime:
    return item.start - LAST_CALL if item.kind is ItemKind.STOP else item.start


def is_over(item: EveningItem, now: datetime | None) -> bool:
    """Tell whether a step's time has gone by; a mere moment is granted a few minutes."""
    if now is None:
        return False
    grace = MOMENT_LASTS if item.start == item.end else timedelta()
    return item.end + grace <= now
