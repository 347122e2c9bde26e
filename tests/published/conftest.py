"""What the checks against other libraries share."""

from collections.abc import Iterator
from importlib.resources import files

import pytest


@pytest.fixture(scope="module")
def planet_tables() -> Iterator[None]:
    """Let astropy use the planet tables of this installation, and nothing from the network."""
    # Here, for it takes long to load and most checks need none of it.
    from astropy.coordinates import solar_system_ephemeris
    from astropy.utils import iers

    with (
        iers.conf.set_temp("auto_download", False),
        iers.conf.set_temp("auto_max_age", None),
        solar_system_ephemeris.set(str(files("skyfield_data") / "data" / "de421.bsp")),
    ):
        yield
    solar_system_ephemeris.set("builtin")  # closes the file
