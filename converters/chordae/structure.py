"""Check the shape of a record: keys, words, numbers, references. A reading goes in, issues with places come out.

::

    the generated JSON Schema      keys, lists of words, kinds, forms, ranges (compiled once; Rust)
    chordae.references             ids given twice, references to what is not there, states that contradict

The schema says of each part only what holds for its own type, so one fault gives one issue. Nothing here speaks of
morphology: that is the work of the rules.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any

from chordae import resources
from chordae.issues import Issue, issue, nearest
from chordae.model import Slot, class_slots, tables
from chordae.record import Reading, pointer, say
from chordae.references import check_references

if TYPE_CHECKING:
    import jsonschema_rs

__all__ = ["SCHEMA", "check_structure", "has_shape", "part_at", "without_nulls"]

SCHEMA = "schema/generated/chordae.schema.json"

_KINDS = {
    "string": "text (in quotes)",
    "number": "a number",
    "integer": "a whole number",
    "array": "a list",
    "object": "keys with values",
    "boolean": "true or false",
    "null": "nothing",
}


def check_structure(reading: Reading) -> list[Issue]:
    """Return every fault of structure of one record, each with its place.

    A key without a value (``null``) is an info and counts as not recorded.

    Examples
    --------
    >>> valve = {"id": "v", "type": "AtrioventricularValve", "cleft": "abscent"}
    >>> [(found.rule, found.path) for found in check_structure(Reading({"id": "7", "parts": [valve]}))]
    [('S-VAL', '/parts/0/cleft')]
    """
    record = reading.record
    if has_shape(record):
        return list(check_references(reading))
    empty: list[str] = []
    full = without_nulls(record, "", empty)
    found = [_at(reading, path, "S-NULL", key=path.rpartition("/")[2]) for path in empty]
    # Positions in lists stay, so that the paths are those of the record as it was read.
    found += [one for error in _validator().iter_errors(full) for one in _issues(error, full, reading)]
    return found + list(check_references(Reading(full, reading.places)))


def has_shape(record: Mapping[str, Any]) -> bool:
    """Say whether a record has the shape that the schema gives; references are not looked at."""
    return _quick_validator().is_valid(record)


def without_nulls(value: Any, path: str, empty: list[str]) -> Any:
    """Return a value without keys that hold nothing; their pointers are added to ``empty``."""
    if isinstance(value, Mapping):
        empty += [f"{path}{pointer(key)}" for key, inner in value.items() if inner is None]
        return {
            key: without_nulls(inner, f"{path}{pointer(key)}", empty)
            for key, inner in value.items()
            if inner is not None
        }
    if isinstance(value, list):
        return [without_nulls(inner, f"{path}/{number}", empty) for number, inner in enumerate(value)]
    return value


@cache
def _schema() -> dict[str, Any]:
    import orjson

    found: dict[str, Any] = orjson.loads(resources.read_bytes(SCHEMA))
    return found


@cache
def _validator() -> jsonschema_rs.Draft201909Validator:
    import jsonschema_rs

    return jsonschema_rs.Draft201909Validator(_schema(), validate_formats=True)


@cache
def _quick_validator() -> jsonschema_rs.Draft201909Validator:
    """The same schema with the types of parts as alternatives: three times as fast, but its faults say nothing."""
    import jsonschema_rs

    schema = _schema()
    items = schema["properties"]["parts"]["items"]
    alternatives = {"anyOf": [branch["then"] for branch in items["allOf"]]}
    parts = {**schema["properties"]["parts"], "items": alternatives}
    quick = {**schema, "properties": {**schema["properties"], "parts": parts}}
    return jsonschema_rs.Draft201909Validator(quick, validate_formats=True)


def _issues(error: jsonschema_rs.ValidationError, record: Mapping[str, Any], reading: Reading) -> Iterator[Issue]:
    keys = list(error.instance_path)
    path = pointer(*keys)
    kind: Any = error.kind
    key = next((str(one) for one in reversed(keys) if not isinstance(one, int)), "")
    slot = tables().slots.get(key)
    value = error.instance
    what, class_name = _node(record, keys)
    if kind.name == "additionalProperties":
        for extra in sorted(kind.unexpected):
            near = _where_else(extra, class_name)
            yield _at(reading, path + pointer(extra), "S-KEY", key=extra, what=what, nearest=near)
    elif kind.name == "required":
        yield _at(reading, path, "S-REQ", what=what[:1].upper() + what[1:], key=kind.property)
    elif kind.name == "enum" and (key == "type" or isinstance(value, str)):
        words = [str(one) for one in kind.options]
        rule = "S-PART" if key == "type" else "S-VAL"
        near = nearest(str(value), words)
        yield _at(reading, path, rule, value=value, key=key, nearest=near, expected=", ".join(words))
    elif kind.name == "type":
        expected = " or ".join(_KINDS[one] for one in kind.types)
        yield _at(reading, path, "S-TYPE", value=_short(value), key=key or what, expected=expected, found=_found(value))
    elif kind.name in {"pattern", "anyOf", "format"}:
        yield _at(reading, path, "S-PAT", value=value, key=key, expected=_form(slot))
    elif kind.name in {"minimum", "maximum"}:
        yield _at(reading, path, "S-RNG", value=value, key=key, expected=_range(slot))
    elif kind.name == "uniqueItems":
        yield _at(reading, path, "S-TWICE", key=key, value=_repeated(value))
    elif kind.name != "enum":  # a word of the wrong kind is told by "type" already
        yield _at(reading, path, "S-OTHER", problem=f"{key or what}: {error.message[:200]}")


def _at(reading: Reading, path: str, rule: str, **fields: Any) -> Issue:
    part = part_at(reading.record, path)
    part_id = part.get("id") if isinstance(part, Mapping) else None
    record = reading.record.get("id")
    return issue(
        rule,
        location=reading.place(path),
        record=None if record is None else str(record),
        part=None if part_id is None else str(part_id),
        path=path,
        **fields,
    )


def part_at(record: Mapping[str, Any], path: str) -> Any:
    """Return what stands in the list of parts around a pointer; ``None`` if it points elsewhere."""
    keys = path.split("/")
    parts = record.get("parts")
    if len(keys) < 3 or keys[1] != "parts" or not isinstance(parts, list):
        return None
    return parts[int(keys[2])]


def _node(record: Mapping[str, Any], keys: list[str | int]) -> tuple[str, str]:
    """Name the innermost mapping around a value, and its class."""
    node: Any = record
    what, class_name = "the record", "Record"
    for number, key in enumerate(keys):
        node = node[key]
        if not isinstance(node, Mapping):
            continue
        slot = tables().slots.get(str(key if isinstance(key, str) else keys[number - 1]))
        class_name = slot.range or "" if slot else ""
        if class_name == "Part":
            what, class_name = f"the {say(node)}", str(node.get("type"))
        elif isinstance(key, str):
            what = f"the {key.replace('_', ' ')}"
        else:
            of = "" if what == "the record" else f" of {what}"
            what = f'entry {key + 1} under "{keys[number - 1]}"{of}'
    return what, class_name


def _where_else(key: str, class_name: str) -> str:
    owners = [one for one in tables().classes.values() if key in one.slots and not one.abstract]
    if owners and key not in class_slots(class_name):
        return f" It is a property of {' and '.join(one.name for one in owners[:3])}."
    return nearest(key, class_slots(class_name))


def _form(slot: Slot | None) -> str:
    if slot is None:
        return "another form"
    examples = f" For example: {', '.join(slot.examples)}" if slot.examples else ""
    return (slot.description.rstrip(".") + "." + examples).rstrip(".")


def _range(slot: Slot | None) -> str:
    low, high = (None, None) if slot is None else (slot.minimum, slot.maximum)
    if low is not None and high is not None:
        return f"{low} to {high}"
    return f"at least {low}" if high is None else f"at most {high}"


def _found(value: Any) -> str:
    if isinstance(value, str):
        return f'the text "{_short(value)}"'
    if isinstance(value, list):
        return "a list"
    if isinstance(value, Mapping):
        return "keys with values"
    return "no finite number" if value is None else str(value).lower()


def _short(value: Any) -> str:
    return str(value) if isinstance(value, str | int | float) else _found(value)


def _repeated(values: Any) -> str:
    return next((str(one) for number, one in enumerate(values) if one in values[:number]), "")
