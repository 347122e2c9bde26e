"""An evening as a plain dictionary for JSON."""

from collections.abc import Sequence

from core.export.parts import SCHEMA, JsonObject, number, pair_json, site_json, time_json
from core.ladder.first_steps import first_steps
from core.moments.hours import HoursOut
from core.situation.situation import Situation
from core.sky.night import BodyNight, Position, Span, SunNight
from core.words.answer import answer_words
from core.words.evening_cautions import evening_cautions
from core.words.why_not import why_not_words


def heights_json(situation: Situation) -> JsonObject:
    """Return an evening: its site, the answer, the Sun and every body; the situation must have a night."""
    night = situation.night
    assert night is not None
    return {
        "schema": SCHEMA,
        "evening": night.evening.isoformat(),
        "start": time_json(night.start),
        "end": time_json(night.end),
        "site": site_json(night.site),
        "answer": answer_words(situation),
        "hours": hours_json(situation.hours),
        "best": _best(situation),
        "plan": [
            {
                "body": target.body.value,
                "start": time_json(target.minutes.start),
                "end": time_json(target.minutes.end),
            }
            for target in situation.targets
        ],
        "pairs": [pair_json(pair, situation.kit_powers) for pair in situation.pairs],
        "cautions": list(evening_cautions(situation)),
        "sun": _sun(night.sun),
        "bodies": [_body(body) for body in night.bodies],
    }


def hours_json(hours: HoursOut | None) -> JsonObject | None:
    """Return the hours outside, None without a night."""
    if hours is None:
        return None
    return {"from": time_json(hours.start), "until": time_json(hours.end), "assumed": hours.assumed}


def _best(situation: Situation) -> JsonObject | None:
    """Return what the answer is about, None where it has no minutes to offer."""
    answer = situation.answer
    if answer is None or answer.best is None or answer.prospect.position is None:
        return None
    ladder, position = answer.ladder, answer.prospect.position
    steps = None if ladder is None else first_steps(ladder)
    first = None if steps is None else steps.first.combination.eyepiece
    return {
        "body": answer.planet.value,
        "start": time_json(answer.best.start),
        "end": time_json(answer.best.end),
        "altitude_deg": number(position.altitude_deg),
        "azimuth_deg": number(position.azimuth_deg),
        "eyepiece": None if first is None else first.name,
        "start_power": None if ladder is None else number(ladder.start),
        "climb_to": None if ladder is None else number(ladder.climb_to),
    }


def _sun(sun: SunNight) -> JsonObject:
    return {
        "set": time_json(sun.set),
        "rise": time_json(sun.rise),
        "civil_dusk": time_json(sun.civil_dusk),
        "civil_dawn": time_json(sun.civil_dawn),
        "nautical_dusk": time_json(sun.nautical_dusk),
        "nautical_dawn": time_json(sun.nautical_dawn),
        "astronomical_dusk": time_json(sun.astronomical_dusk),
        "astronomical_dawn": time_json(sun.astronomical_dawn),
        "lowest_altitude_deg": number(sun.lowest_altitude_deg),
    }


def _body(body: BodyNight) -> JsonObject:
    return {
        "body": body.body.value,
        "state": body.state.value,
        "rises": [time_json(time) for time in body.rises],
        "transits": [_place(position) for position in body.transits],
        "sets": [time_json(time) for time in body.sets],
        "above_30": _spans(body.above_30),
        "above_45": _spans(body.above_45),
        "highest": {**_place(body.highest), "path": number(body.highest.path)},
        "windows": [
            {
                "start": time_json(window.start),
                "end": time_json(window.end),
                "grade": window.grade.value,
                "warm_air": window.warm_air,
            }
            for window in body.windows
        ],
        "blocked": [
            {"start": time_json(span.start), "end": time_json(span.end), "what": span.what}
            for span in body.blocked
        ],
        "why_not": None if body.why_not is None else why_not_words(body.body, body.why_not),
        "diameter_arcsec": number(body.diameter_arcsec),
        "magnitude": number(body.magnitude),
        "illuminated_fraction": number(body.illuminated_fraction),
        "elongation_deg": number(body.elongation_deg),
    }


def _place(position: Position) -> JsonObject:
    return {
        "time": time_json(position.time),
        "altitude_deg": number(position.altitude_deg),
        "azimuth_deg": number(position.azimuth_deg),
    }


def _spans(spans: Sequence[Span]) -> list[list[str | None]]:
    return [[time_json(span.start), time_json(span.end)] for span in spans]
