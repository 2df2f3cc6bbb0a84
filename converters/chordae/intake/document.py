"""From a document of records (YAML, JSON, NDJSON) to readings, each value with its place.

::

    hearts.yaml  ->  [Reading(record, places)]  +  [Issue]
    hearts.json
    hearts.ndjson  (one record a line; may be read as a stream)

What stands where a record should becomes a reading, or is refused with a violation; nothing vanishes. The
record is taken as written: the short form is expanded and the structure checked by later steps. Scalars are
read as in :mod:`chordae.intake.scalars`.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, BinaryIO

from chordae.errors import FormatError, InputError
from chordae.files import STDIN, read_input
from chordae.intake import json_text, yaml_text
from chordae.intake.encoding import decode, empty
from chordae.intake.found import Fault, Found, Places
from chordae.intake.storable import needs_a_look, storable
from chordae.issues import Issue, Location, issue, shown
from chordae.record import Reading
from chordae.spill import Seen

__all__ = ["FORMATS", "document_format", "each_line", "each_reading", "read_document"]

FORMATS = ("yaml", "json", "ndjson")
_SUFFIXES = {".yaml": "yaml", ".yml": "yaml", ".json": "json", ".ndjson": "ndjson", ".jsonl": "ndjson"}
_LONGEST_LINE = 16 * 1024 * 1024


def read_document(
    source: str | os.PathLike[str],
    *,
    data: bytes | None = None,
    format: str | None = None,
    encoding: str | None = None,
) -> tuple[list[Reading], list[Issue]]:
    """Read every record of a document.

    Parameters
    ----------
    source
        A path, or ``-`` for standard input; with ``data`` only its name.
    data
        The bytes, if they were read already.
    format
        One of ``FORMATS``; by default from the name, else from the text.
    encoding
        Name of the text encoding; by default UTF-8, or what a byte order mark says.

    Returns
    -------
    tuple
        The readings in the order of the document, and the issues. Each thing that stands where a record
        should is either a reading or has a violation of its own.

    Raises
    ------
    InputError
        The file is missing, empty, too long, or not text.
    FormatError
        The format or encoding is not known.
    """
    readings: list[Reading] = []
    issues: list[Issue] = []
    for reading, faults in each_reading(source, data=data, format=format, encoding=encoding):
        if reading is not None:
            readings.append(reading)
        issues.extend(faults)
    return readings, issues


def each_reading(
    source: str | os.PathLike[str],
    *,
    data: bytes | None = None,
    path: str | os.PathLike[str] | None = None,
    format: str | None = None,
    encoding: str | None = None,
) -> Iterator[tuple[Reading | None, list[Issue]]]:
    """Yield the records one by one, as :func:`read_document` reads them.

    An NDJSON file or stream is read line by line, so memory does not grow with its length, apart from the
    ids, which stand in a file. ``path`` says where the document stands, if ``source`` is only its name.

    Yields
    ------
    tuple
        A reading and the issues about it; ``None`` and the issues where a record was refused.
    """
    name = "standard input" if os.fspath(source) == STDIN else os.fspath(source)
    known = _format(source, format)
    if known == "ndjson" and data is None and encoding is None:
        with _open(source if path is None else path) as stream:
            yield from _judge(name, json_text.find_lines(_lines(stream, name)))
        return
    if data is None:
        data = read_input(source if path is None else path)
    if known == "ndjson" and encoding is None and data.strip():
        yield from _judge(name, json_text.find_lines(data.split(b"\n")))
        return
    text, _ = decode(data, name, encoding=encoding)
    yield from _judge(name, _find(text, known or _sniff(text)))


def each_line(lines: Iterable[bytes], name: str, first: int = 1) -> Iterator[tuple[Reading | None, list[Issue]]]:
    """Yield the records of lines of NDJSON as :func:`each_reading` does.

    Parameters
    ----------
    lines
        The lines, which may be part of a file.
    name
        Name of the file in places and issues.
    first
        Number of the first of the lines in the file.
    """
    yield from _judge(name, json_text.find_lines(lines, first))


def document_format(source: str | os.PathLike[str]) -> str | None:
    """Return the format that the name of a file stands for, ``None`` if it is not a document's."""
    return _SUFFIXES.get(Path(source).suffix.lower())


def _format(source: str | os.PathLike[str], format: str | None) -> str | None:
    if format is not None and format not in FORMATS:
        raise FormatError(f"There is no document format {format!r}.", f"Use one of: {', '.join(FORMATS)}.")
    return format or document_format(source)


def _sniff(text: str) -> str:
    start = text.lstrip()
    if start[:1] not in ("{", "["):
        return "yaml"
    lines = start.splitlines()
    single = start.startswith("{") and lines[0].rstrip().endswith("}")
    return "ndjson" if single and any(line.strip() for line in lines[1:]) else "json"


def _find(text: str, format: str) -> Iterator[Found]:
    if format == "ndjson":
        return json_text.find_lines(text.split("\n"))
    return json_text.find_records(text) if format == "json" else yaml_text.find_records(text)


def _open(source: str | os.PathLike[str]) -> BinaryIO:
    if os.fspath(source) == STDIN:
        return sys.stdin.buffer
    try:
        return Path(source).open("rb")
    except FileNotFoundError:
        raise InputError(f"There is no file {source}.", "Look at the name and the folder.") from None
    except (OSError, ValueError) as error:
        raise InputError(f"The file {os.fspath(source)!r} cannot be read: {error}.") from None


def _lines(stream: BinaryIO, name: str) -> Iterator[bytes]:
    filled = False
    while line := stream.readline(_LONGEST_LINE + 1):
        if len(line) > _LONGEST_LINE:
            raise InputError(f"A line of {name} is longer than {_LONGEST_LINE // 1024 // 1024} MB.")
        filled = filled or bool(line.strip())
        yield line
    if not filled:
        raise empty(name, "Export the records again.")


def _judge(name: str, items: Iterable[Found]) -> Iterator[tuple[Reading | None, list[Issue]]]:
    """Make a reading or issues of each thing found; ids are looked at over the whole document."""
    first_line = Seen()
    for item in items:
        faults = list(item.faults)
        refused = item.refused
        if not refused and needs_a_look(item.value):
            marks = item.marks()
            item.value, more, refused = storable(item.value)
            faults += [replace(one, mark=_nearest(marks, one, item)) for one in more]
        record = item.value
        named = record.get("id") if isinstance(record, dict) else None
        record_id = named if isinstance(named, str) else None
        if not refused and not isinstance(record, dict):
            faults.append(Fault("I-DOC-05", item.mark, fields={"found": _kind(record)}))
            refused = True
        elif not refused:
            record_id, more, refused = _identify(record, item, first_line)
            faults += more
        if record_id is not None and not refused:
            first_line.at(record_id, item.mark[0])
        issues = [_issue(name, one, record_id) for one in faults]
        yield (None if refused else Reading(record, Places(name, item.marks, item.mark))), issues


def _identify(
    record: dict[str, Any], item: Found, first_line: Seen
) -> tuple[str | None, list[Fault], bool]:
    value = record.get("id")
    faults: list[Fault] = []
    if isinstance(value, int) and not isinstance(value, bool):
        faults.append(Fault("I-REC-03", item.mark, "/id", str(value)))
        record["id"] = value = str(value)
    if not isinstance(value, str) or not value.strip():
        return None, [Fault("I-REC-02", item.mark, "/id")], True
    if (first := first_line.get(value)) is not None:
        return value, [Fault("I-REC-01", item.mark, "/id", value, {"first": first})], True
    return value, faults, False


def _issue(name: str, fault: Fault, record_id: str | None) -> Issue:
    place = Location(name, *fault.mark)
    return issue(
        fault.rule,
        location=place,
        record=record_id,
        path=fault.path or None,
        value=fault.value,
        **fault.fields,
    )


def _nearest(marks: Any, fault: Fault, item: Found) -> tuple[int, int]:
    path = fault.path
    while path and path not in marks:
        path = path.rpartition("/")[0]
    return tuple(marks.get(path, item.mark))


def _kind(value: Any) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, list):
        return "a list"
    return f'the text "{shown(value, 40)}"' if isinstance(value, str) else f"the value {value}"
