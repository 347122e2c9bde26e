"""What the options of several commands choose: a site, a telescope, a moment and an evening."""

from datetime import date, datetime, timedelta

from core.gear.owned import Telescope
from core.problems import ProblemsError, refuse
from core.record.choose import choose
from core.record.observer import Profile
from core.sky.civil import evening_span, site_time, tonight
from core.sky.ephemeris import check_date
from core.sky.site import Site
from core.words.commands import MUST_BE_IN_EVENING
from core.words.dates import date_text
from gui.commands.parsing import placed

_HALF_A_DAY = timedelta(hours=12)


def choose_site(profile: Profile, wanted: str | None) -> Site:
    """Return the site that ``--site`` names, the first one without it."""
    return choose(profile.sites, wanted, what="site", where="--site")


def choose_scope(profile: Profile, wanted: str | None, *, where: str = "--scope") -> Telescope:
    """Return the telescope that an option names, the first one without it."""
    return choose(profile.telescopes, wanted, what="telescope", where=where)


def scope_if_any(profile: Profile, wanted: str | None) -> Telescope | None:
    """Return the telescope that ``--scope`` names; without it the first one, or None where there is none."""
    if wanted is None and not profile.telescopes:
        return None
    return choose_scope(profile, wanted)


def read_time(site: Site, text: str, *, where: str = "--at") -> datetime:
    """Return the moment that an option means at a site."""
    try:
        return site_time(site, text)
    except ProblemsError as error:
        raise placed(error, where) from None


def evening_meant(site: Site, evening: date | None, time: datetime | None, now: datetime) -> date:
    """Return the date of the evening that ``--evening`` names, else the one around ``--at``, else tonight's.

    Raises ProblemsError, with the option's name, for an evening that cannot be had, or a time outside it.
    """
    asked_by = "--at" if evening is None and time is not None else "--evening"
    try:
        if evening is None:
            evening = tonight(site, now) if time is None else _evening_around(site, time)
        check_date(evening)
        start, end = evening_span(site, evening)
        if time is not None and not start <= time < end:
            told = MUST_BE_IN_EVENING.format(day=date_text(evening), zone=site.time_zone)
            raise refuse(told, where="--at")
    except ProblemsError as error:
        raise placed(error, asked_by) from None
    return evening


def _evening_around(site: Site, moment: datetime) -> date:
    """Return the date of the evening, from noon to noon, that a moment lies in."""
    return (moment.astimezone(site.zone) - _HALF_A_DAY).date()
