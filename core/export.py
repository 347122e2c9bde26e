"""Results as plain dictionaries for JSON: every key present, times in UTC, what does not exist is None."""

import json
import math
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

from core.answer import Answer
from core.kit.combinations import Combination
from core.kit.compare import Comparison, Side
from core.kit.ladder import Ladder, Rung
from core.sky.night import BodyNight, Night, Position, Span, SunNight
from core.sky.site import Site

SCHEMA = 1
JsonObject = dict[str, Any]


def to_json(value: JsonObject) -> str:
    """Return an object as JSON in ASCII, so that no text in it can command a terminal."""
    text = json.dumps(value, indent=2, allow_nan=False)
    return text.replace("\x7f", "\\u007f")


def heights_json(night: Night, answer: Answer) -> JsonObject:
    """Return an evening: its site, the answer, the Sun and every body."""
    return {
        "schema": SCHEMA,
        "evening": night.evening.isoformat(),
        "start": time_text(night.start),
        "end": time_text(night.end),
        "site": site_json(night.site),
        "answer": answer.sentence,
        "sun": _sun(night.sun),
        "bodies": [_body(body) for body in night.bodies],
    }


def site_json(site: Site) -> JsonObject:
    """Return where an evening takes place."""
    return {
        "id": site.id,
        "name": site.name,
        "latitude_deg": number(site.latitude_deg),
        "longitude_deg": number(site.longitude_deg),
        "elevation_m": number(site.elevation_m),
        "time_zone": site.time_zone,
    }


def ladder_json(ladder: Ladder) -> JsonObject:
    """Return a ladder, its limits and its rungs, lowest power first."""
    aim, limits, ceiling = ladder.aim, ladder.limits, ladder.ceiling
    return {
        "schema": SCHEMA,
        "scope": {"id": ladder.scope.id, "name": ladder.scope.name},
        "planet": None if aim.planet is None else aim.planet.value,
        "at": time_text(aim.at),
        "altitude_deg": number(aim.altitude_deg),
        "path": number(aim.path),
        "overhead": aim.overhead,
        "blur": {
            "overhead_arcsec": number(ladder.blur.overhead_arcsec),
            "source": ladder.blur.source.value,
        },
        "limits": {
            "aperture": number(limits.aperture),
            "usual_air": number(limits.usual_air),
            "tonight_air": number(limits.tonight_air),
        },
        "ceiling": {
            "power": number(ceiling.power),
            "set_by": None if ceiling.set_by is None else ceiling.set_by.value,
            "reason": ceiling.reason,
        },
        "start": number(ladder.start),
        "climb_to": number(ladder.climb_to),
        "rungs": [_rung(rung) for rung in ladder.rungs],
    }


def compare_json(comparison: Comparison) -> JsonObject:
    """Return two telescopes side by side and what they come to."""
    return {
        "schema": SCHEMA,
        "planet": None if comparison.planet is None else comparison.planet.value,
        "at": time_text(comparison.at),
        "a": _side(comparison.a),
        "b": _side(comparison.b),
        "verdict": list(comparison.verdict),
    }


def time_text(moment: datetime | None) -> str | None:
    """Return a time in UTC, ISO 8601 with ``Z`` and milliseconds."""
    if moment is None:
        return None
    return moment.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def number(value: float | None) -> float | None:
    """Return a finite number as it is, anything else as None."""
    return None if value is None or not math.isfinite(value) else float(value)


def _sun(sun: SunNight) -> JsonObject:
    return {
        "set": time_text(sun.set),
        "rise": time_text(sun.rise),
        "civil_dusk": time_text(sun.civil_dusk),
        "civil_dawn": time_text(sun.civil_dawn),
        "nautical_dusk": time_text(sun.nautical_dusk),
        "nautical_dawn": time_text(sun.nautical_dawn),
        "astronomical_dusk": time_text(sun.astronomical_dusk),
        "astronomical_dawn": time_text(sun.astronomical_dawn),
        "lowest_altitude_deg": number(sun.lowest_altitude_deg),
    }


def _body(body: BodyNight) -> JsonObject:
    return {
        "body": body.body.value,
        "state": body.state.value,
        "rises": [time_text(time) for time in body.rises],
        "transits": [_place(position) for position in body.transits],
        "sets": [time_text(time) for time in body.sets],
        "above_30": _spans(body.above_30),
        "above_45": _spans(body.above_45),
        "highest": {**_place(body.highest), "path": number(body.highest.path)},
        "windows": [
            {
                "start": time_text(window.start),
                "end": time_text(window.end),
                "grade": window.grade.value,
                "warm_air": window.warm_air,
            }
            for window in body.windows
        ],
        "blocked": [
            {"start": time_text(span.start), "end": time_text(span.end), "what": span.what}
            for span in body.blocked
        ],
        "why_not": body.why_not,
        "diameter_arcsec": number(body.diameter_arcsec),
        "magnitude": number(body.magnitude),
        "illuminated_fraction": number(body.illuminated_fraction),
        "elongation_deg": number(body.elongation_deg),
    }


def _place(position: Position) -> JsonObject:
    return {
        "time": time_text(position.time),
        "altitude_deg": number(position.altitude_deg),
        "azimuth_deg": number(position.azimuth_deg),
    }


def _spans(spans: Sequence[Span]) -> list[list[str | None]]:
    return [[time_text(span.start), time_text(span.end)] for span in spans]


def _rung(rung: Rung) -> JsonObject:
    return {
        **_combination(rung.combination),
        "power": number(rung.power),
        "approximate": rung.combination.approximate,
        "exit_pupil_mm": number(rung.exit_pupil_mm),
        "true_field_deg": number(rung.true_field_deg),
        "drift_s": number(rung.drift_s),
        "standing": rung.standing.value,
        "notices": list(rung.notices),
        "alternatives": [_combination(other) for other in rung.alternatives],
    }


def _combination(combination: Combination) -> JsonObject:
    eyepiece = combination.eyepiece
    return {
        "power": number(combination.power),
        "eyepiece": None if eyepiece is None else eyepiece.name,
        "eyepiece_focal_length_mm": number(combination.eyepiece_focal_length_mm),
        "barlows": [barlow.name for barlow in combination.barlows],
    }


def _side(side: Side) -> JsonObject:
    return {
        **ladder_json(side.ladder),
        "light_ratio_to_other": number(side.light_ratio_to_other),
        "resolution_arcsec": number(side.resolution_arcsec),
        "limiting_blur_arcsec": number(side.limiting_blur_arcsec),
        "disc_diameter_arcmin_at_ceiling": number(side.disc_diameter_arcmin_at_ceiling),
        "elements_across_disc": number(side.elements_across_disc),
        "cooling_minutes": None if side.cooling_minutes is None else list(side.cooling_minutes),
        "lowest_power": number(side.lowest_power),
        "widest_field_deg": number(side.widest_field_deg),
        "collimation": side.collimation,
    }
