"""The state of the window as views read it: what is chosen, and what follows from it."""

from datetime import date, datetime
from pathlib import Path
from typing import TypeVar

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from core.air.cooling import USUAL_WARMTH_C, Readiness
from core.air.steadiness import FIRST_LOOK_BLUR_ARCSEC, USUAL_AIR_POWER, Blur, BlurSource, FirstLook
from core.gear.owned import Telescope
from core.ladder.aim import Aim
from core.ladder.compare import Comparison
from core.ladder.ladder import Ladder
from core.record.observer import Profile
from core.record.profile import with_ids
from core.sky.bodies import Body
from core.sky.night import Night
from core.sky.site import Site
from core.tonight.answer import Answer
from core.tonight.plan import EveningItem
from gui.beside import Beside
from gui.clock import Clock
from gui.derived import Derived
from gui.evening_choice import EveningChoice
from gui.looks import PlanetLooks
from gui.outside import Spot, TelescopesOutside

T = TypeVar("T", Site, Telescope)


class ReadableState(QObject):
    """What is looked at, with which kit, from where and when, and what follows from it.

    Signals
    -------
    changed
        A frozenset of the aspects that have changed.
    told
        One plain sentence for the person at the window.
    """

    changed = Signal(object)
    told = Signal(str)

    # What stands beside the kit is chosen through itself, so that whoever makes choices possible adds it.
    beside: Beside

    def __init__(
        self,
        profile: Profile,
        *,
        path: Path | None,
        clock: Clock,
        palette_name: str,
        site_id: str,
        scope_id: str,
        parent: QObject | None,
    ) -> None:
        super().__init__(parent)
        self.clock = clock
        self.undo_stack = QUndoStack(self)
        self._profile = with_ids(profile)
        self._path = path
        self._palette_name = palette_name
        self._site_id = site_id
        self._scope_id = scope_id
        self._chosen_planet: Body | None = None
        self._blur = Blur.assumed()
        self._usual_air = USUAL_AIR_POWER
        self._outside = TelescopesOutside()
        self._sky_ready = False
        self._derived = Derived(self)
        self.looks = PlanetLooks(self)
        self._when = EveningChoice(self._derived, clock)

    # What is chosen.

    @property
    def profile(self) -> Profile:
        """The observer and all that is owned."""
        return self._profile

    @property
    def path(self) -> Path | None:
        """The profile's file, or None when it has never been saved."""
        return self._path

    @property
    def is_modified(self) -> bool:
        """Whether there is something to save."""
        return not self.undo_stack.isClean()

    @property
    def site(self) -> Site | None:
        """The site in hand: the chosen one, else the first."""
        return _with_id(self._profile.sites, self._site_id)

    @property
    def scope(self) -> Telescope | None:
        """The scope in hand: the chosen one, else the first."""
        return _with_id(self._profile.telescopes, self._scope_id)

    @property
    def other_scope(self) -> Telescope | None:
        """The owner's scope put side by side, or None; see ``beside`` for usual ones."""
        second = self.beside.second
        owned = self._profile.telescopes
        return next((scope for scope in owned if second and scope.id == second.scope_id), None)

    @property
    def evening(self) -> date:
        """The evening's date: from noon to noon, site time."""
        return self._when.evening

    @property
    def follows_tonight(self) -> bool:
        """Whether the evening is tonight's and moves on with the calendar."""
        return self._when.follows_tonight

    @property
    def time(self) -> datetime:
        """The moment that is looked at, in UTC."""
        return self._when.time

    @property
    def now(self) -> datetime:
        """The moment that it is, in UTC."""
        return self.clock()

    @property
    def following_now(self) -> bool:
        """Whether the moment looked at moves with the clock."""
        return self._when.following_now

    @property
    def planet(self) -> Body | None:
        """The planet in hand: the chosen one, else the evening's best; None while there is no sky."""
        return self._chosen_planet or self._derived.best_planet()

    @property
    def planet_is_chosen(self) -> bool:
        """Whether the planet was chosen by hand and not by the evening."""
        return self._chosen_planet is not None

    @property
    def blur(self) -> Blur:
        """Tonight's blur overhead."""
        return self._blur

    @property
    def first_look(self) -> FirstLook | None:
        """The first look that tonight's blur was given by, or None when it was given as a figure."""
        for look, arcsec in FIRST_LOOK_BLUR_ARCSEC.items():
            if self._blur.source is not BlurSource.ASSUMED and self._blur.overhead_arcsec == arcsec:
                return look
        return None

    @property
    def usual_air(self) -> float:
        """The usual air limit as a power; lifted for one evening at most."""
        return self._usual_air

    @property
    def outside_since(self) -> datetime | None:
        """Since when the scope in hand stands outside this evening, as far as that was said."""
        outside = self._outside.of(self._spot())
        return outside.since if outside else None

    @property
    def warmer_by_c(self) -> float:
        """How much warmer than the air the scope in hand is taken to have been when it was carried out."""
        outside = self._outside.of(self._spot())
        return USUAL_WARMTH_C if outside is None or outside.warmer_by_c is None else outside.warmer_by_c

    @property
    def warmth_is_assumed(self) -> bool:
        """Whether nobody has said how much warmer than the air it was."""
        outside = self._outside.of(self._spot())
        return outside is None or outside.warmer_by_c is None

    @property
    def palette_name(self) -> str:
        """The palette in use: day, dusk or night."""
        return self._palette_name

    @property
    def sky_ready(self) -> bool:
        """Whether the sky tables have been read."""
        return self._sky_ready

    @property
    def night_problem(self) -> str:
        """Why there is no night although there are a site and a sky, as a sentence; else nothing."""
        return "" if self.night else self._derived.night_problem

    # What follows from it, computed when first asked for.

    @property
    def night(self) -> Night | None:
        """The evening at the site, or None without a site or before the sky tables have been read."""
        return self._derived.night()

    @property
    def aim(self) -> Aim:
        """Where the scope points: the planet at the moment looked at, or at its best."""
        return self._derived.aim()

    @property
    def ladder(self) -> Ladder | None:
        """The power ladder of the scope in hand, or None without a scope."""
        return self._derived.ladder()

    @property
    def comparison(self) -> Comparison | None:
        """The two telescopes side by side, or None when there is no second one."""
        return self.beside.comparison()

    @property
    def answer(self) -> Answer | None:
        """The one answer on top, or None while there is no sky."""
        return self._derived.answer()

    @property
    def items(self) -> tuple[EveningItem, ...]:
        """The evening in order: preparation, then each target's window."""
        return self._derived.items()

    @property
    def readiness(self) -> Readiness | None:
        """When the scope in hand is ready after being carried out, or None while it is not outside."""
        return self._derived.readiness()

    def best_moment(self) -> datetime:
        """Return the planet's best minute of the evening, or else the middle of the evening."""
        return self._derived.best_moment()

    def _spot(self) -> Spot:
        return self.evening, self.site.id if self.site else "", self.scope.id if self.scope else ""


def _with_id(things: tuple[T, ...], wanted: str) -> T | None:
    for thing in things:
        if thing.id == wanted:
            return thing
    return things[0] if things else None
