"""A profile for the commands, and a command as the terminal runs it."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PROFILE = """
schema = 1
observer = "Noa"

[[sites]]
id = "terrace"
name = "Back terrace"
latitude_deg = 38.72
longitude_deg = -9.14
time_zone = "Europe/Lisbon"
[[sites.blocked]]
azimuth_from_deg = 90
azimuth_to_deg = 140
below_altitude_deg = 30
what = "\\u001b[2Jroof ridge"

[[sites]]
id = "far"
name = "Far north"
latitude_deg = 69.65
longitude_deg = 18.96
time_zone = "Europe/Oslo"

[[telescopes]]
id = "six"
name = "Six-inch"
kind = "reflector"
aperture_mm = 150
focal_length_mm = 1200

[[telescopes]]
id = "small"
name = "Lünette 80"
kind = "refractor"
aperture_mm = 80
focal_length_mm = 480

[[eyepieces]]
name = "25 mm"
focal_length_mm = 25

[[eyepieces]]
name = "8 mm"
focal_length_mm = 8

[[barlows]]
name = "2x"
factor = 2
"""


def run(*words: str, **environ: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "gui.app", *words],
        cwd=ROOT,
        env={**os.environ, "PYTHONIOENCODING": "utf-8", **environ},
        capture_output=True,
        encoding="utf-8",
        timeout=60,
        check=False,
    )
