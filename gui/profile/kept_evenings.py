"""What is kept of the last evenings as text: JSON, of which a part that cannot be understood is left out."""

import json
import math
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, date, datetime, time
from pathlib import Path
from typing import Any, cast

import attrs
from attrs import frozen
from cattrs.preconf.json import make_converter

from core.air.blur import Blur, BlurSource
from core.air.first_look import FirstLook, ScaleStep
from core.moments.hours import Hour, Twilight
from core.situation.choices import (
    Choices,
    EveningHours,
    EveningSteps,
    EveningTemperatures,
    ScopeOutside,
)
from core.sky.bodies import Body


@frozen(kw_only=True)
class Kept:
    """What is kept of the choices: notes on single evenings, the air that was said, and what was in hand."""

    outside: tuple[ScopeOutside, ...] = ()
    temperatures: tuple[EveningTemperatures, ...] = ()
    hours: tuple[EveningHours, ...] = ()
    steps: tuple[EveningSteps, ...] = ()
    lifted_on: date | None = None
    blur: Blur | None = None
    rung_power: float | None = None
    power_before: float | None = None
    filter_id: str = ""
    scope_id: str = ""
    planet: Body | None = None

    @classmethod
    def of(cls, choices: Choices) -> "Kept":
        """Return what of the choices is kept."""
        is_said = choices.blur.source is not BlurSource.ASSUMED
        return cls(
            outside=choices.outside,
            temperatures=choices.temperatures,
            hours=choices.hours,
            steps=choices.steps,
            lifted_on=choices.lifted_on,
            blur=choices.blur if is_said else None,
            rung_power=choices.rung_power,
            power_before=choices.power_before,
            filter_id=choices.filter_id,
            scope_id=choices.scope_id,
            planet=choices.planet,
        )


def dumps_kept(kept: Kept, said_at: datetime, of: Path | None = None) -> str:
    """Return what is kept, when it was said, and of which file where its profile has no id, as text."""
    data = _converter.unstructure(kept) | {"said_at": said_at.isoformat()}
    if of is not None:
        data["of"] = str(of.absolute())
    # In ASCII, for the name of a file may have bytes that are no letters.
    return json.dumps(data)


def file_of_kept(text: str) -> Path | None:
    """Return of which file's evenings a text keeps something, None where it does not say."""
    with suppress(ValueError, RecursionError, KeyError, TypeError):
        return Path(json.loads(text)["of"])
    return None


def loads_kept(text: str) -> tuple[Kept, datetime | None]:
    """Return what a text keeps and when it was said, None where that is not to be understood."""
    try:
        data = json.loads(text)
    except (ValueError, RecursionError):
        return Kept(), None
    if not isinstance(data, dict):
        return Kept(), None
    taken: dict[str, Any] = {}
    for field in attrs.fields(Kept):
        if field.name in data:
            with suppress(Exception):  # whatever is wrong with a part, the others are of use
                taken[field.name] = _converter.structure(data[field.name], cast("Any", field.type))
    said_at = None
    with suppress(Exception):
        said_at = _moment(data["said_at"], datetime)
    return Kept(**taken), said_at


def _moment(value: object, _wanted: object) -> datetime:
    moment = datetime.fromisoformat(str(value))
    if moment.tzinfo is None:
        raise ValueError("a moment without a zone")
    return moment.astimezone(UTC)


def _figure(value: object, _wanted: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise ValueError("not a figure")
    return float(value)


def _hour(value: object, _wanted: object) -> Hour:
    text = str(value)
    return Twilight(text) if text in set(Twilight) else time.fromisoformat(text)


def _judged_by(value: Any, _wanted: object) -> FirstLook | ScaleStep:  # noqa: ANN401 - as it was read
    return _converter.structure(value, ScaleStep) if isinstance(value, dict) else FirstLook(value)


def _body(value: object, _wanted: object) -> Body | None:
    return None if value is None else Body(str(value))


def _text(value: object, _wanted: object) -> str:
    if not isinstance(value, str):
        raise TypeError("not a text")
    return value


_converter = make_converter()
_HOOKS: dict[Any, Callable[[Any, Any], Any]] = {
    datetime: _moment,
    float: _figure,
    str: _text,
    Hour: _hour,
    FirstLook | ScaleStep: _judged_by,
    Body | None: _body,
}
for _kind, _hook in _HOOKS.items():
    _converter.register_structure_hook(_kind, _hook)
_converter.register_unstructure_hook(time, lambda hour: hour.isoformat())
