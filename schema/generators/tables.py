"""From the LinkML schema to plain tables: what every other writer, and the package at run time, works from.

::

    classes   name -> iri, description, source, abstract, ancestors (itself first), slots, required, related
    slots     name -> iri, description, source, kind, multivalued, ordered, and where they apply
                      enum | class, segment, key, forms, unit, minimum, maximum, pattern, examples
    enums     name -> description, source, values: text -> iri, description, source
    parts     conventional id -> type, default, say  (schema/parts.yaml)

``kind`` is one of: identifier, type, enum, reference (to a node of the same record), node (an inner node), term
(of the vocabulary), date, integer, decimal, uri, text.
"""

from __future__ import annotations

from typing import Any

from linkml_runtime import SchemaView

__all__ = ["make_tables"]

Table = dict[str, Any]

_KINDS = {"integer": "integer", "decimal": "decimal", "uri": "uri", "string": "text", "vocabulary_term": "term"}
_DATES = "calendar_"


def make_tables(view: SchemaView, parts: Table) -> Table:
    """Return the tables of a schema.

    Parameters
    ----------
    view
        The whole schema, imports and all.
    parts
        The content of ``schema/parts.yaml``.

    Raises
    ------
    ValueError
        The schema says something that these tables cannot hold.
    """
    classes = {name: _class(view, name) for name in view.all_classes()}
    slots = {name: _slot(view, name) for name in view.all_slots()}
    enums = {name: _enum(view, name) for name in view.all_enums()}
    return {
        "version": view.schema.version,
        "prefixes": {name: str(prefix.prefix_reference) for name, prefix in view.schema.prefixes.items()},
        "classes": dict(sorted(classes.items())),
        "slots": dict(sorted(slots.items())),
        "enums": dict(sorted(enums.items())),
        "parts": parts["parts"],
    }


def _class(view: SchemaView, name: str) -> Table:
    found = view.get_class(name)
    for slot, usage in found.slot_usage.items():
        said = {key for key, value in vars(usage).items() if value and key not in {"name", "required"}}
        if said:
            raise ValueError(f"{name}.{slot}: slot_usage may say only 'required', not {sorted(said)}")
    ancestors = view.class_ancestors(name)
    slots: list[str] = []
    for one in reversed(ancestors):  # inherited slots first
        slots += [slot for slot in view.get_class(one).slots if slot not in slots]
    table: Table = {
        "iri": view.expand_curie(str(found.class_uri)),
        "description": found.description,
        "source": _source(found),
        "ancestors": ancestors,
        "slots": slots,
        "required": [slot for slot in slots if view.induced_slot(slot, name).required],
    }
    if found.abstract:
        table["abstract"] = True
    if found.related_mappings:
        table["related"] = [str(one).removeprefix("term:") for one in found.related_mappings]
    return table


def _slot(view: SchemaView, name: str) -> Table:
    found = view.get_slot(name)
    table: Table = {
        "iri": view.expand_curie(str(found.slot_uri)),
        "description": found.description,
        "source": _source(found),
        "kind": _kind(view, found),
        "multivalued": bool(found.multivalued),
    }
    if table["kind"] == "enum":
        table["enum"] = found.range
    if table["kind"] in {"reference", "node"}:
        table["class"] = _annotation(found, "refers_to") or found.range
    if table["multivalued"]:
        key = _annotation(found, "iri_key")
        table["ordered"] = bool(found.list_elements_ordered) or (table["kind"] == "node" and not key)
        if key:
            table["key"] = key
    if table["kind"] == "node":
        table["segment"] = _annotation(found, "iri_segment") or name
    if table["kind"] == "date":
        forms = [one.range for one in found.any_of] or [found.range]
        table["forms"] = [str(one).removeprefix(_DATES) for one in forms]
    if found.unit:
        table["unit"] = found.unit.ucum_code
    for key, value in (("minimum", found.minimum_value), ("maximum", found.maximum_value)):
        if value is not None:
            table[key] = value
    if found.pattern:
        table["pattern"] = found.pattern
    if found.examples:
        table["examples"] = [one.value for one in found.examples]
    return table


def _kind(view: SchemaView, slot: Any) -> str:
    if slot.identifier:
        return "identifier"
    if slot.designates_type:
        return "type"
    if slot.range in view.all_enums():
        return "enum"
    if slot.range in view.all_classes():
        return "node" if slot.inlined else "reference"
    if (slot.range or "").startswith(_DATES) or slot.any_of:
        if any(not (one.range or "").startswith(_DATES) for one in slot.any_of):
            raise ValueError(f"{slot.name}: any_of is understood for dates only")
        return "date"
    if slot.range not in _KINDS:
        raise ValueError(f"{slot.name}: the range {slot.range} is not understood")
    return _KINDS[slot.range]


def _enum(view: SchemaView, name: str) -> Table:
    found = view.get_enum(name)
    values = {
        text: {
            "iri": view.expand_curie(str(value.meaning)),
            "description": value.description,
            "source": _source(value),
        }
        for text, value in found.permissible_values.items()
    }
    return {"description": found.description, "source": _source(found), "values": values}


def _source(element: Any) -> str:
    return str(element.source or "").removeprefix("src:")


def _annotation(element: Any, name: str) -> str | None:
    found = element.annotations.get(name) if element.annotations else None
    return None if found is None else str(found.value)
