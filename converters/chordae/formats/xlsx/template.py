"""The workbook with nothing filled in: a sheet for each table of the layout, drop-down lists, help texts, instructions.

Nothing in it runs: no macros, no formulas, no links.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from chordae.formats.recognise import KEYWORD
from chordae.formats.sheets.layout import Column, Sheet, sheets
from chordae.formats.xlsx.words import SHEET, Choices, help_of, texts
from chordae.resources import VERSION

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["INSTRUCTIONS", "LAST_ROW", "make_template"]

INSTRUCTIONS = "Instructions"
LAST_ROW = 3000
"""Last row that has drop-down lists."""
_WIDE = 110
_INK, _PAPER, _GREY = "FF1F3A4D", "FFE3ECF2", "FFEEEEEE"


def make_template(school: str | None, *, made: bool = False) -> Workbook:
    """Return the workbook.

    Parameters
    ----------
    school
        Whose words the lists offer: european, north_american, or ``None`` for the words of the schema.
    made
        Whether to add the sheets of what the toolkit makes; an empty template has none.
    """
    import openpyxl

    book = openpyxl.Workbook()
    book.properties.title = "Description of hearts"
    book.properties.creator = f"chordae {VERSION}"
    book.properties.keywords = KEYWORD
    choices = Choices(school)
    _instructions(book.active, school)
    for sheet in sheets().values():
        if made or not sheet.made:
            _sheet(book.create_sheet(sheet.title), sheet, choices)
    _words(book.create_sheet(SHEET), choices)
    return book


def _instructions(page: Any, school: str | None) -> None:
    from openpyxl.styles import Alignment, Font

    page.title = INSTRUCTIONS
    page.column_dimensions["A"].width = _WIDE
    _printed(page)
    named = {None: "those of the schema", "european": "European school", "north_american": "North American school"}
    for number, line in enumerate(texts()["instructions"], 1):
        cell = page.cell(number, 1)
        heading = isinstance(line, dict)
        words = line["heading"] if heading else line.format(version=VERSION, school=named[school])
        cell.value = words
        cell.alignment = Alignment(wrap_text=True, vertical="top")
        # Not every program makes a row as high as its lines; a few letters a line are kept in reserve.
        page.row_dimensions[number].height = 22 if heading else 15 * (1 + len(words) // (_WIDE - 15))
        if heading:
            cell.font = Font(bold=True, color=_INK, size=13)
    page.sheet_view.showGridLines = False


def _sheet(page: Worksheet, sheet: Sheet, choices: Choices) -> None:
    from openpyxl.utils import get_column_letter

    for number, name in enumerate(sheet.headings, 1):
        _heading(page.cell(1, number), name, sheet.made)
        letter = get_column_letter(number)
        page.column_dimensions[letter].width = max(14, min(34, len(name) + 4))
        page.column_dimensions[letter].number_format = "@"
    page.freeze_panes = f"{get_column_letter(len(sheet.keys) + 1)}2"
    page.row_dimensions[1].height = 48
    _printed(page)
    if sheet.made:
        _note(page.cell(1, 1), texts()["help"]["made"])
        return
    for number, key in enumerate(sheet.keys, 1):
        _note(page.cell(1, number), texts()["keys"][key])
        if (span := _key_list(key, sheet, choices)) is not None:
            _list(page, number, span, strict=key == "property")
    for number, column in enumerate(sheet.columns, len(sheet.keys) + 1):
        _note(page.cell(1, number), help_of(column.slot, choices.school))
        _validate(page, number, column, choices)


def _printed(page: Worksheet) -> None:
    """Print a sheet on pages as wide as it is, with its headings on each."""
    from openpyxl.worksheet.properties import PageSetupProperties

    page.page_setup.orientation, page.page_setup.paperSize = "landscape", page.PAPERSIZE_A4
    page.page_setup.fitToWidth, page.page_setup.fitToHeight = 1, 0
    page.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    if page.title != INSTRUCTIONS:
        page.print_title_rows = "1:1"


def _heading(cell: Any, name: str, made: bool) -> None:
    from openpyxl.styles import Alignment, Font, PatternFill

    cell.value = name.replace("_", " ")
    cell.font = Font(bold=True, color=_INK)
    cell.fill = PatternFill("solid", start_color=_GREY if made else _PAPER)
    cell.alignment = Alignment(wrap_text=True, vertical="top")


def _note(cell: Any, text: str) -> None:
    from openpyxl.comments import Comment

    lines = text.count("\n") + 1 + len(text) // 60
    cell.comment = Comment(text, "chordae", height=min(520, 24 + 18 * lines), width=420)


def _key_list(key: str, sheet: Sheet, choices: Choices) -> str | None:
    if key == "record":
        return f"Records!$A$2:$A${LAST_ROW}"
    if key == "part" and sheet.is_part:
        return choices.span(f"parts: {sheet.class_name}")
    return choices.span("property") if key == "property" else None


def _list(page: Worksheet, column: int, span: str, *, strict: bool) -> None:
    from openpyxl.worksheet.datavalidation import DataValidation

    rule = DataValidation(type="list", formula1=span, allow_blank=True, showErrorMessage=strict)
    rule.errorTitle, rule.error = "Not in the list", "Choose a word of the list; the sheet Words explains each."
    rule.add(_rows(column))
    page.add_data_validation(rule)


def _validate(page: Worksheet, number: int, column: Column, choices: Choices) -> None:
    from openpyxl.worksheet.datavalidation import DataValidation

    slot = column.slot
    if (span := choices.range_of(slot)) is not None:
        _list(page, number, span, strict=slot.kind == "enum" and not slot.multivalued)
    elif slot.kind in ("integer", "decimal"):
        low, high = slot.minimum, slot.maximum
        rule = DataValidation(type="whole" if slot.kind == "integer" else "decimal", allow_blank=True)
        if low is not None and high is not None:
            rule.operator, rule.formula1, rule.formula2 = "between", f"{low:g}", f"{high:g}"
        else:
            rule.operator, rule.formula1 = "greaterThanOrEqual", f"{low if low is not None else -1e9:g}"
        rule.showErrorMessage = True
        rule.errorTitle, rule.error = "Not a number of that range", help_of(slot, None)[:220]
        rule.add(_rows(number))
        page.add_data_validation(rule)
        for letter in _letters(number):
            page.column_dimensions[letter].number_format = "General"


def _rows(column: int) -> str:
    (letter,) = _letters(column)
    return f"{letter}2:{letter}{LAST_ROW}"


def _letters(column: int) -> Iterator[str]:
    from openpyxl.utils import get_column_letter

    yield get_column_letter(column)


def _words(page: Worksheet, choices: Choices) -> None:
    for number, row in enumerate(choices.rows, 1):
        for column, text in enumerate(row, 1):
            if number == 1:
                _heading(page.cell(number, column), text, False)
            else:
                page.cell(number, column).value = text
    for letter, width in zip("ABCDEF", (26, 34, 28, 34, 34, 90), strict=True):
        page.column_dimensions[letter].width = width
    page.freeze_panes = "A2"
    _printed(page)
