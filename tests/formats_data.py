"""Records that every format is tried with, and how a test writes and reads one in a format."""

from __future__ import annotations

import copy
from functools import cache
from pathlib import Path
from typing import Any

from tests.generate_records import make_records

from chordae.canonical import canonical
from chordae.compare.reconcile import reconcile
from chordae.compare.settled import Settled
from chordae.formats.losses import Carried
from chordae.formats.opening import open_bytes
from chordae.formats.packing import pack
from chordae.formats.settings import Settings
from chordae.formats.table import FORMATS, Format
from chordae.intake.document import read_document
from chordae.issues import Issue
from chordae.record import Record

__all__ = [
    "BASE",
    "RECORDS",
    "STATES_RECORD",
    "WHEN",
    "example_records",
    "reconciled",
    "record_formats",
    "there_and_back",
    "written",
]

BASE = "https://example.org/invented/"
WHEN = "2026-01-31T12:00:00Z"
EXAMPLES = Path(__file__).parents[1] / "examples" / "valid"

STATES_RECORD: Record = {
    "id": "states",
    "parts": [
        {"id": "systemic_veins", "type": "SystemicVeins", "coronary_sinus": "absent"},
        {"id": "right_sided_atrium", "type": "Atrium", "terminal_crest": "not_assessable", "side": "not_examined"},
        {
            "id": "right_sided_ventricle",
            "type": "Ventricle",
            "apical_trabeculation": "coarse",
            "septomarginal_trabeculation": "absent",
            "moderator_band": "not_assessable",
            "septal_surface": "not_examined",
            "observed": [{"feature": "apical_trabeculation", "certainty": "probable"}],
        },
        {"id": "arterial_duct", "type": "ArterialDuct", "state": "absent"},
        {
            "id": "pulmonary_valve",
            "type": "ArterialValve",
            "commissure_count": 3,
            "observed": [{"feature": "leaflet_count", "state": "not_assessable", "state_reason": "transected"}],
        },
        {"id": "coronary_arteries", "type": "CoronaryArteries", "state": "not_assessable", "state_reason": "damaged"},
        {"id": "aortic_arch", "type": "AorticArch", "state": "not_examined", "coarctation": "absent"},
    ],
}
"""All four states, as values, as states of a whole part, and under ``observed``. Invented."""


def record_formats() -> list[Format]:
    """Every format that holds records."""
    return [one for one in FORMATS.values() if one.holds == "records"]


@cache
def example_records() -> tuple[Record, ...]:
    """The examples, some generated hearts, the record of states, and one made of two others, in canonical order."""
    found = [reading.record for path in sorted(EXAMPLES.glob("*.yaml")) for reading in read_document(path)[0]]
    found += [record for record, _ in make_records(12, seed=11)]
    return tuple(canonical(one) for one in (*found, STATES_RECORD, reconciled()))


def reconciled() -> Record:
    """The record of states and a second reading of it, put together: origins, a decision and an open question."""
    second: Record = copy.deepcopy(STATES_RECORD) | {"id": "second"}
    ventricle = second["parts"][2]
    ventricle |= {"moderator_band": "present", "septomarginal_trabeculation": "present", "apical_trabeculation": "fine"}
    decided = Settled(
        "states", "right_sided_ventricle", "apical_trabeculation", "a", None, "seen by light", "A. Reader (invented)"
    )
    third, _ = reconcile(STATES_RECORD, second, [decided], (BASE, BASE), "2026-01-31")
    assert {*third["reconciliation"]} >= {"derived_from", "settled_by", "settled_on", "origins", "open_questions"}
    return third


RECORDS = {str(one["id"]): one for one in example_records()}


def written(format: Format, records: list[Record], **options: Any) -> tuple[bytes, dict[str, Carried]]:
    """Write records: the bytes, as a zip for a format of several files, and what was carried of each."""
    carried: dict[str, Carried] = {}
    settings = Settings(format=format.name, base=BASE, recorded=WHEN, **options).noting(
        lambda record, found: carried.update({record["id"]: found})
    )
    module = format.load()
    items = ((record, None) for record in records)
    if format.several:
        return pack(module.write_files(items, settings)), carried
    return b"".join(module.write(items, settings)), carried


def there_and_back(format: Format, records: list[Record]) -> tuple[dict[str, Record], list[Issue], dict[str, Carried]]:
    """Write records and read them again."""
    data, carried = written(format, records)
    readings, issues = open_bytes(data, f"hearts.{format.name}", format)
    return {str(one.record["id"]): canonical(one.record) for one in readings}, issues, carried
