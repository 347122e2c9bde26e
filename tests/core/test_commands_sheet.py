"""``stillair sheet``, as somebody types it."""

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from gui.app import main

PROFILE = str(Path(__file__).resolve().parents[2] / "sample_profiles" / "balcony_greece.toml")


def sheet(*words: str) -> int:
    return main(["sheet", PROFILE, "--evening", "2026-12-05", *words])


def test_it_says_where_the_file_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "evening.pdf"

    assert sheet("--paper", "letter", "--out-until", "21:00", "-o", str(file)) == 0

    out, err = capsys.readouterr()
    assert (out, err) == (f"Saved as {file}.\n", "")
    page = PdfReader(io.BytesIO(file.read_bytes())).pages[0]
    assert (float(page.mediabox.width), float(page.mediabox.height)) == (612.0, 792.0)
    assert "21:00" in page.extract_text()
    assert "40°37′" not in page.extract_text()


def test_the_place_is_told_when_asked_for(tmp_path: Path) -> None:
    file = tmp_path / "evening.pdf"

    assert sheet("--with-place", "-o", str(file)) == 0

    assert "40°37′12″ N, 22°58′12″ E" in PdfReader(io.BytesIO(file.read_bytes())).pages[0].extract_text()


def test_what_is_there_is_written_over_only_when_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "evening.ics"
    file.write_text("precious")

    assert sheet("-o", str(file)) == 2
    assert file.read_text() == "precious"
    assert "evening.ics is there already; --replace writes over it" in capsys.readouterr().err

    assert sheet("-o", str(file), "--replace") == 0
    assert file.read_text().startswith("BEGIN:VCALENDAR")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["-o", "x.doc"], "x.doc: must end in .pdf, .png, .ics or .csv"),
        (["-o", "nowhere/x.pdf"], "x.pdf: cannot be saved: No such file or directory"),
        ([], "the following arguments are required: -o"),
        (["-o", "x.pdf", "--paper", "a3"], "--paper: invalid choice: 'a3'"),
        (["-o", "x.pdf", "--site", "moon base"], "--site: there is no site “moon base”"),
        (["-o", "x.pdf", "--out-from", "22:00", "--out-until", "21:00"], "--out-until"),
    ],
)
def test_bad_input_writes_nothing(
    words: list[str],
    told: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)

    assert sheet(*words) == 2

    assert told in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []
