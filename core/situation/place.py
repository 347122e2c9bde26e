"""Where, when and with what: the place, the kit in hand, and the evening."""

from contextlib import suppress
from datetime import UTC, date, timedelta
from typing import TYPE_CHECKING, TypeVar

from core.air.blur import Blur, BlurSource
from core.air.usual_air import USUAL_BLUR_ARCSEC
from core.gear.eye import Eye
from core.gear.owned import Barlow, Eyepiece, Filter, Telescope
from core.ladder.experience import UsualAir
from core.lazy import lazy
from core.moments.details import Sharpness
from core.problems import ProblemsError
from core.record.observer import DarkEnough, Preferences, RedSpot
from core.situation.given import Given
from core.sky.civil import tonight
from core.sky.night import Night, compute_night
from core.sky.site import Site

if TYPE_CHECKING:
    from core.sky.red_spot import RedSpotPasses

T = TypeVar("T", Site, Telescope)

# Before this hour of the site's clock, "tonight" is taken to be the night in progress (ours).
_NIGHT_ENDS_H = 6


class Place(Given):
    """The place and the kit in hand, and the evening."""

    @lazy
    def site(self) -> Site | None:
        """The site in hand: the chosen one, else the first."""
        return _with_id(self.profile.sites, self._site_id)

    @lazy
    def scope(self) -> Telescope | None:
        """The scope in hand: the chosen one, else the first."""
        return _with_id(self.profile.telescopes, self._scope_id)

    @lazy
    def preferences(self) -> Preferences:
        """How figures and times are shown."""
        return self.profile.preferences

    @lazy
    def dark(self) -> DarkEnough:
        """How far the Sun must be down for each body to be worth a look."""
        return self.profile.dark

    @lazy
    def red_spot(self) -> RedSpot | None:
        """Where the owner last read that the red spot is, None without a longitude."""
        return self.profile.red_spot

    @lazy
    def eye(self) -> Eye:
        """The observer's eye."""
        return self.profile.eye

    @lazy
    def eyepieces(self) -> tuple[Eyepiece, ...]:
        """The owner's eyepieces."""
        return self.profile.eyepieces

    @lazy
    def barlows(self) -> tuple[Barlow, ...]:
        """The owner's Barlows and reducers."""
        return self.profile.barlows

    @lazy
    def tonight(self) -> date:
        """Tonight's date at the site; a guess by the hour until the sky tables have been read."""
        site = self.site
        if site is not None and self.has_sky:
            with suppress(ProblemsError):
                return tonight(site, self.minute)
        local = self.minute.astimezone(site.zone if site else UTC)
        return (local - timedelta(hours=_NIGHT_ENDS_H)).date()

    @lazy
    def follows_tonight(self) -> bool:
        """Whether the evening is tonight's and moves on with the calendar."""
        return self.chosen_evening is None

    @lazy
    def following_now(self) -> bool:
        """Whether the moment looked at moves with the clock."""
        return self.follows_tonight and self.chosen_time is None

    @lazy
    def evening(self) -> date:
        """The evening's date: from noon to noon, site time."""
        return self.tonight if self.chosen_evening is None else self.chosen_evening

    @lazy
    def _night_or_problem(self) -> tuple[Night | None, str]:
        site = self.site
        if site is None or not self.has_sky:
            return None, ""
        try:
            return compute_night(site, self.evening, dark_enough=self.dark.sun_altitudes_deg()), ""
        except ProblemsError as error:
            # A machine's clock or a change of site can lead to an evening that cannot be had.
            return None, str(error)

    @lazy
    def night(self) -> Night | None:
        """The evening at the site, or None without a site or before the sky tables have been read."""
        return self._night_or_problem[0]

    @lazy
    def night_problem(self) -> str:
        """Why there is no night although there are a site and a sky, as a sentence; else nothing."""
        return self._night_or_problem[1]

    @lazy
    def red_spot_passes(self) -> "RedSpotPasses | None":
        """When the red spot can be looked at this evening, else next; None without its longitude."""
        night, spot = self.night, self.red_spot
        if night is None or spot is None:
            return None
        from core.moments.spot_seen import spot_passes_seen

        return spot_passes_seen(night, spot, dark_enough=self.dark.sun_altitudes_deg())

    @lazy
    def filter_in(self) -> Filter | None:
        """The owner's filter that is in, None without one."""
        return next((each for each in self.profile.filters if each.id == self._filter_id), None)

    @lazy
    def usual_air_here(self) -> UsualAir | None:
        """What the log tells of the site's usual air, None before five nights."""
        return next((each for each in self._usual_airs if self.site and each.site_id == self.site.id), None)

    @lazy
    def blur(self) -> Blur:
        """Tonight's blur overhead before any verdict: as given, else usual here, else assumed."""
        said, usual = self.said_blur, self.usual_air_here
        if said.source is not BlurSource.ASSUMED or usual is None:
            return said
        return Blur(overhead_arcsec=usual.blur.median_arcsec, source=BlurSource.LOG)

    @lazy
    def usual_blur_arcsec(self) -> float:
        """The blur overhead on a usual night here, whatever tonight's is: the log's, else assumed."""
        usual = self.usual_air_here
        return USUAL_BLUR_ARCSEC if usual is None else usual.blur.median_arcsec

    @lazy
    def usual_sharpness(self) -> Sharpness:
        """What limits detail through the scope in hand on a usual night here."""
        return Sharpness.through(self.scope, self.usual_blur_arcsec)


def _with_id(things: tuple[T, ...], wanted: str) -> T | None:
    return next((thing for thing in things if thing.id == wanted), things[0] if things else None)
