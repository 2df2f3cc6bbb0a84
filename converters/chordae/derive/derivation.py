"""One record through every step, and the JSON object that comes out.

::

    {"record", "notation", "arrangement", "topology", "av_connection", "va_connection",
     "statement": {"european", "north_american"},
     "identities": [{"part", "identity", "basis", "confidence", ...}],
     "diagnoses": [{"term", "label", "codes", "premises"}],
     "undetermined": [{"what", "why"}],
     "origins": {"arrangement": "evidence|stated|inferred", ...}, "premises": {...}, "topology_expected", ...}

Decisions:

* A conclusion is what features and shares give, else what was stated, else what other conclusions let expect; its
  origin stands under ``origins``, so that a stated value is never mistaken for a derived one.
* Stated notation counts as stated conclusions where the observer stated nothing else: its letters and prefix are read,
  its third letter never as a connection. A label such as D-transposition is read as the place of the aortic valve only.
* Topology cannot be seen in features. It is stated, or expected from arrangement and connection; a stated topology that
  differs from the expected one stands, and is named a disharmony.
* The connection of the atria is expected from letters 1 and 2 only where nothing at all was recorded of the junctions.
* A solitary ventricle has no topology.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from chordae import notation
from chordae.derive import agreement, arteries, combinations, diagnoses, septum
from chordae.derive.atrial import arrangement_from_atria
from chordae.derive.codes import codes_of
from chordae.derive.conclusion import OUT, Conclusion, Found
from chordae.derive.criteria import Identity
from chordae.derive.heart import Heart
from chordae.derive.identities import Identities
from chordae.derive.index import Index
from chordae.derive.junctions import Junctions
from chordae.derive.outlets import Outlets
from chordae.derive.said import NAMES, Said
from chordae.derive.sentence import clause_rules, say
from chordae.derive.tables import decide, look_up
from chordae.derive.undetermined import undetermined
from chordae.knowledge import table
from chordae.record import Record

__all__ = ["derive"]


def derive(record: Record) -> dict[str, Any]:
    """Derive what follows from one record.

    Parameters
    ----------
    record
        A full record (short forms are expanded before). It is not changed.

    Returns
    -------
    dict
        The JSON object described above; plain data only. The same record always gives the same object.
    """
    heart = Heart(record)
    identities = Identities(heart)
    said = Said(heart)
    steps = _conclude(heart, identities, said)
    heart.gather()
    holes, arch, coronary = _describe(heart, identities)
    extra = {hole["part"]: hole for hole in holes}
    index = _index()
    gathered = index.gather(heart.roles)
    found = diagnoses.diagnose(heart, extra, index, gathered)
    segments = notation.from_conclusions(
        {**{name: one.value for name, one in steps.items()}, "aorta_relation": heart["aorta_relation"],
         "trunk_course": heart["great_arteries.trunk_course"], "isomerism": heart["isomerism"],
         "letter_1": said.letter_1, "phenotype": said.phenotype}
    )  # fmt: skip
    heart["named"] = diagnoses.named_only(heart.stated.get("diagnoses"), found, said.named.values())
    own = {term for name, term in said.named.items() if steps[name].origin == "stated"}
    written, text = segments.notation, notation.format(segments.notation)
    inferred = frozenset(name for name, one in steps.items() if one.origin == "inferred")
    out: dict[str, Any] = {"record": record.get("id"), "notation": text}
    out.update({OUT.get(name, name): steps[name].value for name in NAMES})
    out["statement"] = say(heart, text, inferred, extra, index, gathered)
    out["identities"] = [_identity(one) for one in identities.values()]
    out["diagnoses"] = [
        {
            "term": one.term,
            "label": diagnoses.label(one.term),
            "codes": codes_of(one.term),
            "premises": list(one.premises),
        }
        for one in found
    ]
    out["undetermined"] = undetermined(steps, identities, written, heart)
    out["origins"] = {OUT.get(name, name): one.origin for name, one in steps.items() if one.origin}
    out["premises"] = {OUT.get(name, name): list(one.premises) for name, one in steps.items() if one.premises}
    out["topology_expected"] = steps["topology"].expected
    out["av_connection_expected"] = steps["av_connection"].expected
    out["aorta_relation"] = heart["aorta_relation"]
    if heart["aorta_relation"]:
        out["origins"]["aorta_relation"] = said.relation_origin
    out["arch_side"], out["arch"] = (arch or {}).get("side"), arch or {}
    out["septal_defects"] = holes
    out["commitment"] = _commitment(holes)
    out["coronary"] = coronary
    out["shared_by_halves"] = [name for one in steps.values() for name in one.found.halves]
    out["notation_lost"] = [{"what": one.what, "why": one.why} for one in segments.lost]
    out["notation_inferred"] = [{"what": one.what, "why": one.why} for one in segments.inferred]
    out["stated_against_derived"] = [
        *agreement.compare_conclusions(steps.values(), heart.stated),
        *agreement.compare_identities(identities.values()),
        *agreement.compare_diagnoses(heart.stated.get("diagnoses"), found, heart, extra, own),
        *arteries.compare_arteries(heart, arch, coronary),
        *said.compare_notation(written),
    ]
    out["combinations"] = combinations.judge(heart, index, gathered)
    return out


@cache
def _index() -> Index:
    """Return the rules on a heart as a whole, of all tables."""
    return Index(
        {
            "diagnoses": diagnoses.whole_rules(),
            "clauses": clause_rules(),
            "combinations": combinations.rules(),
        }
    )


def _conclude(heart: Heart, identities: Identities, said: Said) -> dict[str, Conclusion]:
    identities.find_chambers()
    identities.find_trunks()
    steps: dict[str, Conclusion] = {}

    def settle(name: str, found: Found, expected: tuple[str, tuple[str, ...]] | None = None) -> None:
        one = Conclusion.resolve(name, found, said.values[name], said.by.get(name, ""), expected)
        steps[name] = one
        heart[name] = one.value
        if one.origin:
            heart.origins[name] = one.origin
        if one.value is None:
            heart[f"{name}_silence"] = _silence(heart, one)

    settle("atrial_arrangement", arrangement_from_atria(heart, identities))
    heart["atrial_arrangement_firm"] = steps["atrial_arrangement"].origin == "evidence"
    heart["topology"] = said.values["topology"]
    junctions = Junctions(heart, identities, said.values["av_connection"])
    settle("av_connection", junctions.found, _expect("av_expected", heart))
    settle("topology", Found(why=_no_topology(heart)), _expect("topology_expected", heart))
    identities.find_valves(junctions.opens_into)
    outlets = Outlets(heart, identities, said.values["va_connection"])
    settle("va_connection", outlets.found)
    heart["outlet_from"] = outlets.outlet_from(steps["va_connection"].value)
    if look_up("solitary", heart):
        heart["solitary_ventricle"] = True
    for name, share in (("aortic_override", "aorta_from"), ("pulmonary_override", "pulmonary_from")):
        part = heart.roles.get("aorta" if share == "aorta_from" else "pulmonary_trunk", {})
        heart[name] = part.get("override_per_cent")
    return steps


def _expect(name: str, heart: Heart) -> tuple[str, tuple[str, ...]] | None:
    row, _ = decide(name, heart)
    if row is None:
        return None
    known = {fact for fact, _, _ in row.when}
    reasons = tuple(f"{fact} = {heart[fact]}" for fact in NAMES if fact in known)
    return row.value, reasons


def _no_topology(heart: Heart) -> str:
    solitary = heart["solitary_ventricle"] or heart["av_connection"] == "double_inlet_solitary"
    reasons = table("phrases")["reasons"]
    return str(reasons["no_topology" if solitary else "topology_not_seen"])


def _silence(heart: Heart, one: Conclusion) -> str:
    """Say why there is no value: as stated, or as all parts that it rests on are, or because they do not tell."""
    stated = heart.stated.get(one.name)
    if stated in ("not_assessable", "not_examined"):
        return str(stated)
    parts = [part for kind in table("phrases")["rests_on"].get(one.name, ()) for part in heart.of_type(kind)]
    states = {part.get("state") for part in parts}
    if len(states) == 1 and (state := states.pop()) in ("not_assessable", "not_examined"):
        return str(state)
    return "undetermined" if one.found.touched else "not_recorded"


def _describe(
    heart: Heart, identities: Identities
) -> tuple[list[dict[str, Any]], dict[str, Any] | None, dict[str, Any] | None]:
    identities.find_holes()
    identities.find_arch()
    row, _ = decide("hole_context", heart)
    if row is not None:
        heart["hole_context"] = row.value
        heart.stands_for["hole_context"] = row.when[0][0] if row.when else ""
    holes = septum.describe_holes(heart, identities)
    if holes:
        heart["holes"] = len(holes)
    return holes, arteries.describe_arch(heart, identities), arteries.describe_coronaries(heart)


def _identity(one: Identity) -> dict[str, Any]:
    found: dict[str, Any] = {
        "part": one.part,
        "identity": one.term,
        "basis": list(one.basis),
        "confidence": one.confidence,
    }
    for name, values in (("against", one.against), ("not_seen", one.unseen), ("would_change", one.would)):
        if values and (one.looked_at or not one.stated):
            found[name] = list(values)
    if one.stated:
        found["stated"] = one.stated
    return found


def _commitment(holes: list[dict[str, Any]]) -> dict[str, Any] | None:
    for hole in holes:
        if "commitment" in hole:
            return {name: hole[name] for name in ("part", "commitment", "plane_of_closure") if name in hole}
    return None
