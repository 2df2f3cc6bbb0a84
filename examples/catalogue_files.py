"""Write the two example catalogues as files: a workbook with a heading of two rows, and a table with commas.

::

    Specimen             | Atria                    | ...      row 1, merged over its columns
    Cat. no. | Described | R-sided app. | Septum    | ...      row 2
    0001     | 7.3.2016  | ...                                 every cell is text

The bytes depend on the cells alone: no time of saving is kept.
"""

from __future__ import annotations

import csv
import io
import zipfile
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

import openpyxl
from openpyxl.styles import Alignment, Font, PatternFill

__all__ = ["Row", "write_csv", "write_workbook"]

ABBREVIATIONS = [
    ("SCV, ICV", "superior, inferior caval vein"),
    ("CS", "coronary sinus"),
    ("TV, MV, AVV", "tricuspid, mitral, atrioventricular valve"),
    ("pm", "perimembranous: tricuspid and mitral valve touch in the rim"),
    ("Ao, PT", "aorta, pulmonary trunk"),
    ("STJ", "sinutubular junction"),
    ("(PM)", "from the report of the post-mortem"),
    ("n.s.", "not seen, though it could have been"),
    ("baffle", "the plane that would part the two streams is not the hole itself"),
    ("All hearts, people and numbers in this book are invented.", ""),
]


@dataclass
class Row:
    """One row of a catalogue: the record it will become, and its cells by heading."""

    record: str
    cells: dict[str, str]
    how: dict[str, str] = field(default_factory=dict)


def write_workbook(path: Path, columns: list[str], rows: list[Row]) -> None:
    """Write a workbook as a curator keeps it: a heading of two rows, merged groups, a sheet of abbreviations."""
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    sheet = book.create_sheet("Hearts")
    groups: dict[str, list[int]] = defaultdict(list)
    for number, heading in enumerate(columns, 1):
        group, _, name = heading.partition(" / ")
        if not heading:
            continue
        groups[group].append(number)
        sheet.cell(2, number, name).font = Font(bold=True)
        sheet.cell(2, number).alignment = Alignment(wrap_text=True, vertical="top")
        sheet.column_dimensions[sheet.cell(2, number).column_letter].width = 14
    for group, numbers in groups.items():
        top = sheet.cell(1, numbers[0], group)
        top.font, top.fill = Font(bold=True, color="FFFFFF"), PatternFill("solid", fgColor="44546A")
        if len(numbers) > 1:
            sheet.merge_cells(start_row=1, end_row=1, start_column=numbers[0], end_column=numbers[-1])
    for line, row in enumerate(rows, 3):
        for number, heading in enumerate(columns, 1):
            text = row.cells.get(heading, "")
            if not text:
                continue
            how = row.how.get(heading, "")
            cell = sheet.cell(line, number, date.fromisoformat(text) if how == "date" else text)
            if how != "formula" and how != "date":
                cell.data_type, cell.number_format = "s", "@"
    sheet.freeze_panes = "B3"
    legend = book.create_sheet("Abbreviations")
    for short, long in ABBREVIATIONS:
        legend.append([short, long])
    old = book.create_sheet("Old list")
    old.append(["1899 list, numbers no longer used"])
    old.sheet_state = "hidden"
    book.properties.creator = "Veyhaven Cabinet of Hearts (invented)"
    buffer = io.BytesIO()
    book.save(buffer)
    path.write_bytes(without_clock(buffer.getvalue()))


def without_clock(data: bytes) -> bytes:
    """Return a workbook with the times of saving taken out, so that the same cells give the same bytes."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for item in old.infolist():
            text = old.read(item)
            if item.filename == "docProps/core.xml":
                for tag in (b"created", b"modified"):
                    start = text.index(b">", text.index(b"<dcterms:" + tag)) + 1
                    text = text[:start] + b"2024-01-01T00:00:00Z" + text[text.index(b"<", start) :]
            fixed = zipfile.ZipInfo(item.filename, (2024, 1, 1, 0, 0, 0))
            fixed.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(fixed, text)
    return out.getvalue()


def write_csv(path: Path, columns: list[str], rows: list[Row]) -> None:
    """Write a table with commas; a row marked wide has lost the quotation marks of its remarks."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(columns)
    for row in rows:
        cells = [row.cells.get(heading, "") for heading in columns]
        if row.how.get("") == "wide":
            line = io.StringIO()
            csv.writer(line, lineterminator="\r\n").writerow(cells)
            out.write(line.getvalue().replace(f'"{row.cells["Remarks"]}"', row.cells["Remarks"]))
        else:
            writer.writerow(cells)
    path.write_text(out.getvalue(), encoding="utf-8", newline="")
