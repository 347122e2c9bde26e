"""Every published figure names where it is from, and every short name of a source is spelled out."""

import re
from pathlib import Path

import pytest

from tests.published.tables import rows

TABLES = sorted((Path(__file__).parent / "data").glob("*.csv"))
TELL_WHERE = ("source", "repo", "how")
SHORT = re.compile(r"\b(?:[A-Z]{2,}\d{2}|ESPENAK|WRAT)\b")


@pytest.mark.parametrize("table", TABLES, ids=lambda path: path.stem)
def test_every_row_names_its_source_in_full_or_by_a_name_that_is_spelled_out(table: Path) -> None:
    known = {row["key"] for row in rows("sources.csv")}
    for row in rows(table.name):
        told = " ".join(row.get(column) or "" for column in TELL_WHERE)
        assert told.strip(), row
        assert set(SHORT.findall(told)) <= known, row


def test_every_source_that_is_spelled_out_is_used() -> None:
    texts = "".join(table.read_text("utf-8") for table in TABLES if table.stem != "sources")
    assert [row["key"] for row in rows("sources.csv") if row["key"] not in texts] == []
