"""Try the folder that runs without Python against the installed command, in an environment with nothing.

``python .packaging/try_folder.py FOLDER INSTALLED_COMMAND``; needs Xvfb for the window, and tells sizes and
times. Ends with 1 at the first thing that is not as it should be.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
EVENING = ("--evening", "2026-12-05")
# A moment for the pictures, for the clock goes on between two of them.
AT = "2026-12-05T21:30"
MOST_MB = 220


def main(folder: Path, installed: Path) -> None:
    """Compare every command, take pictures, open the window, and measure."""
    size_mb = sum(path.stat().st_size for path in distinct(folder)) / 1e6
    check(size_mb <= MOST_MB, f"size {size_mb:.0f} MB, at most {MOST_MB}")
    program = folder / "stillair"
    with tempfile.TemporaryDirectory() as place:
        home = Path(place)
        for words in calls(home):
            ours, theirs = (outcome(path, words, home) for path in (program, installed))
            check(ours == theirs and ours[0] == 0, f"the same as installed: {' '.join(words[:2])}")
        for words in (("--version",), ("nowhere.toml",), ("ladder",)):
            ours, theirs = (outcome(path, words, home) for path in (program, installed))
            check(ours == theirs, f"the same as installed: {' '.join(words)}")
        take_pictures(program, installed, home)
        save_paper(program, home)
        check_window(folder / "stillair-window", home)
        ours, theirs = start_times(program, installed, home)
        # What is measured of two equal ones on a shared machine differs by as much.
        check(ours <= theirs * 1.15, f"start {ours:.2f} s, installed {theirs:.2f} s")


def distinct(folder: Path) -> list[Path]:
    """Return the files of a folder, one under two names counted once, links not at all."""
    files = {}
    for path in folder.rglob("*"):
        if path.is_file() and not path.is_symlink():
            files[path.stat().st_ino] = path
    return list(files.values())


def calls(home: Path) -> list[tuple[str, ...]]:
    """Return what is asked of both: every command of every sample, as text and as JSON."""
    asked: list[tuple[str, ...]] = []
    for sample in sorted((ROOT / "sample_profiles").glob("*.toml")):
        profile = str(shutil.copy(sample, home))
        for words in (
            ("heights", profile, *EVENING, "--now", "2026-12-05T18:00Z"),
            ("ladder", profile, "--planet", "saturn", *EVENING),
            ("looks", profile, "--planet", "jupiter", *EVENING),
            ("evening", profile, *EVENING),
            ("year", profile, "--planet", "mars", "--from", "2026-12-05"),
            ("dates", profile, "--planet", "saturn", "--from", "2026-12-05"),
            ("log", profile),
        ):
            asked += [words, (*words, "--json")]
    profile = two_scopes(home)
    names = [scope["name"] for scope in tomllib.loads(profile.read_text("utf-8"))["telescopes"]]
    compared = ("compare", str(profile), *names[:2], *EVENING)
    return [*asked, compared, (*compared, "--json")]


def two_scopes(home: Path) -> Path:
    """Return the first sample with two telescopes, of which every command and view has something to say."""
    return next(
        path
        for path in sorted(home.glob("*.toml"))
        if len(tomllib.loads(path.read_text("utf-8"))["telescopes"]) > 1
    )


def bare(home: Path, **more: str) -> dict[str, str]:
    """Return an environment with nothing in it but a home of its own."""
    return {"HOME": str(home), "PATH": "", **more}


def outcome(program: Path, words: tuple[str, ...], home: Path) -> tuple[int, bytes, bytes]:
    """Return how a call ended, and what it wrote."""
    done = subprocess.run([program, *words], cwd=home, env=bare(home), capture_output=True, check=False)
    return done.returncode, done.stdout, done.stderr


def take_pictures(program: Path, installed: Path, home: Path) -> None:
    """Take the pictures of the views without a display, the same as the installed command takes."""
    for path, name in ((program, "pictures"), (installed, "theirs")):
        words = ("snapshot", str(two_scopes(home)), *EVENING, "--at", AT, "-o", str(home / name))
        check(outcome(path, words, home)[0] == 0, f"snapshot to {name}")
    taken = {path.name: path.read_bytes() for path in (home / "pictures").glob("*.png")}
    theirs = {path.name: path.read_bytes() for path in (home / "theirs").glob("*.png")}
    check(len(taken) == 4 and taken == theirs, f"{len(taken)} pictures, the same as installed")


def save_paper(program: Path, home: Path) -> None:
    """Save a page as PDF."""
    page = home / "sheet.pdf"
    words = ("sheet", str(two_scopes(home)), *EVENING, "-o", str(page))
    code, _, told = outcome(program, words, home)
    # What a slow machine is told while the list of its fonts is made for the first time is no trouble.
    told = told.removeprefix(b"Matplotlib is building the font cache; this may take a moment.").strip()
    check(
        code == 0 and not told and page.read_bytes().startswith(b"%PDF"),
        f"a page as PDF {told.decode()}".rstrip(),
    )


def check_window(program: Path, home: Path) -> None:
    """Open the window in a bare X server, and see that it stays open until it is asked to go."""
    display = ":97"
    server = subprocess.Popen(
        ["Xvfb", display, "-screen", "0", "1600x1000x24", "-nolisten", "tcp"], stderr=subprocess.DEVNULL
    )
    try:
        time.sleep(2)
        environment = bare(home, DISPLAY=display, STILLAIR_STATE_FOLDER=str(home / "state"))
        window = subprocess.Popen([program, str(two_scopes(home))], env=environment, stderr=subprocess.PIPE)
        time.sleep(8)
        stays = window.poll() is None
        window.terminate()
        told = window.communicate(timeout=20)[1].decode()
        check(stays, "the window under Xvfb stays open" if stays else f"the window under Xvfb: {told}")
    finally:
        server.terminate()
        server.wait()


def start_times(program: Path, installed: Path, home: Path) -> tuple[float, float]:
    """Return the least times of a whole command of both, taken in turns, so that a busy moment meets both."""
    times: dict[Path, list[float]] = {program: [], installed: []}
    for _ in range(10):
        for path, taken in times.items():
            began = time.perf_counter()
            outcome(path, ("heights", str(two_scopes(home)), *EVENING), home)
            taken.append(time.perf_counter() - began)
    return min(times[program]), min(times[installed])


def check(holds: bool, what: str) -> None:
    """Tell one finding, and end where it does not hold."""
    sys.stdout.write(f"{'ok ' if holds else 'NOT'} {what}{os.linesep}")
    if not holds:
        sys.exit(1)


if __name__ == "__main__":
    main(Path(sys.argv[1]).resolve(), Path(sys.argv[2]).absolute())
