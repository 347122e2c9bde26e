"""What several commands read from a profile and the options: site, evening, time, and the night itself."""

from datetime import date, datetime, timedelta

from core.problems import ProblemsError, refuse
from core.record.choose import choose
from core.record.observer import Profile
from core.sky.civil import evening_span, site_time, tonight
from core.sky.night import Night, compute_night
from core.sky.site import Site
from core.words.commands import MUST_BE_IN_EVENING
from core.words.dates import date_text
from gui.commands.parsing import placed


def choose_site(profile: Profile, wanted: str | None) -> Site:
    """Return the site that ``--site`` names, the first one without it."""
    return choose(profile.sites, wanted, what="site", where="--site")


def night_of(site: Site, evening: date | None, now: datetime) -> Night:
    """Return the night of ``--evening``, of tonight without it."""
    try:
        return compute_night(site, tonight(site, now) if evening is None else evening)
    except ProblemsError as error:
        raise placed(error, "--evening") from None


def read_time(site: Site, text: str, *, where: str = "--at") -> datetime:
    """Return the moment that an option means at a site."""
    try:
        return site_time(site, text)
    except ProblemsError as error:
        raise placed(error, where) from None


def night_around(site: Site, evening: date | None, moment: datetime) -> Night:
    """Return the night that a moment lies in; with ``--evening`` it must be that one."""
    asked_by = "--at" if evening is None else "--evening"
    try:
        if evening is None:
            evening = evening_around(site, moment)
        start, end = evening_span(site, evening)
        if not start <= moment < end:
            told = MUST_BE_IN_EVENING.format(day=date_text(evening), zone=site.time_zone)
            raise refuse(told, where="--at")
        return compute_night(site, evening)
    except ProblemsError as error:
        raise placed(error, asked_by) from None


def evening_around(site: Site, moment: datetime) -> date:
    """Return the date of the evening, from noon to noon, that a moment lies in."""
    return (moment.astimezone(site.zone) - timedelta(hours=12)).date()
