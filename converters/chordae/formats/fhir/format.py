"""FHIR R4 as a file: one bundle of type collection, or one resource a line; and both read back.

::

    fhir           {"resourceType":"Bundle","type":"collection","entry":[...]}    records one after the other
    fhir-ndjson    {"resourceType":"Specimen",...}                                references as Specimen/<id>

Source: HL7 FHIR R4 (4.0.1), ndjson representation.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from typing import Any

from chordae.formats.fhir.bundle import to_bundle
from chordae.formats.fhir.pieces import Resource, identity
from chordae.formats.fhir.reading import from_bundle, from_resources
from chordae.formats.json_input import listed, mapped, read_json
from chordae.formats.settings import Item, Settings
from chordae.issues import Issue, Location, issue
from chordae.rdf.emit import check_base
from chordae.record import Reading

__all__ = ["read", "write"]

_LINES = "fhir-ndjson"


def write(items: Iterable[Item], settings: Settings) -> Iterator[bytes]:
    """Yield the pieces of a bundle, or of a file with one resource a line."""
    base = check_base(settings.base)
    if settings.format == _LINES:
        for entry, names in _entries(items, settings, base):
            yield _text(_relative(entry["resource"], names)) + b"\n"
        return
    yield b'{"resourceType":"Bundle","type":"collection","entry":['
    start, ids = b"\n", []
    for entry, _ in _entries(items, settings, base):
        yield start + _text(entry)
        start = b",\n"
        ids.append(entry["resource"]["id"])
    yield b'\n],"id":' + _text(identity(f"{base}bundle/{identity(' '.join(ids))}")) + b"}\n"


def read(data: bytes, name: str, format: str) -> tuple[list[Reading], list[Issue]]:
    """Read a bundle, or a file with one resource (or bundle) a line."""
    if format != _LINES:
        value, issues = read_json(data, name)
        if value is None and issues:
            return [], issues
        readings, more = from_bundle(value if isinstance(value, dict) else {}, name)
        return readings, issues + more
    found: list[Issue] = []
    entries: list[tuple[str, Any]] = []
    for number, line in enumerate(data.split(b"\n"), 1):
        if not line.strip():
            continue
        value, more = read_json(line, name)
        found += [_at(one, number) for one in more]
        if not isinstance(value, dict):
            if not more:
                found.append(issue("I-FHIR-03", location=Location(name, number), found="something else"))
        elif value.get("resourceType") == "Bundle":
            inner = listed(value.get("entry"))
            entries += [(str(one.get("fullUrl") or ""), mapped(one.get("resource"))) for one in inner]
        else:
            entries.append(("", value))
    readings, more = from_resources(entries, name)
    return readings, found + more


def _entries(items: Iterable[Item], settings: Settings, base: str) -> Iterator[tuple[Resource, Mapping[str, str]]]:
    for record, derived in items:
        bundle, carried = to_bundle(record, base, settings.recorded, derived)
        settings.note(record, carried)
        names = {
            one["fullUrl"]: f"{one['resource']['resourceType']}/{one['resource']['id']}" for one in bundle["entry"]
        }
        for one in bundle["entry"]:
            yield one, names


def _relative(value: Any, names: Mapping[str, str]) -> Any:
    """Return a resource whose references name type and id, as they must where there is no bundle."""
    if isinstance(value, dict):
        return {
            key: names.get(one, one) if key == "reference" and isinstance(one, str) else _relative(one, names)
            for key, one in value.items()
        }
    return [_relative(one, names) for one in value] if isinstance(value, list) else value


def _text(value: Any) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), default=_number).encode()


def _number(value: Any) -> Any:
    if isinstance(value, Decimal):
        return int(value) if value == value.to_integral_value() else float(value)
    raise TypeError(f"not written: {type(value).__name__}")


def _at(one: Issue, line: int) -> Issue:
    return Issue(
        one.rule, one.severity, one.message, one.hint, one.record, one.part, one.path, one.value, one.source,
        Location(one.location.file, line, one.location.column),
    )  # fmt: skip
