"""Hypothesis strategies for full records, made from the tables of the schema: any class, any slot, any word.

The records have the shape of the schema and hold no dangling reference; they make no sense as hearts. They stand in
canonical order. For hearts that make sense see ``generate_records.py``.
"""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from chordae.canonical import canonical
from chordae.model import Slot, class_slots, is_a, part_defaults, tables
from chordae.record import Record

__all__ = ["dates", "ids", "records", "slot_values", "texts"]

PART_CLASSES = [name for name, one in tables().classes.items() if "Part" in one.ancestors and not one.abstract]


def texts(min_size: int = 0, max_size: int = 12) -> st.SearchStrategy[str]:
    """Any text that can be stored: all of Unicode without halves of pairs."""
    return st.text(st.characters(exclude_categories=["Cs"]), min_size=min_size, max_size=max_size)


def ids() -> st.SearchStrategy[str]:
    """Identifiers of records, parts, evidence, measurements."""
    return st.from_regex(r"[A-Za-z0-9][A-Za-z0-9._-]{0,10}", fullmatch=True)


def dates(forms: tuple[str, ...] = ("year", "month", "date")) -> st.SearchStrategy[str]:
    """Dates of the forms named: decade, year, month of a year, day."""
    lengths = {"decade": 3, "year": 4, "month": 7, "date": 10}
    days = st.dates().map(lambda day: day.isoformat())
    return st.builds(
        lambda day, form: day[: lengths[form]] + ("0s" if form == "decade" else ""), days, st.sampled_from(forms)
    )


@st.composite
def records(draw: st.DrawFn, derived: bool = True) -> Record:
    """A record with some parts, evidence, measurements, conclusions and remarks."""
    record: Record = {"id": draw(ids())}
    skeletons = draw(st.lists(_part_skeleton(), max_size=5, unique_by=lambda part: part["id"]))
    known = {
        "parts": skeletons,
        "evidence": [{"id": one} for one in draw(st.lists(ids(), max_size=2, unique=True))],
        "measurements": [{"id": one} for one in draw(st.lists(ids(), max_size=2, unique=True))],
    }
    for name, nodes in known.items():
        if nodes:
            type_of = (lambda node: node["type"]) if name == "parts" else (lambda _, name=name: _range(name))
            record[name] = [{**node, **draw(node_of(type_of(node), known))} for node in nodes]
    left = [name for name in class_slots("Record") if name not in {"id", *known}]
    for name in draw(st.lists(st.sampled_from(left), unique=True, max_size=4)):
        if derived or name != "derived":
            value = draw(slot_values(tables().slots[name], known))
            record |= {} if value is None else {name: value}
    return canonical(record)


@st.composite
def node_of(draw: st.DrawFn, class_name: str, known: dict[str, list[dict[str, Any]]]) -> dict[str, Any]:
    """Some of the slots of a class, and those that it must have."""
    one = tables().classes[class_name]
    free = [name for name in one.slots if tables().slots[name].kind not in {"identifier", "type"}]
    chosen = draw(st.lists(st.sampled_from(free), unique=True, max_size=6)) if free else []
    names = [name for name in free if name in chosen or name in one.required]
    node = {name: draw(slot_values(tables().slots[name], known)) for name in names}
    return {name: value for name, value in node.items() if value is not None}


def slot_values(slot: Slot, known: dict[str, list[dict[str, Any]]], class_name: str = "") -> st.SearchStrategy[Any]:
    """Values of a slot; ``None`` where there is nothing it could refer to."""
    one = _single(slot, known)
    if not slot.multivalued:
        return one
    unique = _plain if slot.kind != "node" else (lambda node: node.get(slot.key or "", repr(node)) if node else "")
    many = st.lists(one, max_size=3) if slot.ordered else st.lists(one, max_size=3, unique_by=unique)
    return many.map(lambda values: [value for value in values if value is not None])


def _single(slot: Slot, known: dict[str, list[dict[str, Any]]]) -> st.SearchStrategy[Any]:
    if slot.kind == "enum":
        return st.sampled_from(list(slot.values))
    if slot.kind == "reference":
        evidence = slot.range == "Evidence"
        nodes = known["evidence" if evidence else "parts"]
        fitting = [node["id"] for node in nodes if evidence or is_a(node["type"], slot.range or "Part")]
        return st.sampled_from(fitting) if fitting else st.none()
    if slot.kind == "node":
        needed = tables().classes[slot.range or ""].required
        whole = node_of(slot.range or "", known)
        return whole.map(lambda node: node if all(name in node or name == "id" for name in needed) else None)
    if slot.name == "feature":
        return st.sampled_from(["appendage_shape", "leaflet_count", "note_of_mine"])
    return _words(slot)


def _words(slot: Slot) -> st.SearchStrategy[Any]:
    if slot.kind == "integer":
        return st.integers(int(slot.minimum or 0), int(slot.maximum or 50))
    if slot.kind == "decimal":
        low, high = slot.minimum, slot.maximum
        whole = st.integers(int(low if low is not None else -1000), int(high if high is not None else 1000))
        return st.one_of(whole, st.builds(_hundredths, st.integers(0, 9999)))
    if slot.kind == "date":
        return dates(slot.forms)
    if slot.kind == "term":
        return st.from_regex(r"[a-z][a-z0-9_]{0,12}", fullmatch=True)
    if slot.kind == "uri":
        return st.just("https://example.org/collection/")
    if slot.pattern:
        return st.from_regex(slot.pattern.replace("^", "").replace("$", ""), fullmatch=True)
    return texts()


def _hundredths(number: int) -> float:
    return number / 100


@st.composite
def _part_skeleton(draw: st.DrawFn) -> dict[str, Any]:
    if draw(st.booleans()):
        part_id = draw(st.sampled_from(list(tables().parts)))
        return {"id": part_id, "type": tables().parts[part_id].type, **part_defaults(part_id)}
    return {"id": draw(ids()), "type": draw(st.sampled_from(PART_CLASSES))}


def _range(name: str) -> str:
    return tables().slots[name].range or ""


def _plain(value: Any) -> str:
    return str(value)
