"""What every test needs before anything else is imported."""

import os

from hypothesis import settings

# Tests draw without a screen unless a real one is asked for; this must be set before Qt loads.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

# How long an example takes says more about what else the machine does than about the code.
settings.register_profile("stillair", deadline=None)
if not os.environ.get("CI"):  # there hypothesis has a profile of its own, with fixed examples
    settings.load_profile("stillair")
