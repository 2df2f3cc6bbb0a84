"""Phenopackets as files: one JSON file a record; packets, cohorts and folders of them read back.

::

    0012.json  0013.json        written
    0012.json | cohort.json | a folder or zip of such files        read

Everything goes through the official package: what it does not accept is neither written nor read.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from chordae.errors import FormatError
from chordae.formats.json_input import listed, mapped, read_json
from chordae.formats.packing import safe_name
from chordae.formats.phenopackets.packet import to_packet
from chordae.formats.phenopackets.reading import from_packet
from chordae.formats.settings import Item, Settings
from chordae.issues import Issue, Location, issue
from chordae.rdf.emit import check_base
from chordae.record import Reading

__all__ = ["read_files", "write_files"]


def write_files(items: Iterable[Item], settings: Settings) -> Iterator[tuple[str, bytes]]:
    """Yield one file a record.

    Raises
    ------
    FormatError
        A packet is not as the schema of phenopackets has it.
    """
    check_base(settings.base)
    used: dict[str, int] = {}
    for record, _ in items:
        packet, carried = to_packet(record, settings.base, settings.recorded)
        text = json.dumps(_accepted(packet), ensure_ascii=False, indent=1, sort_keys=True) + "\n"
        settings.note(record, carried)
        name = safe_name(str(record["id"]))
        used[name.casefold()] = count = used.get(name.casefold(), 0) + 1
        yield f"{name}.json" if count == 1 else f"{name}~{count}.json", text.encode()


def read_files(files: Mapping[str, bytes], name: str, format: str) -> tuple[list[Reading], list[Issue]]:
    """Read packets and cohorts, one or more to a file."""
    readings: list[Reading] = []
    issues: list[Issue] = []
    met: set[str] = set()
    for path, data in sorted(files.items()):
        if not path.lower().endswith((".json", ".phenopackets")) and len(files) > 1:
            continue
        value, found = read_json(data, path)
        issues += found
        for packet, more in _packets(value, path) if value is not None else ():
            issues += more
            reading, more = from_packet(packet, path) if packet is not None else (None, [])
            issues += more
            if reading is not None and str(reading.record["id"]) in met:
                twice = str(reading.record["id"])
                issues.append(issue("I-REC-01", location=Location(path), record=twice, value=twice, first=1))
            elif reading is not None:
                met.add(str(reading.record["id"]))
                readings.append(reading)
    return readings, issues


def _packets(value: Any, path: str) -> Iterator[tuple[dict[str, Any] | None, list[Issue]]]:
    members = mapped(value).get("members")
    for one in listed(members) if isinstance(members, list) else [value]:
        try:
            yield _accepted(one), []
        except FormatError as error:
            yield None, [issue("I-PHE-01", location=Location(path), problem=error.message)]


def _accepted(packet: Any) -> dict[str, Any]:
    """Return a packet as the official package understands it."""
    from google.protobuf import json_format
    from phenopackets.schema.v2 import Phenopacket

    if not isinstance(packet, dict):
        raise FormatError("it is not an object with keys")
    try:
        message = json_format.ParseDict(packet, Phenopacket())
        found: dict[str, Any] = json_format.MessageToDict(message)
    except json_format.Error as error:
        raise FormatError(" ".join(str(error).split())[:200]) from None
    except (TypeError, ValueError, AttributeError, OverflowError, RecursionError) as error:
        # The JSON reader of protobuf lets such errors through where a value has a form it does not expect.
        raise FormatError(f"a value has another form than the schema asks ({type(error).__name__})") from None
    return found
