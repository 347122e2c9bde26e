"""Make the icons that Windows and macOS put on an executable: ``python .packaging/icons.py FOLDER``."""

import io
import sys
from pathlib import Path

from PIL import Image

from gui.desktop.icon import icon_png

SIZES_PX = (16, 24, 32, 48, 64, 128, 256, 512)


def main(folder: Path) -> None:
    """Write stillair.ico and stillair.icns."""
    folder.mkdir(parents=True, exist_ok=True)
    pictures = [Image.open(io.BytesIO(icon_png(size))) for size in SIZES_PX]
    *smaller, largest = pictures
    largest.save(folder / "stillair.icns", append_images=smaller)
    # An .ico holds nothing larger than 256 pixels.
    smaller[-1].save(
        folder / "stillair.ico", sizes=[picture.size for picture in smaller], append_images=smaller[:-1]
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]))
