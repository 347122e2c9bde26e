"""What the folder runs: the same as the installed commands, told apart by the name of the executable."""

import sys
from pathlib import Path

from gui.app import main, window_main

if __name__ == "__main__":
    sys.exit(window_main() if Path(sys.executable).stem.endswith("-window") else main())
