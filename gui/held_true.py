"""A guard against one release of Qt for Python that wears out Python's own ``True``.

PySide6 6.12.0 gives away one reference to ``True`` too many with every ``Signal.emit``. Before Python 3.12,
which made ``True`` immortal, some hundred signals suffice to end the process. The requirements leave that
release out there; this is for where it is installed all the same.
"""

import ctypes
import sys
from functools import cache

import PySide6

# A signal each second for eleven days, in 8 MB.
_REFERENCES = 1_000_000


@cache
def hold_true() -> None:
    """Take out enough references to ``True`` for any session; costs nothing where it is not needed."""
    if sys.version_info < (3, 12) and PySide6.__version__ == "6.12.0":
        # Never given back, at the end of the process neither.
        ctypes.pythonapi.Py_IncRef(ctypes.py_object((True,) * _REFERENCES))
