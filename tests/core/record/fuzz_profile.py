"""A coverage-guided fuzz of profile files: ``python fuzz_profile.py CORPUS -runs=N -seed=13``.

Each text is read or refused in a sentence, quickly; what is read is written and read again as the same.
"""

import sys
import time

import atheris

with atheris.instrument_imports(include=["core.record", "core.checks", "tomllib"]):
    from core.problems import ProblemsError
    from core.record.profile import dumps_profile, loads_profile

# Instrumented code takes about four times as long.
_LONGEST_S = 6.0


def try_text(data: bytes) -> None:
    """Read one text; anything but a profile or a ProblemsError is a find."""
    text = data.decode("utf-8", "replace")
    began = time.process_time()
    try:
        profile = loads_profile(text)
    except ProblemsError:
        profile = None
    if time.process_time() - began > _LONGEST_S:
        raise TimeoutError("took too long to read")
    if profile is not None and loads_profile(dumps_profile(profile, previous=text)) != profile:
        raise AssertionError("came back as another profile")


atheris.Setup(sys.argv, try_text)
atheris.Fuzz()
