"""One line of the log: a verdict or a note at the eyepiece, with all that it was made with."""

import uuid
from collections.abc import Callable
from datetime import UTC, date, datetime
from enum import StrEnum
from typing import Any

import attrs
from attrs import field, frozen
from attrs.validators import max_len, optional

from core.checks import not_blank, uuid_or_nothing, within
from core.sky.bodies import Body

LONGEST_NOTE = 10_000
_LONGEST_NAME = 1_000


class Verdict(StrEnum):
    """What a step from one power to another did to the detail seen."""

    MORE = "more"
    NO_CHANGE = "no_change"
    LESS = "less"
    CANNOT_TELL = "cannot_tell"

    @property
    def reversed(self) -> "Verdict":
        """What the same step says when it is gone the other way."""
        return {Verdict.MORE: Verdict.LESS, Verdict.LESS: Verdict.MORE}.get(self, self)


def _aware(_instance: object, _attribute: "attrs.Attribute[Any]", value: datetime) -> None:
    if value.tzinfo is None:
        raise ValueError("must be a time with its offset from UTC")


def _in_utc(value: object) -> object:
    """Return a time in UTC in whole milliseconds, which is what every form of the log keeps."""
    if not isinstance(value, datetime) or value.tzinfo is None:
        return value
    utc = value.astimezone(UTC)
    return utc.replace(microsecond=utc.microsecond // 1000 * 1000)


def _within_or_none(low: float, high: float, unit: str = "") -> Callable[..., Any]:
    return optional(within(low, high, unit))


@frozen(kw_only=True)
class UsedGear:
    """A Barlow or a filter that was in; ``figure`` is a factor, or None.

    ``id`` is its id in the profile, ``name`` what it was called then.
    """

    id: str = field(default="", validator=max_len(_LONGEST_NAME))
    name: str = field(default="", validator=max_len(_LONGEST_NAME))
    figure: float | None = field(default=None, validator=_within_or_none(0, 100))


@frozen(kw_only=True)
class LogEntry:
    """A verdict, or a note, with the figures and the ids of what was used.

    The names and figures stay true when a thing is renamed or sold. ``evening`` is the date on which the
    evening began, site time; ``path`` the air path; ``blur_overhead_arcsec`` what the air was taken for
    then and ``blur_source`` from where; ``band_low`` and ``band_high`` the powers that it was likely to bear;
    ``mirror_arcsec`` the blur of a warm mirror. A verdict is on the step from ``from_power`` to ``power``.
    """

    id: str = field(factory=lambda: str(uuid.uuid4()), validator=uuid_or_nothing)
    profile_id: str = field(default="", validator=uuid_or_nothing)
    at: datetime = field(validator=_aware, converter=_in_utc)
    evening: date
    time_zone: str = field(default="UTC", validator=max_len(_LONGEST_NAME))
    site_id: str = field(default="", validator=max_len(_LONGEST_NAME))
    site_name: str = field(default="", validator=max_len(_LONGEST_NAME))
    planet: Body | None = None
    altitude_deg: float | None = field(default=None, validator=_within_or_none(-90, 90, "degrees"))
    path: float | None = field(default=None, validator=_within_or_none(1, 40))
    scope_id: str = field(default="", validator=max_len(_LONGEST_NAME))
    scope_name: str = field(default="", validator=max_len(_LONGEST_NAME))
    aperture_mm: float | None = field(default=None, validator=_within_or_none(1, 2000, "mm"))
    focal_length_mm: float | None = field(default=None, validator=_within_or_none(1, 50_000, "mm"))
    eyepiece_id: str = field(default="", validator=max_len(_LONGEST_NAME))
    eyepiece_name: str = field(default="", validator=max_len(_LONGEST_NAME))
    eyepiece_focal_length_mm: float | None = field(default=None, validator=_within_or_none(0.5, 100, "mm"))
    barlows: tuple[UsedGear, ...] = ()
    filters: tuple[UsedGear, ...] = ()
    power: float | None = field(default=None, validator=_within_or_none(0.1, 20_000))
    from_power: float | None = field(default=None, validator=_within_or_none(0.1, 20_000))
    verdict: Verdict | None = None
    ceiling_power: float | None = field(default=None, validator=_within_or_none(0, 20_000))
    band_low: float | None = field(default=None, validator=_within_or_none(0, 20_000))
    band_high: float | None = field(default=None, validator=_within_or_none(0, 20_000))
    blur_overhead_arcsec: float | None = field(default=None, validator=_within_or_none(0.1, 20, "arcsec"))
    blur_source: str = field(default="", validator=max_len(_LONGEST_NAME))
    dispersion_arcsec: float | None = field(default=None, validator=_within_or_none(0, 100, "arcsec"))
    mirror_arcsec: float | None = field(default=None, validator=_within_or_none(0, 100, "arcsec"))
    mirror_is_cooling: bool = False
    in_warm_air: bool = False
    note: str = field(default="", validator=max_len(LONGEST_NOTE))

    def __attrs_post_init__(self) -> None:
        """Refuse a line that tells nothing, and a verdict on no step."""
        if not self.id:
            raise ValueError("id: must be a UUID")
        if self.verdict is None:
            try:
                not_blank(self, attrs.fields(LogEntry).note, self.note)
            except ValueError:
                raise ValueError("must have a verdict or a note") from None
        elif self.power is None:
            raise ValueError("must have the power that the verdict is about")
