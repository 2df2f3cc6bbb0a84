"""A seeded generator of records of hearts that make sense anatomically; all of them invented.

::

    python tests/generate_records.py 1000 --seed 7 --faults 0.1 > hearts.ndjson

Each heart is drawn as a plan (arrangement, topology, connections, trunks, holes), and every part is then described as
that plan demands, with the gaps of real catalogues: some features not recorded, not assessable or not examined. One
record makes about 250 triples, and 100 more with what is derived from it. With ``faults`` a share of the records gets
one fault of ``tests/data/planted.yaml``; the rule that it breaks is returned beside the record. No rule speaks of a
record without a planted fault.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
from collections.abc import Iterator
from typing import Any

from chordae.canonical import canonical
from chordae.record import Record, ensure_part
from planting import faults as planted_faults
from planting import kinds, write

__all__ = ["FAULTS", "KINDS", "each_fault", "make_record", "make_records"]

KINDS: dict[str, dict[str, str]] = {
    "normal": {},
    "mirror_imaged": {"arrangement": "mirror_image", "topology": "left_hand", "relation": "mirror_normal"},
    "transposition": {"va": "discordant", "relation": "anterior_right", "hole": "open"},
    "corrected_transposition": {
        "topology": "left_hand",
        "av": "discordant",
        "va": "discordant",
        "relation": "anterior_left",
    },
    "tetralogy": {"hole": "subaortic", "override": "30", "septum": "anterior"},
    "double_outlet": {"va": "double_outlet_rv", "relation": "right_side_by_side", "hole": "subaortic"},
    "ventricular_septal_defect": {"hole": "open"},
    "atrial_septal_defect": {"atrial": "oval_fossa"},
    "coarctation": {"arch": "coarctation"},
    "left_isomerism": {"arrangement": "left_isomerism", "av": "mixed", "veins": "interrupted"},
    "right_isomerism": {"arrangement": "right_isomerism", "av": "mixed", "veins": "anomalous", "atrial": "oval_fossa"},
    **{name: dict(kind.plan) for name, kind in kinds().items()},
}
"""Kind of heart -> what differs from the usual plan."""

FAULTS = tuple(planted_faults())
"""The rules that a fault can be planted for."""
_WEIGHTS = {"neonate": (12, 30), "infant": (25, 90), "child": (60, 200), "adult": (220, 420)}

_RIGHT = {"usual": "rl", "mirror_image": "lr", "right_isomerism": "rr", "left_isomerism": "ll"}
_ATRIUM = {
    "r": {
        "appendage_shape": "triangular",
        "appendage_junction": "broad",
        "terminal_crest": "present",
        "pectinate_extent": "to_crux",
        "appendage_morphology": "morphologically_right",
    },
    "l": {
        "appendage_shape": "tubular",
        "appendage_junction": "narrow",
        "terminal_crest": "absent",
        "pectinate_extent": "confined_to_appendage",
        "appendage_morphology": "morphologically_left",
    },
}
_VENTRICLE = {
    "morphologically_right_ventricle": {
        "apical_trabeculation": "coarse",
        "septomarginal_trabeculation": "present",
        "moderator_band": "present",
        "septal_surface": "coarse",
        "septal_valve_attachments": "present",
    },
    "morphologically_left_ventricle": {
        "apical_trabeculation": "fine",
        "septomarginal_trabeculation": "absent",
        "septal_surface": "smooth",
        "septal_valve_attachments": "absent",
    },
}
_COMPLETE = {"completeness": "complete", "inlet_component": "present", "apical_component": "present"}
_VALVES = {
    "tricuspid": {
        "leaflet_count": 3,
        "septal_leaflet": "normal",
        "anterosuperior_leaflet": "normal",
        "inferior_leaflet": "normal",
        "septal_chordal_attachment": "present",
        "papillary_muscles": "multiple_small",
    },
    "mitral": {
        "leaflet_count": 2,
        "aortic_leaflet": "normal",
        "mural_leaflet": "normal",
        "septal_chordal_attachment": "absent",
        "papillary_muscles": "paired",
    },
}
_SIDES = ("right_sided", "left_sided")
_GAPS = ("not_assessable", "not_examined", None)


def make_records(n: int, seed: int = 0, faults: float = 0.0) -> Iterator[tuple[Record, list[str]]]:
    """Yield ``n`` records, each with the ids of the rules that its planted fault breaks (mostly none)."""
    for number in range(n):
        yield make_record(number, seed, faults)


def make_record(number: int, seed: int = 0, faults: float = 0.0) -> tuple[Record, list[str]]:
    """Return one record; the same number and seed give the same record."""
    fate = random.Random(f"{seed}/{number}/fault")
    rule = fate.choice(FAULTS) if fate.random() < faults else None
    return _heart(number, seed, fate, rule)


def each_fault(seed: int = 0) -> Iterator[tuple[Record, str]]:
    """Yield a record for every fault that can be planted, with the id of the rule that it breaks."""
    for number, rule in enumerate(FAULTS):
        record, _ = _heart(number, seed, random.Random(f"{seed}/{rule}"), rule)
        yield record, rule


def _heart(number: int, seed: int, fate: random.Random, rule: str | None) -> tuple[Record, list[str]]:
    rng = random.Random(f"{seed}/{number}")
    fault = planted_faults()[rule] if rule is not None else None
    kind = rng.choice(list(KINDS))
    if fault is not None and fault.of:
        kind = fate.choice(fault.of)
    plan = {
        "arrangement": "usual",
        "topology": "right_hand",
        "av": "concordant",
        "va": "concordant",
        "relation": "normal",
    }
    plan |= KINDS[kind]
    if "isomerism" in plan["arrangement"]:
        plan["topology"] = rng.choice(["right_hand", "left_hand"])
    record = _frame(number, plan, rng)
    for build in (_atria, _ventricles, _valves, _trunks, _septum, _around):
        build(record, plan, rng)
    if kind in kinds():
        write(record, kinds()[kind].set)
    if fault is None:
        _gaps(record, rng)
    else:
        write(record, fault.set)
    return canonical(record), [fault.rule] if fault is not None else []


def _frame(number: int, plan: dict[str, str], rng: random.Random) -> Record:
    age = rng.choice(list(_WEIGHTS))
    return {
        "id": f"INV-{number:06d}",
        "vocabulary_version": "0.1.0",
        "specimen": {
            "accession": f"{number:05d}",
            "material": rng.choice(["isolated_heart", "heart_lung_block"]),
            "fixation": "formalin_fixed",
            "preparation": ["opened_along_flow"],
            "age_group": age,
            "consent": rng.choice(["post_mortem_consent", "historic"]),
        },
        "description": {
            "observer": rng.choice(["Reader A", "Reader B"]),
            "described_on": f"20{rng.randint(10, 26)}-0{rng.randint(1, 9)}",
            "school": rng.choice(["european", "north_american"]),
            "examination": ["naked_eye", "probe"],
        },
        "parts": [],
        "stated": {
            "atrial_arrangement": plan["arrangement"],
            "topology": plan["topology"],
            "av_connection": plan["av"],
            "va_connection": plan["va"],
        },
        "measurements": [
            {
                "id": "weight",
                "quantity": "weight",
                "value": rng.randint(*_WEIGHTS[age]) + 0.5,
                "unit": "g",
                "method": "balance",
                "site": "whole heart",
                "material_state": "formalin_fixed",
            }
        ],
        "evidence": [
            {
                "id": "plate_1",
                "evidence_kind": "photograph",
                "source_file": f"plate_{number}.jpg",
                "shows": [{"part": "aortic_arch"}],
            }
        ],
    }


def _put(record: Record, part_id: str, **values: Any) -> dict[str, Any]:
    part = ensure_part(record, part_id)
    part.update(values)
    return part


def _own(atrium: str) -> str:
    return "morphologically_right_ventricle" if atrium == "r" else "morphologically_left_ventricle"


def _joins(plan: dict[str, str]) -> dict[str, str]:
    """Side of the junction -> identity of the ventricle it opens into."""
    letters = _RIGHT[plan["arrangement"]]
    if plan["av"] == "mixed":
        first = "r" if plan["topology"] == "right_hand" else "l"
        return {"right_sided": _own(first), "left_sided": _own("l" if first == "r" else "r")}
    swap = plan["av"] == "discordant"
    return {side: _own("lr"["rl".index(one)] if swap else one) for side, one in zip(_SIDES, letters, strict=True)}


def _atria(record: Record, plan: dict[str, str], rng: random.Random) -> None:
    for side, letter in zip(_SIDES, _RIGHT[plan["arrangement"]], strict=True):
        observed = [{"feature": "pectinate_extent", "certainty": "certain", "evidence_refs": ["plate_1"]}]
        _put(record, f"{side}_atrium", **_ATRIUM[letter], observed=observed)
    location = plan.get("atrial")
    _put(record, "atrial_septum", septal_integrity="deficient" if location else "intact")
    if location:
        _put(record, "interatrial_communication", interatrial_location=location, patency="open")


def _ventricles(record: Record, plan: dict[str, str], rng: random.Random) -> None:
    for side, identity in _joins(plan).items():
        size = {"ventricle_size": rng.choice(["normal", "normal", "dilated"])}
        values = {**_VENTRICLE[identity], **_COMPLETE, **size, "outlet_component": "present"}
        _put(record, f"{side}_ventricle", stated_ventricular_identity=identity, **values)
        opens = [{"ventricle": f"{side}_ventricle", "per_cent": 100}]
        _put(record, f"{side}_junction", atrium=f"{side}_atrium", opens_into=opens)
    _put(record, "atrioventricular_junctions", junction_pattern="separate", valvar_orifices="two_valves")


def _valves(record: Record, plan: dict[str, str], rng: random.Random) -> None:
    for side, identity in _joins(plan).items():
        kind = "tricuspid" if identity == "morphologically_right_ventricle" else "mitral"
        values = {**_VALVES[kind], "stated_valve_type": kind, "valve_patency": "patent", "straddling": "absent"}
        _put(record, f"{side}_atrioventricular_valve", junction=f"{side}_junction", **values)


def _trunks(record: Record, plan: dict[str, str], rng: random.Random) -> None:
    side_of = {identity: side for side, identity in _joins(plan).items()}
    right, left = (f"{side_of[_own(letter)]}_ventricle" for letter in "rl")
    homes = {"discordant": (right, left), "double_outlet_rv": (right, right)}.get(plan["va"], (left, right))
    for name, home, gives in zip(("aorta", "pulmonary_trunk"), homes, ("present", "absent"), strict=True):
        share = int(plan.get("override", "0")) if name == "aorta" else 0
        arises = [{"ventricle": home, "per_cent": 100 - share}]
        if share:
            arises.append({"ventricle": right, "per_cent": share})
        branches = {"gives_coronary_arteries": gives, "gives_arch_branches": gives}
        lungs = "absent" if gives == "present" else "present"
        _put(record, name, arises_from=arises, gives_pulmonary_arteries=lungs, trunk_calibre="normal", **branches)
        _put(record, f"{name.removesuffix('_trunk').replace('aorta', 'aortic')}_valve", leaflet_count=3, sinus_count=3)
    course = "spiral" if "normal" in plan["relation"] else "parallel"
    _put(record, "great_arteries", aorta_relation=plan["relation"], trunk_course=course)
    _put(record, "outflow_tracts", infundibulum="subpulmonary_only", outlet_septum="muscular")
    if "septum" in plan:
        _put(record, "outflow_tracts", outlet_septum_deviation=plan["septum"])


def _septum(record: Record, plan: dict[str, str], rng: random.Random) -> None:
    hole = plan.get("hole")
    _put(record, "ventricular_septum", septal_integrity="deficient" if hole else "intact", septal_alignment="aligned")
    if hole:
        category = rng.choice(["perimembranous", "muscular"])
        rim = "fibrous" if category == "perimembranous" else "muscular"
        values = {"posteroinferior_rim": rim, "roof_rim": "muscular", "geography": "outlet", "patency": "open"}
        if hole != "open":
            values["commitment"] = hole
        if plan.get("septum") == "anterior":
            values["malalignment"] = "anterior_outlet"
        if plan["va"] == "double_outlet_rv":
            values["plane_of_closure"] = "baffle_plane"
        _put(record, "interventricular_communication", stated_border_category=category, **values)


def _around(record: Record, plan: dict[str, str], rng: random.Random) -> None:
    mirrored = plan["arrangement"] == "mirror_image"
    side = "right" if mirrored else "left"
    _put(record, "heart_position", cardiac_position=f"{side}_sided", apex=side, arrangement_source="autopsy_report")
    branches = ["right_brachiocephalic", "left_common_carotid", "left_subclavian"]
    if mirrored:
        branches = ["left_brachiocephalic", "right_common_carotid", "right_subclavian"]
    narrow = "present" if plan.get("arch") == "coarctation" else "absent"
    seen = [{"feature": "bronchus_crossed", "evidence_refs": ["plate_1"]}]
    sides = {"bronchus_crossed": side, "stated_arch_side": side, "observed": seen}
    _put(record, "aortic_arch", **sides, arch_branches=branches, coarctation=narrow)
    _put(record, "arterial_duct", duct_patency=rng.choice(["ligament", "patent", "closed"]), duct_side=f"{side}_sided")
    origins = {"right_coronary_origin": "sinus_2", "left_coronary_origin": "sinus_1"}
    _put(record, "coronary_arteries", viewing_convention="surgical", orifice_level="in_sinus", **origins)
    caval = "interrupted" if plan.get("veins") == "interrupted" else "continuous"
    sinus = "absent" if plan["arrangement"] == "right_isomerism" else "present"
    _put(record, "systemic_veins", inferior_caval_vein=caval, coronary_sinus=sinus, right_superior_caval_vein="present")
    joined = "anomalous_with_isomerism" if plan.get("veins") == "anomalous" else "normal"
    _put(record, "pulmonary_veins", pulmonary_vein_count=4, pulmonary_venous_connection=joined)


def _gaps(record: Record, rng: random.Random) -> None:
    """Make holes as in real catalogues: a feature that was not recorded, or whose state alone is known."""
    for part in record["parts"]:
        for name in ("terminal_crest", "moderator_band", "sinus_count", "inferior_leaflet", "septal_alignment"):
            if name in part and rng.random() < 0.2:
                gap = rng.choice(_GAPS)
                if gap is None or name == "sinus_count":
                    del part[name]
                else:
                    part[name] = gap


def main() -> None:
    """Write records as NDJSON to standard output."""
    parser = argparse.ArgumentParser(description="Write invented records as NDJSON.")
    parser.add_argument("n", type=int)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--faults", type=float, default=0.0, help="share of records with a planted contradiction")
    args = parser.parse_args()
    for record, _ in make_records(args.n, args.seed, args.faults):
        sys.stdout.write(json.dumps(record, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    main()
