"""When dew or frost settles on a telescope, and what to do against it."""

from typing import Final

from core.air.dew import Shelter
from core.air.dew_outlook import DewOutlook
from core.gear.fahrenheit import to_fahrenheit
from core.record.observer import TemperatureUnit
from core.words.cautions import HEATERS
from core.words.quantities import rounded_text
from core.words.site_clock import SiteClock

# By whether it freezes.
_BARE_SHIELDED_DRY: Final = {
    False: (
        "Dew settles on the bare front glass from about {wet}; a shield 1.5 times as long as the aperture is "
        "wide keeps it dry (an estimate)."
    ),
    True: (
        "Frost settles on the bare front glass from about {wet}; a shield 1.5 times as long as the aperture "
        "is wide keeps it off (an estimate)."
    ),
}
_BARE_SHIELDED_WET: Final = {
    False: (
        "Dew settles on the bare front glass from about {wet}, behind a shield from about {shielded} (an "
        "estimate). Let it cool first, then put the shield on; gentle heat only after that. {heaters}"
    ),
    True: (
        "Frost settles on the bare front glass from about {wet}, behind a shield from about {shielded} (an "
        "estimate). Let it cool first, then put the shield on; gentle heat only after that. {heaters}"
    ),
}
_DAMP: Final = (
    "From about {damp} the air is so damp that even shaded glass and eyepieces fog over (an estimate): keep "
    "the eyepieces in a warm pocket, and do not breathe on them."
)
_DRY: Final = "Bare front glass stays dry (an estimate)."

_CELSIUS: Final = "{figure} °C"
_FAHRENHEIT: Final = "{figure} °F"


def temperature_text(temperature_c: float, unit: TemperatureUnit = TemperatureUnit.CELSIUS) -> str:
    """Return a temperature in whole degrees of a unit, below zero with a true minus sign: ``−2 °C``."""
    if unit is TemperatureUnit.FAHRENHEIT:
        return _FAHRENHEIT.format(figure=rounded_text(to_fahrenheit(temperature_c))).replace("-", "−")
    return _CELSIUS.format(figure=rounded_text(temperature_c)).replace("-", "−")


def dew_text(dew: DewOutlook, clock: SiteClock) -> str:
    """Return when dew settles and what helps, nothing for a mirror that stays dry down its tube."""
    damp = None if dew.damp_at is None else _DAMP.format(damp=clock.about(dew.damp_at))
    return " ".join(filter(None, (_front_glass_text(dew, clock), damp)))


def _front_glass_text(dew: DewOutlook, clock: SiteClock) -> str | None:
    if dew.shelter is not Shelter.BARE:
        return None
    if dew.wet_at is None or dew.risk is None:
        return _DRY
    wet = clock.about(dew.wet_at)
    if dew.shielded_wet_at is None:
        return _BARE_SHIELDED_DRY[dew.risk.frost].format(wet=wet)
    return _BARE_SHIELDED_WET[dew.risk.frost].format(
        wet=wet, shielded=clock.about(dew.shielded_wet_at), heaters=HEATERS
    )
