"""A mapping set as SSSOM/JSON: one object with the slots of the set and the list of its rows; and back, strictly.

::

    {"@context": {"HP": "http://purl.obolibrary.org/obo/HP_", ...},      the prefixes (curie_map)
     "mapping_set_id": "https://...", ...,
     "mappings": [{"subject_id": "term:heart", "object_id": "UBERON:0000948", "author_label": ["..."], ...}, ...]}

Items of ``mappings`` = rows + issues ``I-MAP-03``. A context that is an address would have to be fetched: refused.
Of other contexts only the prefixes are taken; keys are the names of slots.

Source: SSSOM 1.1; the form as the library ``sssom`` writes and reads it (held against it in the tests).
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from chordae.formats.json_input import read_json
from chordae.issues import Issue, Location, issue
from chordae.sssom import COLUMNS, MappingSet, Row, row_problem, sort_rows
from chordae.sssom_header import SET_SLOTS, header_of
from chordae.sssom_slots import Slot, join_values, slots, split_values

__all__ = ["read_json_set", "write_json_set"]

_ROWS = "mappings"
_CONTEXT = "@context"
_BESIDE = ("@type", "@id")


def write_json_set(mappings: MappingSet) -> str:
    """Return a set as JSON: slots and columns in their order, rows sorted, one row a line."""
    out: dict[str, Any] = {_CONTEXT: mappings.prefixes}
    for name in SET_SLOTS:
        if name in mappings.header and name != "curie_map":
            value = mappings.header[name]
            out[name] = [_number(one, name) for one in value] if isinstance(value, list) else _number(value, name)
    head = json.dumps(out, ensure_ascii=False, indent=1)[:-2]
    rows = [json.dumps(_row(row), ensure_ascii=False) for row in sort_rows(mappings.rows)]
    return f'{head},\n "{_ROWS}": [\n' + ",\n".join(rows) + "\n]\n}\n"


def read_json_set(data: bytes, name: str) -> tuple[MappingSet, list[Issue]]:
    """Read one set strictly.

    Raises
    ------
    InputError
        The file is empty, or is not text.
    """
    value, issues = read_json(data, name)
    where = Location(name)
    items = value.get(_ROWS) if isinstance(value, Mapping) else None
    problem = ""
    if not isinstance(value, Mapping) or not isinstance(items, list):
        problem = f'it is no object with a list "{_ROWS}"'
    elif remote := _remote(value.get(_CONTEXT)):
        problem = f"its context {remote[:80]} would have to be fetched, and nothing is fetched"
    if problem or not isinstance(value, Mapping) or not isinstance(items, list):
        if not issues or value is not None:
            issues.append(issue("I-MAP-01", location=where, problem=problem))
        return MappingSet(name, {}, ()), issues
    header = {key: one for key, one in value.items() if key not in (_ROWS, _CONTEXT, *_BESIDE)}
    prefixes = {**_prefixes(value.get(_CONTEXT)), **_prefixes(header.get("curie_map"))}
    kept = header_of({**header, **({"curie_map": prefixes} if prefixes else {})}, where, issues)
    rows: list[Row] = []
    unknown: dict[str, None] = {}
    for number, item in enumerate(items, 1):
        cells, problem = _cells(item, unknown)
        problem = problem or row_problem(cells)
        if problem:
            issues.append(issue("I-MAP-03", location=where, path=f"/{_ROWS}/{number - 1}", problem=problem))
        else:
            rows.append(Row(cells))
    issues += [issue("I-MAP-02", location=where, value=key, kind="column") for key in unknown]
    return MappingSet(name, kept, tuple(rows)), issues


def _row(row: Row) -> dict[str, Any]:
    return {
        name: [_number(one, name) for one in split_values(row[name])]
        if slots()[name].several
        else _number(row[name], name)
        for name in COLUMNS
        if row[name]
    }


def _number(text: Any, name: str) -> Any:
    """Return a number as one where that loses nothing of how it was written."""
    if slots()[name].kind == "number":
        try:
            return float(text) if repr(float(text)) == text and abs(float(text)) < 1e15 else text
        except (TypeError, ValueError):
            return text
    return text


def _cells(item: Any, unknown: dict[str, None]) -> tuple[dict[str, str], str]:
    if not isinstance(item, Mapping):
        return {}, "it is not made of keys and values"
    cells: dict[str, str] = {}
    for key, value in item.items():
        slot = slots().get(key)
        if slot is None or not slot.of_row:
            if key not in _BESIDE:
                unknown.setdefault(key)
        elif value is not None:
            try:
                cells[key] = _cell(value, slot)
            except ValueError as error:
                return {}, f"{key}: {error}"
    return {key: cell for key, cell in cells.items() if cell}, ""


def _cell(value: Any, slot: Slot) -> str:
    values = value if isinstance(value, list) else [value]
    if any(isinstance(one, list | Mapping) or one is None for one in values):
        raise ValueError("words were expected, not a list or keys and values")
    texts = [str(one).lower() if isinstance(one, bool) else str(one) for one in values]
    if slot.several:
        return join_values(texts)
    if isinstance(value, list):
        raise ValueError("one value was expected, not a list")
    return texts[0]


def _remote(context: Any) -> str:
    parts = context if isinstance(context, list) else [context]
    named = [one for one in parts if isinstance(one, str)]
    named += [str(one["@import"]) for one in parts if isinstance(one, Mapping) and "@import" in one]
    return named[0] if named else ""


def _prefixes(context: Any) -> dict[str, str]:
    found: dict[str, str] = {}
    for part in context if isinstance(context, list) else [context]:
        if isinstance(part, Mapping):
            found.update((key, one) for key, one in part.items() if isinstance(one, str) and not key.startswith("@"))
    return found
