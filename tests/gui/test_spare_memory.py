"""Memory that was let go goes back to the system."""

import ctypes

import psutil
import pytest

from gui.window.spare_memory import give_back

_BLOCK_BYTES, _BLOCKS = 20_000, 5_000


def used_mb() -> float:
    return float(psutil.Process().memory_info().rss) / 1e6


def test_what_was_let_go_is_given_back() -> None:
    try:
        library = ctypes.CDLL(None)
    except (OSError, TypeError):
        library = None
    if library is None or not hasattr(library, "malloc_trim"):
        give_back()
        pytest.skip("the system's C library gives memory back by itself")
    library.malloc.restype = ctypes.c_void_p
    library.malloc.argtypes = [ctypes.c_size_t]
    library.free.argtypes = [ctypes.c_void_p]
    blocks = [library.malloc(_BLOCK_BYTES) for _ in range(_BLOCKS)]
    for block in blocks:
        ctypes.memset(block, 1, _BLOCK_BYTES)
    *freed, kept = blocks
    for block in freed:
        library.free(block)

    # The last of them stands in the way of all others.
    before_mb = used_mb()
    give_back()
    assert used_mb() < before_mb - 50.0
    library.free(kept)
