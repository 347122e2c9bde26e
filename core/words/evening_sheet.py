"""The sheet of an evening in words: its heads, its steps to tick off, and what stands beside each outline."""

from collections.abc import Iterator
from typing import Final

from attrs import frozen

from core.looks.feature_rules import Likelihood
from core.looks.picture.turn import Turning, turning_of
from core.situation.on_paper import TargetOnPaper
from core.situation.situation import Situation
from core.sky.coordinates import Axis, format_coordinate
from core.sky.site import Site
from core.tonight.steps import EveningItem, OwnItem, TargetItem
from core.words.aim import aim_cautions
from core.words.cautions import CAP_BEFORE_SUNRISE
from core.words.dates import weekday_text
from core.words.evening import item_title, item_words
from core.words.evening_cautions import near_the_sun_cautions
from core.words.eyepiece import turning_note
from core.words.finding import HANDS, brief_finding_sentences
from core.words.how_far import first_steps_words
from core.words.looking_for import listed_feature_text
from core.words.looks import brief_words
from core.words.names import opening
from core.words.pairs import pair_sentences, pairs_in_hand
from core.words.site_clock import SiteClock

STEPS: Final = "The evening in order"
CONTINUED: Final = "The evening in order, continued"
CAUTIONS: Final = "Safety"
TOGETHER: Final = "Close together"
NOTES: Final = "Notes"
OUTLINES: Final = "Outlines to draw in"
NORTH: Final = "N"
DRIFT: Final = "drift"
# Under an outline, each with a line to write on.
TO_FILL_IN: Final = ("time", "power", "filter", "air")
_GOES_ON: Final = "The evening goes on overleaf."
_NOT_WRITTEN: Final = "□ stands for a letter that no font on this computer can write."
_OUTLINES: Final = {
    None: "As seen the right way up.",
    Turning.ERECT: "As seen in {scope}, the right way up.",
    Turning.UPSIDE_DOWN: "As seen in {scope}, upside down.",
    Turning.MIRRORED: "As seen in {scope}, the right way up but reversed left to right.",
}
_OUTLINES_ABOUT: Final = (
    "Phase, flattening, ring and pole are those of the time given; the sizes are not to one scale. N is the "
    "north pole. The arrow points where an undriven telescope lets it drift."
)
NO_CALENDAR: Final = "is for a calendar, and on this evening there is nothing to put into one"
NO_EVENING: Final = "Add a site in Gear; then there is an evening to put on paper."
SAVED: Final = "Saved as {path}."
_TITLE: Final = "Evening of {day}"
_OUTSIDE: Final = "Out {span}"
_OUTSIDE_ASSUMED: Final = "Out {span} (assumed)"
_PLACE: Final = "{latitude}, {longitude}"
_ZONE: Final = "times of {zone}"
_LADDER: Final = "Powers for {body} at {time}"
_LADDER_OVERHEAD: Final = "Powers straight overhead"
_HEAD: Final = "{span}  {title}"
_LIKELY: Final = "Likely: {features}."
_OUTLINE: Final = "{body} at {time}"
# More features than this are for the evening itself.
_MOST_FEATURES: Final = 5
ABOUT_THE_SHEET: Final = (
    "The evening in order with boxes to tick, chart, powers and safety, and outlines to draw in after them. "
    "Black on white, so that it can be read under a red light. A calendar or a table has the same steps."
)
NO_PRINTING: Final = "Printing is not possible on this system. Save a PDF, and print that."
SENT_TO_PRINTER: Final = "Sent to the printer."


@frozen(kw_only=True)
class SheetStep:
    """One step of the evening to tick off: when and what, and what to do."""

    head: str
    words: str
    is_done: bool


def title_words(situation: Situation) -> str:
    """Return which evening it is."""
    return _TITLE.format(day=weekday_text(situation.evening))


def about_words(situation: Situation, clock: SiteClock, *, with_place: bool) -> str:
    """Return for whom, where, with what and when: only ``with_place`` are there coordinates."""
    return " · ".join(filter(None, _about(situation, clock, with_place=with_place)))


def _about(situation: Situation, clock: SiteClock, *, with_place: bool) -> Iterator[str]:
    site, hours = situation.site, situation.hours
    # First, for a line that begins with a name from right to left would run that way.
    if hours is not None:
        template = _OUTSIDE_ASSUMED if hours.assumed else _OUTSIDE
        yield template.format(span=clock.span(hours.start, hours.end))
    if site is not None:
        yield _ZONE.format(zone=site.time_zone)
        yield site.name
        yield place_words(site) if with_place else ""
    yield "" if situation.scope is None else situation.scope.name
    yield situation.profile.observer


def place_words(site: Site) -> str:
    """Return where a site is."""
    return _PLACE.format(
        latitude=format_coordinate(site.latitude_deg, Axis.LATITUDE),
        longitude=format_coordinate(site.longitude_deg, Axis.LONGITUDE),
    )


def ladder_title(situation: Situation, clock: SiteClock) -> str:
    """Return what the ladder on the sheet is for."""
    aim = situation.best_aim
    if aim.planet is None or aim.at is None:
        return _LADDER_OVERHEAD
    return _LADDER.format(body=aim.planet.label, time=clock.time(aim.at))


def _step_of(
    item: EveningItem,
    target: TargetOnPaper | None,
    situation: Situation,
    clock: SiteClock,
    *,
    under_answer: bool,
) -> SheetStep:
    words = [item_words(item, clock, unit=situation.preferences.temperature)]
    if target is not None:
        ladder, finding = target.then.ladder, target.then.finding
        words += [] if finding is None else brief_finding_sentences(finding, clock)
        if ladder is not None and not (under_answer and target.item.is_chosen):
            words.append(first_steps_words(ladder))
    return SheetStep(
        head=_HEAD.format(span=clock.times(item.start, item.end), title=item_title(item)),
        # An own step is its title and nothing else.
        words="" if isinstance(item, OwnItem) else " ".join(filter(None, words)),
        is_done=item.is_done,
    )


def steps_of(
    situation: Situation,
    targets: tuple[TargetOnPaper, ...],
    clock: SiteClock,
    *,
    under_answer: bool = False,
) -> tuple[SheetStep, ...]:
    """Return the steps of an evening in their order.

    ``under_answer`` leaves out which eyepieces to take for the target in hand: the answer tells them.
    """
    known = iter(targets)
    return tuple(
        _step_of(
            item,
            next(known) if isinstance(item, TargetItem) else None,
            situation,
            clock,
            under_answer=under_answer,
        )
        for item in situation.evening_steps
    )


def foot_words(situation: Situation, *, is_all_written: bool, goes_on: bool = False) -> str:
    """Return what stands in the lower margin.

    That the steps go on on the next page, how angles are measured by hand, what boxes stand for.
    """
    notes = (
        _GOES_ON if goes_on else "",
        HANDS if situation.targets else "",
        "" if is_all_written else _NOT_WRITTEN,
    )
    return " ".join(filter(None, notes))


def together_words(situation: Situation) -> tuple[str, ...]:
    """Return what stands close together this evening, a sentence each, but for what the answer tells."""
    told = set(pairs_in_hand(situation))
    return tuple(sentence for sentence in pair_sentences(situation) if sentence not in told)


def sheet_cautions(situation: Situation, targets: tuple[TargetOnPaper, ...]) -> tuple[str, ...]:
    """Return the words of safety that stand in no step."""
    night = situation.night
    if night is None:
        return ()
    by_target = [caution for target in targets for caution in aim_cautions(target.then.aim)]
    return (*near_the_sun_cautions(night), *dict.fromkeys(by_target), CAP_BEFORE_SUNRISE)


def event_title(title: str, scope_name: str) -> str:
    """Return what an item is called among all else in a calendar: ``Saturn · Six-inch``."""
    return " · ".join(filter(None, (title, scope_name)))


def outline_title(target: TargetOnPaper, clock: SiteClock) -> str:
    """Return what an outline is of."""
    return _OUTLINE.format(body=opening(target.body), time=clock.time(target.time))


def outline_facts(target: TargetOnPaper, clock: SiteClock) -> Iterator[str]:
    """Yield the figures of a target's disc, and what will likely be seen where that can be told."""
    yield brief_words(target.appearance, clock, is_named=False)
    chances = target.appearance.expectations
    likely = [listed_feature_text(each) for each in chances if each.likelihood is Likelihood.LIKELY]
    if likely:
        yield _LIKELY.format(features="; ".join(likely[:_MOST_FEATURES]))


def outlines_words(situation: Situation) -> str:
    """Return how the outlines are turned and what is right in them, as sentences."""
    scope = situation.scope
    template = _OUTLINES[None if scope is None else turning_of(scope)]
    name = "" if scope is None else scope.name
    notes = None if scope is None else turning_note(scope)
    return " ".join(filter(None, (template.format(scope=name), notes, _OUTLINES_ABOUT)))
