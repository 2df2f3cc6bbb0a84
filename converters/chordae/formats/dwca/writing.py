"""From records to a Darwin Core Archive; every value is one line of text, so no quoting is needed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from chordae.formats.dwca.archive import CORE, CORE_FILE, FACTS, FACTS_FILE, META, eml, meta
from chordae.formats.facts import facts_of, fits, one_line, say_name
from chordae.formats.losses import Carried
from chordae.formats.settings import Item, Settings
from chordae.model import tables
from chordae.rdf.emit import record_iri
from chordae.record import Record, pointer

__all__ = ["MEASURED", "write_files"]

MEASURED: Mapping[str, str] = {
    "quantity": "measurementType",
    "value": "measurementValue",
    "unit": "measurementUnit",
    "method": "measurementMethod",
}
"""Slots of a measurement that share one row."""
_BAR = " | "
_UNSEEN = ("not_assessable", "not_examined")


def write_files(items: Iterable[Item], settings: Settings) -> Iterator[tuple[str, bytes]]:
    """Yield the four files of the archive."""
    core = [_line(["id", *CORE])]
    facts = [_line(["id", *FACTS])]
    for record, _ in items:
        carried: Carried = {"/id": "coded"}
        iri = record_iri(record["id"], settings.base)
        in_core = _core(record, iri, carried)
        core.append(_line([str(record["id"]), *in_core]))
        facts += [_line([str(record["id"]), *row]) for row in _facts(record, iri, carried)]
        settings.note(record, carried)
    yield CORE_FILE, "".join(core).encode()
    yield FACTS_FILE, "".join(facts).encode()
    yield META, meta().encode()
    yield "eml.xml", eml(settings.recorded).encode()


def _core(record: Record, iri: str, carried: Carried) -> list[str]:
    specimen: Mapping[str, Any] = record.get("specimen") or {}
    made = {
        "occurrenceID": iri,
        "preparations": _BAR.join(_preparations(specimen)),
        "associatedMedia": _BAR.join(str(one["source_file"]) for one in record.get("evidence") or ()),
    }
    cells: list[str] = []
    for term, path in CORE.items():
        if path is None:
            cells.append(made[term])
            continue
        value: Any = record
        for key in path:
            value = value.get(key) if isinstance(value, Mapping) else None
        texts = value if isinstance(value, list) else [value]
        whole = (
            value is not None and value not in _UNSEEN and all(fits(str(one)) and "|" not in str(one) for one in texts)
        )
        cells.append(_BAR.join(map(str, texts)) if whole else "")
        if whole:
            where = pointer(*path)
            places = [f"{where}/{at}" for at in range(len(texts))] if isinstance(value, list) else [where]
            carried |= dict.fromkeys(places, "coded")
    return cells


def _preparations(specimen: Mapping[str, Any]) -> Iterator[str]:
    words = [specimen.get("material"), *(specimen.get("preparation") or ()), specimen.get("fixation")]
    return (str(word).replace("_", " ") for word in words if word is not None and word not in _UNSEEN)


def _facts(record: Record, iri: str, carried: Carried) -> Iterator[list[str]]:
    shared = {f"/measurements/{at}/{key}" for at in range(len(record.get("measurements") or ())) for key in MEASURED}
    for at, one in enumerate(record.get("measurements") or ()):
        cells = {term: one_line(str(one.get(key, ""))) for key, term in MEASURED.items()}
        cells["measurementID"] = f"{iri}#measurements/{one['id']}"
        cells["measurementType"] = cells["measurementType"].replace("_", " ")
        carried |= {f"/measurements/{at}/{key}": _manner(str(one[key])) for key in MEASURED if one.get(key)}
        if one.get("value") is not None:
            carried[f"/measurements/{at}/value"] = "coded"
        yield [cells.get(term, "") for term in FACTS]
    for path, name, text in facts_of(record):
        if path in carried or path in shared or not text.strip():
            continue
        carried[path] = _manner(text)
        yield [f"{iri}#{name}", say_name(name), one_line(text), "", "", _meaning(name, text)]


def _manner(text: str) -> Any:
    return "coded" if fits(text) else "text"


def _meaning(name: str, text: str) -> str:
    """Return what the schema says that a word means."""
    slot = tables().slots.get(next((one for one in reversed(name.split("/")) if not one.startswith("=")), ""))
    words = tables().enums.get(slot.range or "", {}) if slot is not None and slot.kind == "enum" else {}
    return one_line(str(words[text]["description"])) if text in words else ""


def _line(cells: Iterable[str]) -> str:
    return "\t".join(cells) + "\n"
