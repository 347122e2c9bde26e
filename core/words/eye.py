"""What is typical of an eye, in words that say it is only typical."""

from typing import Final

from core.words.quantities import pupil_text, trimmed_text

UNKNOWN_AGE: Final = (
    "Never measured it? Your age gives the pupil that is typical in the dark; the age is not kept."
)
_USUAL_PUPIL: Final = (
    "{pupil} is typical at {age}, a table's figure and not yours: people differ by 1 mm and more."
)


def usual_pupil_text(age_years: float, pupil_mm: float) -> str:
    """Return what the widest pupil usually is at an age, marked typical."""
    return _USUAL_PUPIL.format(pupil=pupil_text(pupil_mm), age=trimmed_text(age_years, 1))
