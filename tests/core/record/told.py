"""What is said of a text that is no good profile."""

import pytest

from core.problems import ProblemsError
from core.record.profile import loads_profile

EYEPIECE = '[[eyepieces]]\nname = "Ten"\nfocal_length_mm = 10\n'


def told(text: str) -> list[str]:
    """Return each problem that reading a text tells, as a person reads it."""
    with pytest.raises(ProblemsError) as caught:
        loads_profile(text)
    return [str(problem) for problem in caught.value.problems]
