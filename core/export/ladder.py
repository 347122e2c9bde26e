"""A power ladder, and two telescopes side by side, as plain dictionaries for JSON.

A ladder::

    {"schema":1, "scope":{"id","name"}, "planet":"saturn"|null, "at":t|null, "altitude_deg":n|null,
     "path":n|null, "overhead":false, "blur":{"overhead_arcsec":n,"source":"given|assumed|log|verdicts"},
     "limits":{"aperture":n,"usual_air":n,"tonight_air":n|null,"together":n|null,"band":[n,n]|null},
     "finest_detail_arcsec":n|null,
     "ceiling":{"power":n|null,"set_by":"aperture|usual_air|tonight_air|height"|null,"reason":"words"|null},
     "to_buy":{"kind":"eyepiece|zoom|barlow","focal_length_mm":n|null,"to_focal_length_mm":n|null,
               "factor":n|null,"for":"words"}|null,
     "start":n|null, "climb_to":n|null,
     "rungs":[{"power":n,"eyepiece":"10 mm"|null,"eyepiece_focal_length_mm":n|null,"barlows":["2x"],
       "approximate":false,"exit_pupil_mm":n,"true_field_deg":n|null,"drift_s":n|null,
       "standing":"below|good|try|above"|null,"notices":["words"],
       "alternatives":[{"eyepiece","eyepiece_focal_length_mm","barlows","power"}]}]}    # lowest power first

Two telescopes are ``{"schema":1, "planet", "at", "a":{...}, "b":{...}, "verdict":["words"]}``; each side is
a ladder and ``light_ratio_to_other``, ``resolution_arcsec``, ``disc_diameter_arcmin_at_ceiling``,
``elements_across_disc``, ``usable_minutes`` (low, likely, high), ``settled_minutes``, ``lowest_power``,
``widest_field_deg`` and ``collimation`` (words).
"""

from core.air.finest_detail import LimitKind
from core.air.limits import Ceiling
from core.export.parts import SCHEMA, JsonObject, number, scope_json, time_json
from core.gear.combinations import Combination
from core.ladder.buying import Purchase
from core.ladder.compare import Comparison
from core.ladder.ladder import Ladder, Rung, highest_not_above_ceiling
from core.ladder.side import Side
from core.words.buying import purpose_text
from core.words.comparison import collimation_text, verdict_texts
from core.words.ladder import no_ceiling_text
from core.words.notices import misfit_texts, rung_notice_texts
from core.words.units import USUAL_UNITS, Units


def ladder_json(ladder: Ladder, *, to_buy: Purchase | None, units: Units = USUAL_UNITS) -> JsonObject:
    """Return a ladder, its limits, what would help most over many nights, and its rungs, lowest first."""
    aim, limits, ceiling = ladder.aim, ladder.limits, ladder.ceiling
    return {
        "schema": SCHEMA,
        "scope": scope_json(ladder.scope),
        "planet": None if aim.planet is None else aim.planet.value,
        "at": time_json(aim.at),
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
            "together": number(limits.together),
            "band": None if limits.band is None else [number(power) for power in limits.band],
        },
        "finest_detail_arcsec": None if limits.detail is None else number(limits.detail.arcsec),
        "ceiling": {
            "power": number(ceiling.power),
            "set_by": _set_by(ceiling),
            "reason": None if ceiling.power is not None else no_ceiling_text(ladder),
        },
        "to_buy": None if to_buy is None else _purchase(to_buy),
        "start": number(ladder.start),
        "climb_to": number(highest_not_above_ceiling(ladder)),
        "rungs": _rungs(ladder, units),
    }


def compare_json(
    comparison: Comparison,
    *,
    to_buy: tuple[Purchase | None, Purchase | None],
    units: Units = USUAL_UNITS,
) -> JsonObject:
    """Return two telescopes side by side, what they come to, and what would help each of them most."""
    return {
        "schema": SCHEMA,
        "planet": None if comparison.planet is None else comparison.planet.value,
        "at": time_json(comparison.at),
        "a": _side(comparison.a, to_buy[0], units),
        "b": _side(comparison.b, to_buy[1], units),
        "verdict": list(verdict_texts(comparison)),
    }


def _set_by(ceiling: Ceiling) -> str | None:
    """Return what sets a ceiling; a warm mirror counts as tonight's air."""
    set_by = LimitKind.TONIGHT_AIR if ceiling.set_by is LimitKind.MIRROR else ceiling.set_by
    return None if set_by is None else set_by.value


def _purchase(to_buy: Purchase) -> JsonObject:
    thing = to_buy.thing
    return {
        "kind": thing.kind.value,
        "focal_length_mm": number(thing.focal_length_mm),
        "to_focal_length_mm": number(thing.to_focal_length_mm),
        "factor": number(thing.factor),
        "for": purpose_text(to_buy),
    }


def _rungs(ladder: Ladder, units: Units) -> list[JsonObject]:
    """Return the rungs, lowest first; the first also tells what is owned and does not fit."""
    rungs = [_rung(rung, ladder, units) for rung in ladder.rungs]
    if rungs:
        rungs[0]["notices"] += misfit_texts(ladder)
    return rungs


def _rung(rung: Rung, ladder: Ladder, units: Units) -> JsonObject:
    return {
        **_combination(rung.combination),
        "power": number(rung.power),
        "approximate": rung.combination.approximate,
        "exit_pupil_mm": number(rung.exit_pupil_mm),
        "true_field_deg": number(rung.true_field_deg),
        "drift_s": number(rung.drift_s),
        "standing": None if rung.standing is None else rung.standing.value,
        "notices": list(rung_notice_texts(rung, ladder, units)),
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


def _side(side: Side, to_buy: Purchase | None, units: Units) -> JsonObject:
    return {
        **ladder_json(side.ladder, to_buy=to_buy, units=units),
        "light_ratio_to_other": number(side.light_ratio_to_other),
        "resolution_arcsec": number(side.resolution_arcsec),
        "disc_diameter_arcmin_at_ceiling": number(side.disc_diameter_arcmin_at_ceiling),
        "elements_across_disc": number(side.elements_across_disc),
        "usable_minutes": None if side.usable_minutes is None else list(side.usable_minutes),
        "settled_minutes": number(side.settled_minutes),
        "lowest_power": number(side.lowest_power),
        "widest_field_deg": number(side.widest_field_deg),
        "collimation": collimation_text(side.collimation),
    }
