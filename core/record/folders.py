"""Where a person's own data lie that are no profile."""

import os
from pathlib import Path
from typing import Final

import platformdirs

DATA_VARIABLE: Final = "STILLAIR_DATA_FOLDER"


def data_folder() -> Path:
    """Return the folder of the log; ``STILLAIR_DATA_FOLDER`` overrides the usual one of the system."""
    given = os.environ.get(DATA_VARIABLE)
    return Path(given) if given else platformdirs.user_data_path("stillair", appauthor=False)
