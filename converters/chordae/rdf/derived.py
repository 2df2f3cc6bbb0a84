"""What ``derive`` returns, and the same as a node of the schema (class DerivedConclusions): one to the other.

::

    {"notation", "arrangement", "topology", "av_connection", "va_connection",
     "statement": {"european", "north_american"},        statement_european, statement_north_american
     "identities": [{"part", "identity", "basis", "confidence"}],                          identities
     "diagnoses": [{"term", "label", "codes", "premises"}],         derived_diagnoses: term, premises
     "undetermined": [{"what", "why"}]}                                                  undetermined

``label`` and ``codes`` are left out: they belong to the vocabulary and to the mapping sets.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from chordae.model import class_slots, enum_of

__all__ = ["as_node"]

_SCHOOLS = ("european", "north_american")
_INNER = {
    "identities": "DerivedIdentity",
    "derived_diagnoses": "DerivedDiagnosis",
    "undetermined": "Undetermined",
}


def as_node(derived: Mapping[str, Any]) -> dict[str, Any]:
    """Return derived statements as the schema has them; a mapping that has this form already stays as it is.

    A conclusion that could not be drawn (``None``, ``undetermined``) and has no word in the schema is left out:
    ``undetermined`` says so, with the reason. A conclusion that was only expected from other conclusions (origin
    ``inferred``) is left out as well: in a graph it could not be told from one that rests on something seen.
    So is one that only repeats what the observer stated: it stands under ``stated``. One that was read out of the
    observer's notation is kept, since the reading is ours.

    Examples
    --------
    >>> as_node({"record": "7", "topology": "right_hand", "va_connection": None,
    ...          "statement": {"european": "Usual arrangement."}, "diagnoses": [{"term": "x", "label": "X"}]})
    {'topology': 'right_hand', 'statement_european': 'Usual arrangement.', 'derived_diagnoses': [{'term': 'x'}]}
    """
    found = {**derived, "derived_diagnoses": derived.get("derived_diagnoses") or derived.get("diagnoses")}
    for school in _SCHOOLS:
        if (words := (derived.get("statement") or {}).get(school)) is not None:
            found[f"statement_{school}"] = words
    left_out = {
        key for key, origin in (derived.get("origins") or {}).items() if origin == "inferred" or _repeats(key, derived)
    }
    node: dict[str, Any] = {}
    for key in class_slots("DerivedConclusions"):
        value = found.get(key)
        words_of = enum_of(key)
        if value is None or value == [] or key in left_out or (words_of is not None and value not in words_of):
            continue
        node[key] = [_part_of(one, _INNER[key]) for one in value] if key in _INNER else value
    return node


def _repeats(key: str, derived: Mapping[str, Any]) -> bool:
    if (derived.get("origins") or {}).get(key) != "stated":
        return False
    premises = (derived.get("premises") or {}).get(key) or ()
    return bool(premises) and not any(str(one).startswith("stated.notation") for one in premises)


def _part_of(one: Mapping[str, Any], class_name: str) -> dict[str, Any]:
    return {key: one[key] for key in class_slots(class_name) if one.get(key) not in (None, [])}
