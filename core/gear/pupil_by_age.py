"""How wide the eye's pupil usually opens in the dark, by age.

Kadlecová and others 1958, Nature 182, 1520, as commonly quoted (from memory); people differ by 1 mm and more.
"""

from typing import Final

import numpy as np

_AGES: Final = (20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0)
_PUPILS_MM: Final = (8.0, 7.0, 6.0, 5.0, 4.1, 3.2, 2.5)


def usual_pupil_mm(age_years: float) -> float:
    """Return the usual widest pupil in mm, straight between the ages of the table and kept outside them."""
    return float(np.interp(age_years, _AGES, _PUPILS_MM))
