"""Helpers of the tests of crosswalks: tables drawn with bars, read as tab-separated files."""

from __future__ import annotations

from collections.abc import Callable

from chordae.intake.build import Built, build
from chordae.intake.crosswalk import read_crosswalk
from chordae.intake.crosswalk_rules import Crosswalk
from chordae.intake.table import read_table
from chordae.issues import Issue

ID = "Cat. no. | specimen | accession | identifier"


def tsv(text: str) -> bytes:
    """Return a table drawn with bars as tab-separated text; ``&`` stands for a bar inside a cell."""
    lines = [line for line in text.strip().splitlines() if line.strip()]
    return "\n".join("\t".join(cell.strip().replace("&", "|") for cell in line.split("|")) for line in lines).encode()


def crosswalk(columns: str, values: str | None = None) -> tuple[Crosswalk, list[Issue]]:
    """Read a crosswalk from rows; the usual headings are added."""
    head = "column | part | property | kind | style | unit | note | site | method | material_state\n"
    words = "column | local | part | property | value | state | match | reviewer | note | certainty\n"
    data = (tsv(head + columns), None if values is None else tsv(words + values))
    return read_crosswalk("columns.tsv", None if values is None else "values.tsv", data=data)


def built(
    columns: str, values: str, rows: str, *, ask: Callable[[str], str | None] = lambda word: None, **options: str
) -> Built:
    """Build records from rows; the crosswalk must have no mistakes."""
    found, issues = crosswalk(columns, values)
    assert [one.message for one in issues] == []
    table, _ = read_table("hearts.tsv", data=tsv(rows), delimiter="\t")
    return build(table, found, ask=ask, **options)
