"""The evening in order as a plain dictionary for JSON.

::

    {"schema":1, "evening":"2026-12-05", "start":t, "end":t, "site":{...}, "scope":{"id","name"}|null,
     "answer":"words", "hours":{...}, "pairs":[...],                        # as in heights
     "ready":{"usable_minutes":[n,n,n]|null,"settled_minutes":n|null,"stays_warmer_c":n|null}|null,
     "dew":{"glass":"bare|shielded|down_a_tube","from":t|null,"shielded_from":t|null,"everywhere_from":t|null,
            "dew_point_c":n|null,"frost":false}|null,
     "steps":[{"kind":"collimation|kit|place|carry_out|finder|covers|dew|ready|star_test|settled|own|target|
                       pack_up|stop",
               "start":t,"end":t,"title":"words","words":"words","body":"saturn"|null,"caution":false}],
     "cautions":["words"]}

``ready`` counts minutes (low, likely, high) from being carried out, null where that is never. Without
temperatures (those of now in the evening in progress, else of an hour before sunset) it is null as a whole,
as ``dew`` is where the damp is not known. Of a step that is a moment start and end are the same.
"""

from core.air.readiness import Readiness
from core.export.parts import (
    SCHEMA,
    JsonObject,
    hours_json,
    number,
    pair_json,
    scope_json,
    site_json,
    time_json,
)
from core.situation.situation import Situation
from core.tonight.steps import EveningItem, TargetItem
from core.words.answer import answer_words
from core.words.evening import item_title, item_words
from core.words.evening_cautions import evening_cautions
from core.words.site_clock import SiteClock, clock_of


def evening_json(situation: Situation) -> JsonObject:
    """Return the steps of an evening, and what they rest on; the situation must have a night."""
    night, clock, scope = situation.night, clock_of(situation), situation.scope
    assert night is not None
    assert clock is not None
    return {
        "schema": SCHEMA,
        "evening": night.evening.isoformat(),
        "start": time_json(night.start),
        "end": time_json(night.end),
        "site": site_json(night.site),
        "scope": scope_json(scope),
        "answer": answer_words(situation),
        "hours": hours_json(situation.hours),
        "ready": _ready(situation.readiness),
        "dew": _dew(situation),
        "steps": [_step(item, clock, situation) for item in situation.evening_steps],
        "pairs": [pair_json(pair, situation.kit_powers) for pair in situation.pairs],
        "cautions": list(evening_cautions(situation)),
    }


def _ready(readiness: Readiness | None) -> JsonObject | None:
    """Return both estimates in minutes from being carried out, None without temperatures."""
    if readiness is None:
        return None
    usable, settled = readiness.usable, readiness.settled
    return {
        "usable_minutes": None
        if readiness.never
        else [number(usable.low_minutes), number(usable.likely_minutes), number(usable.high_minutes)],
        "settled_minutes": None if settled is None or readiness.never else number(settled.likely_minutes),
        "stays_warmer_c": number(readiness.stays_warmer_c),
    }


def _dew(situation: Situation) -> JsonObject | None:
    """Return when dew settles, None where the damp is not known."""
    dew = situation.dew
    if dew is None:
        return None
    return {
        "glass": dew.shelter.value,
        "from": time_json(dew.wet_at),
        "shielded_from": time_json(dew.shielded_wet_at),
        "everywhere_from": time_json(dew.damp_at),
        "dew_point_c": None if dew.risk is None else number(dew.risk.dew_point_c),
        "frost": dew.risk is not None and dew.risk.frost,
    }


def _step(item: EveningItem, clock: SiteClock, situation: Situation) -> JsonObject:
    return {
        "kind": item.kind.value,
        "start": time_json(item.start),
        "end": time_json(item.end),
        "title": item_title(item),
        "words": item_words(item, clock, unit=situation.preferences.temperature),
        "body": item.body.value if isinstance(item, TargetItem) else None,
        "caution": item.caution,
    }
