"""What a reader of a workbook may overlook: other and hidden sheets, hidden rows and columns, merged cells."""

from __future__ import annotations

from chordae.intake.grid import Table
from chordae.intake.package import SheetLook
from chordae.issues import Issue, Location, issue

__all__ = ["about_hidden", "about_merges", "about_sheets"]


def about_sheets(name: str, chosen: str, shown: list[str], hidden: list[str], asked: str | None) -> list[Issue]:
    """Name the sheets that were not read, unless the user asked for one by its name."""
    if asked is not None:
        return []
    issues = [issue("I-BOOK-03", location=Location(name, None, None, one), sheet=one) for one in hidden]
    others = ", ".join(f'"{one}"' for one in shown if one != chosen)
    if others:
        issues.append(issue("I-BOOK-05", location=Location(name, None, None, chosen), sheet=chosen, others=others))
    return issues


def about_merges(table: Table, look: SheetLook) -> list[Issue]:
    """Name the merged cells below the heading: only the first row of each has the value."""
    found: list[Issue] = []
    for top, left, bottom, right in look.merged:
        if top > table.heading_line:
            place = Location(table.file, top, left, table.sheet)
            span = f"lines {top} to {bottom}, columns {left} to {right}"
            found.append(issue("I-BOOK-07", location=place, value=span))
    return found


def about_hidden(table: Table, look: SheetLook) -> list[Issue]:
    """Name hidden rows and columns: they were read like the others."""
    found: list[Issue] = []
    lines = {row.line for row in table.rows} if look.hidden_rows else frozenset()
    for what, numbers in (
        ("rows", [one for one in look.hidden_rows if one in lines]),
        ("columns", [one for one in look.hidden_columns if one in table.numbers]),
    ):
        if numbers:
            place = Location(table.file, numbers[0] if what == "rows" else None, None, table.sheet)
            found.append(
                issue(
                    "I-BOOK-04",
                    location=place,
                    count=len(numbers),
                    what=what,
                    first=f"{what[:-1]} {numbers[0]}",
                )
            )
    return found
