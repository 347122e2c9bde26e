"""Memory that was let go, given back to the system.

glibc keeps what is freed between pieces still in use; over a night of charts drawn anew that comes to some
megabytes, for nothing.
"""

import ctypes
from functools import cache


def give_back() -> None:
    """Give freed memory back where the system's C library can: some milliseconds, so not in every beat."""
    library = _c_library()
    if library is not None and hasattr(library, "malloc_trim"):
        library.malloc_trim(0)


@cache
def _c_library() -> ctypes.CDLL | None:
    try:
        return ctypes.CDLL(None)
    except (OSError, TypeError):  # Windows has no library without a name
        return None
