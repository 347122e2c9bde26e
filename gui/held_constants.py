"""A guard against one release of Qt for Python that wears out Python's own ``None`` and ``True``.

PySide6 6.12.0 gives away one reference to ``None`` too many with every call that returns nothing, and one
to ``True`` with every ``Signal.emit``. Before Python 3.12, which made these values immortal, some thousand
calls suffice to end the process. The requirements leave that release out there; this is for where it is
installed all the same.
"""

import ctypes
import sys
from functools import cache

import PySide6

# More than any session can wear out; still far from where a counter of 64 bits overflows.
_REFERENCES = 1 << 48


@cache
def hold_constants() -> None:
    """Take out enough references to None, True and False for any session, where that release is installed."""
    if sys.version_info < (3, 12) and PySide6.__version__ == "6.12.0":
        for constant in (None, True, False):
            # The count of references stands first in every object of these Python releases.
            ctypes.c_ssize_t.from_address(id(constant)).value += _REFERENCES
