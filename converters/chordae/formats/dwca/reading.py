"""From a Darwin Core Archive to records: our own by the names of their facts, others as specimens with remarks.

meta.xml is read without entities or anything outside; the files it names are looked up among those of the archive and
nowhere else.
"""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any
from xml.etree.ElementTree import Element, ParseError

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import fromstring

from chordae.canonical import canonical
from chordae.files import MAX_INPUT
from chordae.formats.dwca.archive import CORE, DWC, META
from chordae.formats.dwca.writing import MEASURED
from chordae.formats.facts import record_of
from chordae.intake.encoding import decode
from chordae.issues import Issue, Location, issue
from chordae.model import enum_of, tables
from chordae.record import Reading, Record

__all__ = ["read_files"]

_TEXT = "{http://rs.tdwg.org/dwc/text/}"
_MADE = ("occurrenceID", "preparations", "associatedMedia", "basisOfRecord", "scientificName")
_OWN = b' system="chordae '
_ESCAPES = {"\\t": "\t", "\\n": "\n", "\\r": "\r", "\\r\\n": "\r\n"}
_ENCODINGS = {
    "utf-8": None,
    "utf8": None,
    "utf-16": "utf-16",
    "iso-8859-1": "iso-8859-1",
    "latin1": "iso-8859-1",
    "windows-1252": "windows-1252",
    "us-ascii": "ascii",
}

Rows = list[tuple[int, str, dict[str, str]]]
"""Line, id of the core row, values by the last part of their terms."""


@dataclass
class _Archive:
    """What was read of an archive, and what was wrong with it."""

    files: Mapping[str, bytes]
    name: str
    issues: list[Issue] = field(default_factory=list)
    unknown: Counter[str] = field(default_factory=Counter)

    @property
    def own(self) -> bool:
        """Whether the archive says that it was written here."""
        return any(path.endswith("eml.xml") and _OWN in data for path, data in self.files.items())

    def say(self, rule: str, file: str, line: int | None = None, **fields: Any) -> None:
        self.issues.append(issue(rule, location=Location(file, line), **fields))


def read_files(files: Mapping[str, bytes], name: str, format: str) -> tuple[list[Reading], list[Issue]]:
    """Read an archive."""
    archive = _Archive(files, name)
    path = next((one for one in sorted(files, key=lambda one: (one.count("/"), one)) if one.endswith(META)), None)
    if path is None or (root := _meta(archive, path)) is None:
        if path is None:
            archive.say("I-DWC-01", name, problem=f"it holds no {META}")
        return [], archive.issues
    folder = path.removesuffix(META)
    core = root.find(f"{_TEXT}core")
    if core is None:
        archive.say("I-DWC-01", path, problem=f"{META} names no core table")
        return [], archive.issues
    readings: dict[str, Reading] = {}
    facts: dict[str, Rows] = {}
    for extension in root.findall(f"{_TEXT}extension"):
        if extension.get("rowType") == f"{DWC}MeasurementOrFact":
            for row in _rows(archive, extension, folder, "coreid"):
                facts.setdefault(row[1], []).append(row)
        else:
            archive.say("I-DWC-03", path, value=str(extension.get("rowType"))[-60:])
    for line, record_id, values in _rows(archive, core, folder, "id"):
        place = Location(_file_of(core, folder), line)
        if not record_id:
            archive.issues.append(issue("I-REC-02", location=place))
        elif record_id in readings:
            first = readings[record_id].places[""].line
            archive.issues.append(issue("I-REC-01", location=place, record=record_id, value=record_id, first=first))
        else:
            record = _record(archive, record_id, values, facts.pop(record_id, []))
            readings[record_id] = Reading(canonical(record), {"": place})
    for orphan, rows in sorted(facts.items()):
        archive.say("I-DWC-04", name, rows[0][0], value=orphan, count=len(rows))
    for term, count in sorted(archive.unknown.items()):
        archive.say("I-DWC-02", name, value=term, count=count)
    return list(readings.values()), archive.issues


def _meta(archive: _Archive, path: str) -> Element | None:
    try:
        root: Element = fromstring(archive.files[path], forbid_dtd=True)
    except DefusedXmlException:
        archive.say("I-DWC-01", path, problem="it declares entities or a document type, which no archive needs")
    except (ParseError, ValueError, LookupError) as error:
        archive.say("I-DWC-01", path, problem=f"it is not well formed ({str(error)[:80]})")
    else:
        return root
    return None


def _file_of(table: Element, folder: str) -> str:
    return folder + (table.findtext(f"{_TEXT}files/{_TEXT}location") or "").strip()


def _rows(archive: _Archive, table: Element, folder: str, key: str) -> Iterator[tuple[int, str, dict[str, str]]]:
    path = _file_of(table, folder)
    if path not in archive.files:
        archive.say("I-DWC-05", archive.name, value=path[:80])
        return
    delimiter = _ESCAPES.get(table.get("fieldsTerminatedBy", ","), table.get("fieldsTerminatedBy", ","))
    quote = table.get("fieldsEnclosedBy", '"')
    skip = _index(table.get("ignoreHeaderLines", "0").strip() or "0")
    where = table.find(f"{_TEXT}{key}")
    at = _index(where.get("index")) if where is not None else None
    fields = [
        (one.get("term", ""), _index(one.get("index")), one.get("default")) for one in table.findall(f"{_TEXT}field")
    ]
    encoding = table.get("encoding", "UTF-8").lower().replace("_", "-")
    marks = len(delimiter) == 1 and len(quote) <= 1 and delimiter != quote and delimiter not in "\r\n"
    if not marks or at is None or skip is None or encoding not in _ENCODINGS:
        archive.say("I-DWC-01", path, problem=f"{META} does not say how the columns, the ids or the letters are stored")
        return
    text, found = decode(archive.files[path], path, encoding=_ENCODINGS[encoding])
    archive.issues += found
    csv.field_size_limit(max(csv.field_size_limit(), MAX_INPUT))
    options: dict[str, Any] = {"quotechar": quote} if quote else {"quoting": csv.QUOTE_NONE}
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, **options)
    line = 0
    try:
        for number, cells in enumerate(reader):
            line = reader.line_num
            if number < skip or not any(cells):
                continue
            values = {
                term.rpartition("/")[2]: cells[index] if index is not None and index < len(cells) else default or ""
                for term, index, default in fields
            }
            yield line, cells[at].strip() if at < len(cells) else "", {k: v for k, v in values.items() if v.strip()}
    except csv.Error as error:
        archive.say("I-DWC-01", path, line + 1, problem=f"the table cannot be read on from here ({error})")


def _index(text: str | None) -> int | None:
    return int(text) if text is not None and text.isdecimal() and len(text) < 6 else None


def _record(archive: _Archive, record_id: str, values: dict[str, str], rows: Rows) -> Record:
    iri = values.get("occurrenceID", "")
    own = [(line, row, row["measurementID"].removeprefix(f"{iri}#")) for line, _, row in rows if _is_own(row, iri)]
    pairs: list[tuple[str, str]] = []
    for _, row, name in own:
        if name.startswith("measurements/") and name.count("/") == 1:
            pairs += [
                (f"{name}/{key}", row[term].replace(" ", "_") if key == "quantity" else row[term])
                for key, term in MEASURED.items()
                if term in row
            ]
        else:
            pairs.append((name, row.get("measurementValue", "")))
    record, rest = record_of(record_id, pairs)
    for name, text in rest:
        archive.unknown[name.split("/")[0]] += 1
        _remark(record, name, text)
    for term, value in values.items():
        _core_value(archive, record, term, value, bool(own) or archive.own)
    for _, _, row in rows:
        if not _is_own(row, iri):
            words = " ".join(filter(None, (row.get("measurementValue"), row.get("measurementUnit"))))
            archive.unknown["measurementType"] += 1
            _remark(record, "MeasurementOrFact", f"{row.get('measurementType', '')}: {words}")
    return record


def _is_own(row: Mapping[str, str], iri: str) -> bool:
    return bool(iri) and row.get("measurementID", "").startswith(f"{iri}#")


def _core_value(archive: _Archive, record: Record, term: str, value: str, own: bool) -> None:
    path = CORE.get(term)
    if path is None:
        if not own or term not in _MADE:
            archive.unknown[term] += 1
            _remark(record, term, value)
        return
    slot = tables().slots[path[-1]]
    word: Any = [one.strip() for one in value.split("|") if one.strip()] if slot.multivalued else value
    if slot.kind == "enum":
        word = value.strip().lower().replace(" ", "_")
        if word not in (enum_of(slot.name) or ()):
            archive.unknown[term] += 1
            _remark(record, term, value)
            return
    holder = record
    for key in path[:-1]:
        holder = holder.setdefault(key, {})
    holder.setdefault(path[-1], word)


def _remark(record: Record, place: str, text: str) -> None:
    record.setdefault("remarks", []).append({"text": text, "place": place})
