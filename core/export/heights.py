"""An evening as a plain dictionary for JSON.

::

    {"schema":1, "evening":"2026-12-05", "start":t, "end":t,
     "site":{"id","name","latitude_deg":n,"longitude_deg":n,"elevation_m":n,"time_zone"},
     "answer":"words", "hours":{"from":t,"until":t,"assumed":true}|null,
     "best":{"body":"saturn","start":t,"end":t,"altitude_deg":n,"azimuth_deg":n,
             "eyepiece":"25 mm"|null,"start_power":n|null,"climb_to":n|null}|null,  # what the answer is about
     "plan":[{"body","start":t,"end":t}],                            # targets in their order, no overlap
     "pairs":[{"a","b","separation_deg":n,"at":t,"power":n|null}],   # under 2 degrees
     "cautions":["words"],
     "sun":{"set":t,"rise":t,"civil_dusk":t,"civil_dawn":t,"nautical_dusk":t,"nautical_dawn":t,
            "astronomical_dusk":t,"astronomical_dawn":t,"lowest_altitude_deg":n},
     "bodies":[{"body":"saturn", "state":"normal|always_up|never_up",
       "rises":[t], "transits":[{"time":t,"altitude_deg":n,"azimuth_deg":n}], "sets":[t],
       "above_30":[[t,t]], "above_45":[[t,t]],
       "highest":{"time":t,"altitude_deg":n,"azimuth_deg":n,"path":n|null},
       "windows":[{"start":t,"end":t,"grade":"best|fair|low","warm_air":"chimney"|null}],
       "blocked":[{"start":t,"end":t,"what":"roof ridge"}], "why_not":"words"|null,
       "diameter_arcsec":n,"magnitude":n,"illuminated_fraction":n,"elongation_deg":n}]}

Rises, transits and sets are all of their kind in the evening, in order; those of the Sun its first downward
and last upward crossings. Diameter (equatorial) and what follows it are geocentric, at the first transit,
else at mid-evening. A pair's power is the highest that holds both.
"""

from core.export.parts import (
    SCHEMA,
    JsonObject,
    hours_json,
    number,
    pair_json,
    position_json,
    site_json,
    spans_json,
    time_json,
)
from core.ladder.first_steps import first_steps
from core.situation.situation import Situation
from core.sky.night import BodyNight, SunNight
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
        "transits": [position_json(position) for position in body.transits],
        "sets": [time_json(time) for time in body.sets],
        "above_30": spans_json(body.above_30),
        "above_45": spans_json(body.above_45),
        "highest": {**position_json(body.highest), "path": number(body.highest.path)},
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
