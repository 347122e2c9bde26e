"""The log out as JSON and CSV, and in again."""

import csv
import io
import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.export.log import log_csv, log_json
from core.export.parts import to_json
from core.problems import ProblemsError
from core.record.log import Log
from core.record.log_entry import LogEntry, UsedGear
from core.record.log_file import read_log_file
from core.record.observer import Profile
from core.record.profile import save_profile
from gui.app import main
from tests.core.record.log_lines import PROFILE, line


def _written(folder: Path, *entries: LogEntry) -> Path:
    path = folder / "log.json"
    path.write_text(to_json(log_json(entries)), "utf-8")
    return path


@given(note=st.text(max_size=60).filter(str.strip), name=st.text(max_size=20))
def test_json_in_gives_the_same_log(note: str, name: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    entries = (line(0, note=note, scope_name=name), line(3, verdict=None, note=note, planet=None))

    assert read_log_file(_written(tmp_path_factory.mktemp("log"), *entries)) == entries


def test_all_that_is_wrong_with_a_log_file_is_told_with_its_place(tmp_path: Path) -> None:
    path = _written(tmp_path, line(0), line(1), line(2))
    data = json.loads(path.read_text("utf-8"))
    data["entries"][0]["power"] = "high"
    data["entries"][1]["verdict"] = "better"
    data["entries"][2]["at"] = "yesterday"
    path.write_text(json.dumps(data), "utf-8")

    with pytest.raises(ProblemsError) as error:
        read_log_file(path)

    told = str(error.value).splitlines()
    assert told[0].startswith("entries[1].power: must be a number from 0.1 to 20000")
    assert told[1].startswith(
        'entries[2].verdict: must be one of more, no_change, less, cannot_tell, not "better"'
    )
    assert told[2] == 'entries[3].at: must be a time such as 2026-12-05T20:30:00Z, not "yesterday"'


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("[1, 2", "log.json: is not JSON: "),
        ("[]", 'log.json: is not a log: it must have "schema" and a list "entries"'),
        ('{"schema": 2, "entries": []}', "schema: is of a newer Stillair than this one, which reads 1"),
        ('{"schema": true, "entries": []}', "schema: must be 1"),
        ("[" * 100_000, "log.json: is not a log: its brackets are nested too deep"),
    ],
)
def test_what_is_no_log_is_refused_in_a_sentence(tmp_path: Path, text: str, sentence: str) -> None:
    path = tmp_path / "log.json"
    path.write_text(text, "utf-8")

    with pytest.raises(ProblemsError) as error:
        read_log_file(path)

    assert str(error.value).startswith(sentence)


def test_csv_is_read_by_a_spreadsheet_and_holds_no_formula() -> None:
    """RFC 4180 by Python's own reader; a byte order mark for spreadsheets."""
    told = log_csv([line(note='=1+1, "quoted"\nsecond line \x1b[31m', filters=(UsedGear(name="-5"),))])

    assert told.startswith("\ufeff")
    header, row = csv.reader(io.StringIO(told.removeprefix("\ufeff")))
    cells = dict(zip(header, row, strict=True))
    assert cells["note"] == '\'=1+1, "quoted"\nsecond line \N{REPLACEMENT CHARACTER}[31m'
    assert cells["at"] == "2026-12-05T21:04:00.000Z"
    assert cells["barlows"] == "2x"
    assert cells["filters"] == "-5"  # a number is no formula
    assert cells["eyepiece_id"] == ""


class TestCommand:
    @pytest.fixture
    def profile(self, tmp_path: Path) -> Path:
        path = tmp_path / "profile.toml"
        save_profile(path, Profile(id=PROFILE, observer="Ines"))
        return path

    def test_the_log_is_told_evening_by_evening(
        self, profile: Path, own_data_folder: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        log = Log.open(own_data_folder)
        log.add(line(0, note="the gap is black all round"))
        log.add(line(5, verdict=None, note="dew on the finder"))

        assert main(["log", str(profile)]) == 0

        assert capsys.readouterr().out.splitlines() == [
            "Sat 5 December 2026, Back terrace",
            "21:04  Saturn 50°  240x: more detail than 150x  Six-inch reflector: 10 mm, 2x",
            "       the gap is black all round",
            "21:09  Saturn 50°  Six-inch reflector: 10 mm, 2x",
            "       dew on the finder",
        ]

    def test_an_empty_log_says_so(self, profile: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["log", str(profile)]) == 0
        assert capsys.readouterr().out == "There are no lines in the log for Ines yet.\n"

    def test_a_log_is_carried_to_another_machine(
        self, profile: Path, own_data_folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        file = _written(tmp_path, line(0), line(1))

        assert main(["log", str(profile), "--import", str(file)]) == 0
        assert main(["log", str(profile), "--import", str(file)]) == 0

        assert capsys.readouterr().out.splitlines() == [
            "2 lines were added to the log.",
            "Nothing new: every line of the file is in the log already.",
        ]
        assert Log.open(own_data_folder).count(PROFILE) == 2
        assert main(["log", str(profile), "--json"]) == 0
        assert json.loads(capsys.readouterr().out) == json.loads(file.read_text("utf-8"))

    def test_what_is_wrong_is_told_and_nothing_is_added(
        self, profile: Path, own_data_folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        file = tmp_path / "bad.json"
        file.write_text('{"schema": 1, "entries": [{"note": 1}]}', "utf-8")

        assert main(["log", str(profile), "--import", str(file)]) == 2

        assert "entries[1].note: must be text in quotes, not 1" in capsys.readouterr().err
        assert not own_data_folder.exists()
