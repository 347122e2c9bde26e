"""The evenings that fit what was wished for, as plain text for a terminal."""

from core.moments.hours import Hour
from core.plain_text import WIDTH, wrapped
from core.sky.site import Site
from core.words.found_dates import day_words, found_cautions, found_sentence, seen_words
from core.words.site_clock import SiteClock
from core.year.dates import FoundDates


def dates_text(
    found: FoundDates,
    site: Site,
    *,
    usual: tuple[Hour, Hour],
    clock: int = 24,
    width: int = WIDTH,
) -> str:
    """Return what was wished for, and each evening with when every body can be seen.

    ``usual`` are the owner's usual hours.
    """
    site_clock = SiteClock(zone=site.zone, hours=clock)
    sentence = found_sentence(found, site, usual=usual, clock=site_clock)
    lines = wrapped(sentence, width)
    for evening in found.evenings:
        lines += ["", *wrapped(day_words(evening), width)]
        for seen in evening.seen:
            lines += wrapped(f"  {seen_words(seen, site_clock)}", width, indent="    ")
    for words in found_cautions(found, usual=usual):
        lines += ["", *wrapped(words, width)]
    return "\n".join(lines)
