"""What every test needs before anything else is imported."""

import os

# Tests draw without a screen unless a real one is asked for; this must be set before Qt loads.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
