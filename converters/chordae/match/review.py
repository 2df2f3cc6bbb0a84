"""From offers to a table that a curator opens in a spreadsheet, one row a candidate, with a column for the decision.

::

    word         column  times  seen in          no.  candidate         ...  why              decision   note
    polysplennia Spleen  1      TB-0123, line 18 1    multiple spleens  ...  nearest name ... [same   v]
    polysplennia Spleen  1      TB-0123, line 18 own                                          [       v]

The row *own* is for an answer that was not proposed. In a workbook the decision is chosen from a list; further sheets
hold the history of decisions and what each decision means. No cell is ever a formula, whatever the catalogue holds.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from chordae.errors import FormatError
from chordae.files import MAX_CELL, write_aside
from chordae.formulas import SIGNS, guarded
from chordae.match.decisions import DECISIONS, Decision
from chordae.match.offers import Offer
from chordae.match.places import Fill

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["HEADINGS", "OWN", "PROPOSALS", "one_line", "write_review"]

HEADINGS = (
    "word", "column", "times", "seen in", "no.", "candidate", "target", "part", "property", "value", "state",
    "stage", "confidence", "why", "decision", "note",
)  # fmt: skip
PROPOSALS, HISTORY, KEY = "Proposals", "History", "What to do"
OWN, QUESTION = "own", "question"
"""Under *no.*: a row for the curator's own answer; a row with a question."""

_WIDTHS = (26, 22, 7, 22, 9, 34, 30, 20, 20, 20, 14, 12, 11, 48, 16, 40)
_UNSEEN = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
_INTRODUCTION = (
    "Choose a decision for as many rows as you like and save the file; nothing is taken over without one.",
    "For an answer that is not among the candidates fill in part, property and value (or state) of the row 'own'.",
    "Read it back with: chordae match --crosswalk FOLDER --read THIS-FILE --author NAME",
    "Confidence: how often a candidate like this was right on a published set of phrases that all had an answer.",
)


def write_review(path: Path, offered: Iterable[Offer], history: Sequence[Decision] = ()) -> int:
    """Write the table.

    Parameters
    ----------
    path
        Ends in .xlsx, .tsv or .csv; only a workbook holds lists to choose from and the history.
    offered
        What is proposed.
    history
        Decisions made before, oldest first.

    Returns
    -------
    int
        Number of rows.

    Raises
    ------
    FormatError
        The ending is another.
    """
    rows = [row for offer in offered for row in _rows(offer)]
    ending = path.suffix.lower()
    if ending == ".xlsx":
        write_aside(path, _workbook(rows, history))
    elif ending in (".tsv", ".csv"):
        text = io.StringIO()
        writer = csv.writer(text, delimiter="\t" if ending == ".tsv" else ",", lineterminator="\n")
        writer.writerow(HEADINGS)
        writer.writerows([one_line(cell) for cell in row] for row in rows)
        write_aside(path, text.getvalue())
    else:
        raise FormatError(
            f"A review table is not written as {path.name}.", "Name a file ending in .xlsx, .tsv or .csv."
        )
    return len(rows)


def one_line(text: str) -> str:
    """Return a text as a cell of the table: on one line, without signs that cannot be seen, and never a formula.

    Examples
    --------
    >>> one_line("=1+1"), one_line("R -,\\nL -")
    ("'=1+1", 'R -, L -')
    """
    return guarded(_UNSEEN.sub("\ufffd", " ".join(text.split())))


def _rows(offer: Offer) -> Iterator[tuple[str, ...]]:
    local, proposal = offer.local, offer.proposal
    head = (local.word, local.column, str(local.count or ""), "; ".join(local.seen))
    empty = Fill()
    for question in proposal.questions:
        glosses = "; or ".join(one.gloss for one in question.meanings)
        yield (*head, QUESTION, question.ask, "", "", "", "", "", "", "", glosses, "", "")
    for at, (one, fill) in enumerate(zip(proposal.candidates, offer.fills, strict=True), 1):
        said = fill or empty
        place = (said.part, said.property, said.value, said.state)
        certain = f"{one.confidence:.2f}"
        yield (*head, str(at), one.label, one.target, *place, one.stage, certain, "; ".join(one.reasons), "", "")
    yield (*head, OWN, "", "", "", "", "", "", "", "", "", "", "")


def _workbook(rows: Sequence[tuple[str, ...]], history: Sequence[Decision]) -> bytes:
    from openpyxl import Workbook
    from openpyxl.worksheet.datavalidation import DataValidation

    book = Workbook()
    sheet: Worksheet = book.active  # type: ignore[assignment]  # a new workbook has one worksheet
    sheet.title = PROPOSALS
    _fill(sheet, HEADINGS, rows, _WIDTHS)
    choice = DataValidation(
        type="list", formula1='"' + ",".join(DECISIONS) + '"', allow_blank=True, showErrorMessage=True,
        errorTitle="Decision", error="Choose one of the list.",
    )  # fmt: skip
    column = chr(ord("A") + HEADINGS.index("decision"))
    choice.add(f"{column}2:{column}{max(len(rows) + 1, 2)}")
    sheet.add_data_validation(choice)
    names = tuple(Decision.__dataclass_fields__)
    past = [tuple(str(getattr(one, name)) for name in names) for one in history]
    _fill(book.create_sheet(HISTORY), names, past, (12, 20, 22, 26, 30, 34, 20, 20, 20, 14, 16, 40))
    told = [*((line, "") for line in _INTRODUCTION), *DECISIONS.items()]
    _fill(book.create_sheet(KEY), ("decision", "meaning"), told, (90, 60))
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _fill(sheet: Worksheet, headings: Sequence[str], rows: Iterable[Sequence[str]], widths: Sequence[int]) -> None:
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    bold, wrapped = Font(bold=True), Alignment(vertical="top", wrap_text=True)
    for line, row in enumerate((headings, *rows), 1):
        for at, text in enumerate(row, 1):
            cell = sheet.cell(line, at)
            cell.number_format = "@"
            cell.alignment = wrapped
            if text:
                cell.value = _UNSEEN.sub("\ufffd", text)[:MAX_CELL]
                cell.data_type = "s"
                # Excel keeps such a cell as text even when somebody edits it.
                cell.quotePrefix = text.startswith((*SIGNS, "'"))
            if line == 1:
                cell.font = bold
    for at, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(at)].width = width
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = sheet.dimensions
