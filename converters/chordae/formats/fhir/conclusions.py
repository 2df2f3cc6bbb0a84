"""From what was measured and concluded to FHIR observations; stated and derived conclusions are apart by category.

::

    measurements  quantity: length, 12 mm      Observation, category measured, valueQuantity
    stated        topology: right_handed       Observation, category stated, code of the term, valueBoolean true
    derived       topology: right_handed       Observation, category derived, with the method

Source: HL7 FHIR R4 (4.0.1).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from chordae.formats.fhir.observations import Scene
from chordae.formats.fhir.pieces import (
    Resource,
    concept,
    extension,
    feature,
    node_extension,
    places,
    quantity,
    term_coding,
    value_coding,
)
from chordae.model import tables
from chordae.record import Record, pointer
from chordae.resources import VERSION

__all__ = ["concluded", "measurements", "stated"]


def measurements(record: Record, scene: Scene) -> Iterator[Resource]:
    """Yield an observation for each measurement of a record."""
    for at, one in enumerate(record.get("measurements") or ()):
        iri = f"{scene.iri}/measurement/{one['id']}"
        focus = f"{scene.iri}/part/{one['part']}" if "part" in one else None
        code = concept([value_coding("quantity", one["quantity"]), feature("quantity")])
        made = scene.observation(iri, code, "measured", focus)
        made["valueQuantity"] = quantity(one["value"], one.get("unit"))
        made["extension"] = [
            extension(key, value)
            for key, value in one.items()
            if key not in ("part", "quantity", "value", "unit", "note")
        ]
        if "note" in one:
            made["note"] = [{"text": one["note"]}]
        scene.carried |= dict.fromkeys(places(one, pointer("measurements", at)), "coded")
        yield made


def stated(record: Record, scene: Scene) -> Iterator[Resource]:
    """Yield an observation for each conclusion that the observer stated."""
    found: Mapping[str, Any] = record.get("stated") or {}
    for key, value in found.items():
        for at, one in enumerate(value if isinstance(value, list) else [value]):
            where = f"/stated/{key}" + (f"/{at}" if isinstance(value, list) else "")
            iri = scene.iri + where
            if isinstance(one, Mapping):
                made = scene.observation(iri, concept([feature(key)]), "stated", None)
                made["extension"] = [node_extension(key, one)]
                made["valueString"] = str(one.get("inference_note") or one.get("conclusion"))
                scene.carried |= dict.fromkeys(places(one, where), "coded")
            else:
                made = scene.observation(iri, _conclusion(key, one), "stated", None) | _conclusion_value(key, one)
                scene.carried[where] = "coded"
            yield made


def concluded(derived: Mapping[str, Any], scene: Scene) -> Iterator[Resource]:
    """Yield an observation for each conclusion that was derived from the features."""
    named = {"atrial_arrangement": derived.get("arrangement")} | {
        key: derived.get(key) for key in ("topology", "av_connection", "va_connection", "notation")
    }
    method = {"text": f"Derived from the recorded features by chordae {VERSION}; see the notes for the premises."}
    for key, value in named.items():
        if value:
            iri = f"{scene.iri}/derived/{key}"
            yield (
                scene.observation(iri, _conclusion(key, value), "derived", None)
                | _conclusion_value(key, value)
                | {"method": method}
            )
    for one in derived.get("diagnoses") or ():
        made = scene.observation(
            f"{scene.iri}/derived/diagnosis/{one['term']}", concept([term_coding(one["term"])]), "derived", None
        )
        made |= {"valueBoolean": True, "method": method}
        if one.get("premises"):
            made["note"] = [{"text": "; ".join(str(premise) for premise in one["premises"])}]
        yield made


def _conclusion(key: str, value: Any) -> Resource:
    slot = tables().slots[key]
    if slot.kind == "enum":
        return concept([value_coding(key, value), feature(key)])
    return concept([term_coding(value), feature(key)] if slot.kind == "term" else [feature(key)])


def _conclusion_value(key: str, value: Any) -> Resource:
    return {"valueBoolean": True} if tables().slots[key].kind in ("enum", "term") else {"valueString": str(value)}
