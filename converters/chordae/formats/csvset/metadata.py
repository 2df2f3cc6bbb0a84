"""What a set of CSV tables means, for two readers: CSVW metadata (W3C) and a Frictionless Data Package.

::

    csv-metadata.json   columns with datatypes, lists of words as patterns, keys from table to table
    datapackage.json    the same with enumerations, ranges and keys

Sources: W3C, Metadata Vocabulary for Tabular Data (2015); Frictionless Data, Data Package v1 and Table Schema v1.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from chordae.formats.settings import CAUTION
from chordae.formats.sheets.layout import Sheet
from chordae.model import Slot
from chordae.resources import VERSION

__all__ = ["csvw", "data_package"]

_RECORD = "Identifier of the description that the row belongs to."


def csvw(used: Iterable[Sheet]) -> dict[str, Any]:
    """Return the CSVW metadata of the tables used."""
    return {
        "@context": ["http://www.w3.org/ns/csvw", {"@language": "en"}],
        "dc:title": "Descriptions of malformed hearts",
        "dc:description": CAUTION,
        "dc:creator": f"chordae {VERSION}",
        "dialect": {"encoding": "utf-8", "delimiter": ",", "header": True},
        "tables": [_csvw_table(sheet) for sheet in used],
    }


def data_package(used: Iterable[Sheet]) -> dict[str, Any]:
    """Return the descriptor of a Data Package with the tables used."""
    return {
        "name": "descriptions-of-hearts",
        "title": "Descriptions of malformed hearts",
        "description": CAUTION,
        "profile": "data-package",
        "version": VERSION,
        "resources": [_resource(sheet) for sheet in used],
    }


def _csvw_table(sheet: Sheet) -> dict[str, Any]:
    columns: list[dict[str, Any]] = [
        {"name": key, "titles": key, "datatype": "string", "required": True} for key in sheet.keys
    ]
    for column in sheet.columns:
        one: dict[str, Any] = {
            "name": column.name,
            "titles": column.name,
            "dc:description": column.slot.description,
            "propertyUrl": column.slot.iri,
            "datatype": _csvw_type(column.slot),
        }
        if column.slot.multivalued:
            one["separator"] = "|"
        columns.append(one)
    schema: dict[str, Any] = {"columns": columns}
    if key := _key(sheet):
        schema["primaryKey"] = key
    if sheet.name != "records":
        reference = {"resource": "records.csv", "columnReference": "id"}
        schema["foreignKeys"] = [{"columnReference": "record", "reference": reference}]
    return {"url": f"{sheet.name}.csv", "tableSchema": schema}


def _csvw_type(slot: Slot) -> Any:
    if slot.kind == "enum":
        return {"base": "string", "format": "|".join(map(re.escape, slot.values))}
    if slot.kind in ("integer", "decimal"):
        limits = {"minimum": slot.minimum, "maximum": slot.maximum}
        return {"base": slot.kind} | {key: f"{one:g}" for key, one in limits.items() if one is not None}
    return "string"


def _resource(sheet: Sheet) -> dict[str, Any]:
    fields: list[dict[str, Any]] = [
        {"name": key, "type": "string", "description": _RECORD if key == "record" else "", "constraints": _needed()}
        for key in sheet.keys
    ]
    fields += [_field(column.name, column.slot) for column in sheet.columns]
    schema: dict[str, Any] = {"fields": fields}
    if key := _key(sheet):
        schema["primaryKey"] = key
    if sheet.name != "records":
        reference = {"resource": "records", "fields": ["id"]}
        schema["foreignKeys"] = [{"fields": ["record"], "reference": reference}]
    return {
        "name": sheet.name.replace("_", "-"),
        "title": sheet.title,
        "path": f"{sheet.name}.csv",
        "profile": "tabular-data-resource",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "schema": schema,
    }


def _field(name: str, slot: Slot) -> dict[str, Any]:
    found: dict[str, Any] = {"name": name, "type": "string", "description": slot.description, "rdfType": slot.iri}
    constraints: dict[str, Any] = {}
    if slot.kind in ("integer", "decimal"):
        found["type"] = "integer" if slot.kind == "integer" else "number"
        limits = {"minimum": slot.minimum, "maximum": slot.maximum}
        constraints = {key: one for key, one in limits.items() if one is not None}
    elif slot.kind == "enum" and slot.multivalued:
        words = "|".join(map(re.escape, slot.values))
        constraints["pattern"] = rf"({words})(\|({words}))*"
    elif slot.kind == "enum":
        constraints["enum"] = list(slot.values)
    return found | ({"constraints": constraints} if constraints else {})


def _needed() -> Mapping[str, bool]:
    return {"required": True}


def _key(sheet: Sheet) -> list[str]:
    """Columns whose words together stand once in a table; none for tables that may say a thing twice."""
    if sheet.name == "records" or sheet.single or sheet.is_part:
        return list(sheet.keys)
    own = {"observed": "feature", "measurements": "id", "evidence": "id"}.get(sheet.name)
    return [*sheet.keys, own] if own else []
