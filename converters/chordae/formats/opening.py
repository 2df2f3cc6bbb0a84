"""From a file, folder or zip in any format of the table to what it holds, and everything that was refused.

Whatever is wrong with the content is an issue: a reader that must refuse a whole file says so in one (``I-FMT-01``).
Only a file that is not there, or cannot be opened, is an error.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from chordae.errors import FormatError, InputError
from chordae.files import read_input
from chordae.formats.packing import files_of_folder, is_zip, unpack
from chordae.formats.table import Format
from chordae.intake.storable import needs_a_look, storable
from chordae.issues import Issue, Location, issue
from chordae.record import Reading

__all__ = ["open_bytes", "open_path"]


def open_path(path: str, format: Format) -> tuple[list[Any], list[Issue]]:
    """Read a file, a folder or a zip.

    Returns
    -------
    (list, list of Issue)
        Readings, for a format that holds records; mapping sets or releases for one that holds those.

    Raises
    ------
    InputError
        There is no such file, or it is too large to be opened.
    """
    name = "standard input" if path == "-" else path
    if format.several and path != "-" and Path(path).is_dir():
        return _guarded(format, files_of_folder(path), name)
    return open_bytes(read_input(path), name, format)


def open_bytes(data: bytes, name: str, format: Format) -> tuple[list[Any], list[Issue]]:
    """Read what was read from a file already; a format of several files comes as a zip, or one of them alone."""
    if not format.several:
        return _guarded(format, data, name)
    try:
        return _guarded(format, unpack(data, name) if is_zip(data) else {Path(name).name: data}, name)
    except InputError as error:
        return [], [_refused(name, error)]


def _guarded(format: Format, content: bytes | Mapping[str, bytes], name: str) -> tuple[list[Any], list[Issue]]:
    if format.several and not content:
        return [], [_refused(name, InputError(f"{name} holds no file."))]
    module = format.load()
    read = module.read_files if format.several else module.read
    try:
        found: tuple[list[Any], list[Issue]] = read(content, name, format.name)
    except (FormatError, InputError) as error:
        return [], [_refused(name, error)]
    return _sound(*found, name) if format.holds == "records" else found


def _sound(readings: list[Reading], issues: list[Issue], name: str) -> tuple[list[Reading], list[Issue]]:
    """Keep records as documents are kept: no text that is too long, no record with characters that nobody can see."""
    kept: list[Reading] = []
    for one in readings:
        if not needs_a_look(one.record):
            kept.append(one)
            continue
        record, faults, refused = storable(one.record)
        record_id = str(one.record.get("id"))
        for fault in faults:
            place = one.places.get(fault.path, one.places.get("", Location(name)))
            more: dict[str, Any] = {"location": place, "record": record_id, "path": fault.path or None}
            issues.append(issue(fault.rule, value=fault.value, **more, **fault.fields))
        if not refused:
            kept.append(Reading(record, one.places))
    return kept, issues


def _refused(name: str, error: FormatError | InputError) -> Issue:
    return issue("I-FMT-01", location=Location(name), problem=error.message, remedy=error.hint or "Export it again.")
