"""From the bytes of a workbook to its unpacked parts, after looking whether unpacking is safe.

A workbook is a zip of XML files, so it can be a trap in three ways, each refused before anything is
unpacked or parsed: a small file that unpacks to a huge one, names that lead out of the folder, XML entities
that multiply.

The sheets are also asked here, by a quick pass over their XML, what the table library does not tell when it
reads row by row: merged cells, hidden rows and columns.
"""

from __future__ import annotations

import lzma
import re
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import IO
from xml.etree.ElementTree import ParseError

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import fromstring, iterparse

from chordae.errors import InputError
from chordae.files import MAX_UNPACKED

__all__ = ["BROKEN_ZIP", "PACKED", "Block", "SheetLook", "look_at_sheet", "open_package", "refuse_traps", "sheet_files"]

_RATIO = 200
_SMALL = 8 * 1024 * 1024
_MOST_PARTS = 5000
PACKED = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
"""The two ways of packing that are read; all others are refused."""
_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_STRICT = "{http://purl.oclc.org/ooxml/spreadsheetml/main}"
_DOCTYPE = re.compile(rb"<!\s*(DOCTYPE|ENTITY)", re.IGNORECASE)
BROKEN_ZIP = (
    *(zipfile.BadZipFile, zlib.error, lzma.LZMAError, EOFError),
    *(RuntimeError, NotImplementedError, ValueError),  # a password, an unknown way of packing, a bad name
)
"""What zipfile raises for a zip that cannot be read, where the disk is not at fault."""
_BROKEN = (*BROKEN_ZIP, OSError, ParseError, DefusedXmlException, KeyError)
_REFERENCE = re.compile(r"([A-Z]+)([0-9]+)(?::([A-Z]+)([0-9]+))?")

Block = tuple[int, int, int, int]
"""First row, first column, last row, last column, from 1."""


@dataclass(slots=True)
class SheetLook:
    """What a pass over one sheet found."""

    merged: list[Block] = field(default_factory=list)
    hidden_rows: list[int] = field(default_factory=list)
    hidden_columns: list[int] = field(default_factory=list)


def open_package(stream: IO[bytes], name: str) -> zipfile.ZipFile:
    """Open a workbook that may be unpacked, from a stream that can be read from its beginning.

    Raises
    ------
    InputError
        It is no workbook, is protected by a password, unpacks to more than ``MAX_UNPACKED`` bytes or to
        more than 200 times its size, names files outside itself, or holds XML entities.
    """
    stream.seek(0)
    if stream.read(4) == b"\xd0\xcf\x11\xe0":
        raise InputError(
            f"{name} is protected by a password or is an old .xls file.",
            "Save it as .xlsx without a password.",
        )
    try:
        package = zipfile.ZipFile(stream)
    except _BROKEN:
        raise InputError(f"{name} is not a workbook that can be read.", "Save it again as .xlsx.") from None
    refuse_traps(package, name, "Save only the sheet of the catalogue, as .xlsx or CSV.")
    _refuse_entities(package, name)
    return package


def refuse_traps(package: zipfile.ZipFile, name: str, hint: str) -> None:
    """Look whether a zip may be unpacked, without unpacking anything.

    Parameters
    ----------
    package, name
        The zip, and what messages call it.
    hint
        What to do about one that is too large.

    Raises
    ------
    InputError
        It unpacks to more than ``MAX_UNPACKED`` bytes or to more than 200 times its size, names files outside itself,
        holds two files of one name or one without a name, or is packed in another way than zips of data are.
    """
    parts = package.infolist()
    total = sum(part.file_size for part in parts)
    if len(parts) > _MOST_PARTS or total > MAX_UNPACKED:
        raise InputError(
            f"{name} would unpack to {len(parts)} files of {total // 1024 // 1024} MB together; "
            f"at most {MAX_UNPACKED // 1024 // 1024} MB are read.",
            hint,
        )
    seen: set[str] = set()
    for part in parts:
        if part.file_size > max(_SMALL, part.compress_size * _RATIO):
            raise InputError(
                f"{name} holds a part ({part.filename[:60]}) that unpacks to over {_RATIO} times its size.",
                "This is how a zip bomb looks; it was not unpacked.",
            )
        if part.compress_type not in PACKED:
            # LZMA lets a file of a few bytes ask for gigabytes before anything is unpacked.
            raise InputError(
                f"{name} holds a part ({part.filename[:60]}) that is packed in a way that is not read.",
                "Pack it again as an ordinary zip (deflate).",
            )
        if not part.filename:
            raise InputError(f"{name} holds a part without a name.")
        if part.filename.startswith("/") or ".." in part.filename.split("/") or "\\" in part.filename:
            raise InputError(f"{name} holds a part whose name leads out of it: {part.filename[:60]!r}.")
        if part.filename in seen:
            raise InputError(f"{name} holds two parts of the same name: {part.filename[:60]!r}.")
        seen.add(part.filename)


def sheet_files(package: zipfile.ZipFile, name: str) -> Mapping[str, str]:
    """Return the part of the package that holds each sheet, by the name of the sheet."""
    try:
        book = fromstring(package.read("xl/workbook.xml"))
        links = fromstring(package.read("xl/_rels/workbook.xml.rels"))
    except _BROKEN:
        raise InputError(f"{name} is not a workbook that can be read.", "Save it again as .xlsx.") from None
    targets = {link.get("Id"): link.get("Target", "") for link in links}
    found: dict[str, str] = {}
    for sheet in book.iter():
        if sheet.tag in (f"{_MAIN}sheet", f"{_STRICT}sheet"):
            link = next((value for key, value in sheet.attrib.items() if key.endswith("}id")), None)
            target = targets.get(link, "")
            found[sheet.get("name", "")] = target.lstrip("/") if target.startswith("/") else f"xl/{target}"
    return found


def look_at_sheet(package: zipfile.ZipFile, part: str, name: str) -> SheetLook:
    """Find merged cells and hidden rows and columns of one sheet."""
    look = SheetLook()
    try:
        with package.open(part) as stream:
            rows = None
            for event, element in iterparse(stream, events=("start", "end")):
                if event == "start":
                    rows = element if element.tag.endswith("}sheetData") else rows
                    continue
                tag = element.tag.rpartition("}")[2]
                if tag == "mergeCell" and (found := _REFERENCE.fullmatch(element.get("ref", ""))):
                    top, left = int(found[2]), _column(found[1])
                    bottom = int(found[4]) if found[4] else top
                    look.merged.append((top, left, bottom, _column(found[3]) if found[3] else left))
                elif tag == "row":
                    if element.get("hidden") in ("1", "true") and (element.get("r") or "").isdigit():
                        look.hidden_rows.append(int(element.get("r", "0")))
                    if rows is not None:
                        rows.clear()  # the rows read so far; they would be kept to the end
                elif tag == "col" and element.get("hidden") in ("1", "true"):
                    first, last = int(element.get("min", "0")), int(element.get("max", "0"))
                    look.hidden_columns.extend(range(first, min(last, first + 50) + 1))
    except _BROKEN:
        raise InputError(f"A sheet of {name} cannot be read.", "Save the workbook again as .xlsx.") from None
    return look


def _refuse_entities(package: zipfile.ZipFile, name: str) -> None:
    for part in package.infolist():
        if part.filename.endswith((".xml", ".rels", ".vml")):
            try:
                with package.open(part) as stream:
                    head = stream.read(8192)
            except _BROKEN:
                raise InputError(f"{name} is damaged or protected: {part.filename[:60]}.") from None
            if _DOCTYPE.search(head.replace(b"\0", b"")):
                raise InputError(
                    f"{name} holds XML entities ({part.filename[:60]}), which no spreadsheet program writes.",
                    "It was not read.",
                )


def _column(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number
