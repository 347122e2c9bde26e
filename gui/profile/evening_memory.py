"""What was said and done of the last evenings, kept over a restart: nobody tells it twice in the cold."""

import hashlib
import json
import math
import os
import re
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime, time, timedelta
from pathlib import Path
from typing import Any, cast

import attrs
from attrs import frozen
from cattrs.preconf.json import make_converter
from PySide6.QtCore import QObject

from core.air.blur import Blur, BlurSource
from core.air.first_look import FirstLook, ScaleStep
from core.moments.hours import Hour, Twilight
from core.problems import ProblemsError
from core.record.files import read_text, write_atomically
from core.situation.choices import (
    Choices,
    EveningHours,
    EveningSteps,
    EveningTemperatures,
    ScopeOutside,
)
from core.sky.bodies import Body
from gui.state import AppState

_FOLDER = "evenings"
_KEPT_FOR = timedelta(days=2)
# The air and the rung in hand are still those of the same evening for so long (ours).
_SAME_EVENING = timedelta(hours=8)
_HALF_A_DAY = timedelta(hours=12)
_SAFE_NAME = re.compile(r"[0-9A-Za-z-]{1,64}")


@frozen(kw_only=True)
class Kept:
    """What is kept of the choices: notes on single evenings, the air that was said, and what was in hand."""

    outside: tuple[ScopeOutside, ...] = ()
    temperatures: tuple[EveningTemperatures, ...] = ()
    hours: tuple[EveningHours, ...] = ()
    steps: tuple[EveningSteps, ...] = ()
    lifted_on: str = ""
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
            lifted_on="" if choices.lifted_on is None else choices.lifted_on.isoformat(),
            blur=choices.blur if is_said else None,
            rung_power=choices.rung_power,
            power_before=choices.power_before,
            filter_id=choices.filter_id,
            scope_id=choices.scope_id,
            planet=choices.planet,
        )


class EveningMemory(QObject):
    """Writes what was said whenever it changes, one small file for each profile, and brings it back.

    What cannot be read is left out, and what is two days old dropped; a folder that cannot be written costs
    nothing but the memory.
    """

    def __init__(self, state: AppState, folder: Path) -> None:
        super().__init__(state)
        self._state = state
        self._folder = folder / _FOLDER
        self._written = Kept()
        state.loaded.connect(self.bring_back)
        state.changed.connect(self._on_changed)
        self.bring_back()

    def bring_back(self) -> None:
        """Take up again what was kept for the profile in hand."""
        choices, now = self._state.choices, self._state.situation.now
        kept, said_at = self._read()
        oldest = (now - _KEPT_FOR).date()
        notes: dict[str, Any] = {
            name: tuple(note for note in getattr(kept, name) if note.evening >= oldest)
            for name in ("outside", "temperatures", "hours", "steps")
        }
        with suppress(ValueError):
            notes["lifted_on"] = datetime.fromisoformat(kept.lifted_on).date() if kept.lifted_on else None
        if said_at is not None and self._is_same_evening(said_at, now):
            if kept.blur is not None and choices.blur.source is BlurSource.ASSUMED:
                notes["blur"] = kept.blur
            if choices.planet is None:
                notes["planet"] = kept.planet
            if kept.scope_id in ("", choices.scope_id):
                notes |= {name: getattr(kept, name) for name in ("rung_power", "power_before", "filter_id")}
        self._written = kept
        self._state.take_up(attrs.evolve(choices, **notes))

    def _is_same_evening(self, said_at: datetime, now: datetime) -> bool:
        """Tell whether no noon of the site has passed, nor too long a time."""
        site = self._state.situation.site
        zone = UTC if site is None else site.zone
        said, present = ((moment.astimezone(zone) - _HALF_A_DAY).date() for moment in (said_at, now))
        return said == present and timedelta() <= now - said_at < _SAME_EVENING

    def _on_changed(self, _change: object) -> None:
        kept = Kept.of(self._state.choices)
        if kept != self._written:
            self._written = kept
            self._write(kept)

    def _path(self) -> Path | None:
        """Return the file of the profile in hand: by its id, before it has one by its place on disk.

        None for one that was never saved, which nothing tells from the next.
        """
        own_id, path = self._state.profile.id, self._state.path
        if own_id and _SAFE_NAME.fullmatch(own_id):
            return self._folder / f"{own_id}.json"
        if path is None:
            return None
        name = hashlib.sha256(os.fsencode(path.absolute())).hexdigest()[:32]
        return self._folder / f"{name}.json"

    def _write(self, kept: Kept) -> None:
        path = self._path()
        if path is None:
            return
        data = _converter.unstructure(kept) | {"said_at": self._state.situation.now.isoformat()}
        with suppress(ProblemsError, OSError):
            self._folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            write_atomically(path, json.dumps(data, ensure_ascii=False))

    def _read(self) -> tuple[Kept, datetime | None]:
        """Return what is kept and when it was said; each part that cannot be understood is left out."""
        path = self._path()
        if path is None:
            return Kept(), None
        try:
            data = json.loads(read_text(path))
        except (ProblemsError, OSError, ValueError, RecursionError):
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
