"""From the names of the model to words for a reader: values, terms, parts, features, rules.

Words come from the schema and the vocabulary; a name that neither knows is shown as it is, with spaces.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Any

from chordae import issues, model, resources
from chordae.terms import vocabulary

__all__ = [
    "CONCLUSIONS",
    "basis_words",
    "caution",
    "code_words",
    "derived_key",
    "derived_value",
    "feature_words",
    "part_words",
    "rule_words",
    "sentence",
    "subject_words",
    "term_words",
    "texts",
    "value_words",
]

CONCLUSIONS: Mapping[str, str] = {
    "atrial_arrangement": "atrial arrangement",
    "topology": "ventricular topology",
    "av_connection": "atrioventricular connection",
    "va_connection": "ventriculoarterial connection",
}
"""Stated conclusions in the order of the analysis, with their words."""

_KEYS: Mapping[str, str] = {"atrial_arrangement": "arrangement"}
_GROUND = re.compile(r"(?:(\w+)\.)?(\w+) = (.+)")


def value_words(slot: str, value: object, school: str = "european") -> str:
    """Return the words of a school for the value of a slot.

    Examples
    --------
    >>> value_words("leaflet_count", 3)
    '3'
    """
    if isinstance(value, list):
        return ", ".join(value_words(slot, one, school) for one in value)
    iri = (model.enum_of(slot) or {}).get(value, "") if isinstance(value, str) else ""
    return term_words(iri.rpartition("/")[2], school) if iri else _spaced(value)


def term_words(slug: str, school: str = "european") -> str:
    """Return the label of a term of the vocabulary in the words of a school."""
    found = vocabulary().get(slug)
    return (
        _spaced(slug) if found is None else found.label("north_american" if school == "north_american" else "european")
    )


def part_words(part: str) -> str:
    """Return how a sentence names a part: by its conventional id, and by its number where there are several.

    Examples
    --------
    >>> part_words("aorta"), part_words("interventricular_communication_2")
    ('trunk called aorta', 'communication between the ventricles (2)')
    """
    found = model.conventional(part)
    if found is None:
        return _spaced(part)
    return found.say if part == found.id else f"{found.say} ({part[len(found.id) + 1 :]})"


def feature_words(slot: str) -> str:
    """Return the name of a slot with spaces."""
    return _spaced(slot)


def basis_words(ground: str) -> str:
    """Return a ground ``part.feature = value`` in words; any other text with spaces for its underscores.

    Examples
    --------
    >>> basis_words("left_sided_atrium.leaflet_count = 2")
    'left-sided atrium, leaflet count: 2'
    """
    found = _GROUND.fullmatch(ground)
    if found is None:
        return _spaced(ground)
    part, slot, value = found.groups()
    said = f"{feature_words(slot)}: {value_words(slot, value)}"
    return f"{part_words(part)}, {said}" if part else said


def subject_words(what: str) -> str:
    """Return the words for what could not be determined: a conclusion, the identity of a part, anything else.

    Examples
    --------
    >>> subject_words("av_connection"), subject_words("aorta.identity")
    ('atrioventricular connection', 'identity of the trunk called aorta')
    """
    for slot, words in CONCLUSIONS.items():
        if what in (slot, derived_key(slot)):
            return words
    part, dot, rest = what.rpartition(".")
    return f"{_spaced(rest)} of the {part_words(part)}" if dot else part_words(what)


def derived_key(slot: str) -> str:
    """Return the key of a derived object under which the conclusion of a slot stands."""
    return _KEYS.get(slot, slot)


def derived_value(derived: Mapping[str, Any], slot: str) -> tuple[str | None, str]:
    """Return what was derived for a slot, and its origin: ``evidence``, ``inferred``, or ``stated``.

    A value whose origin is ``stated`` is the observer's own, taken over because nothing else tells: no reader of a
    report may count it as derived.
    """
    key = derived_key(slot)
    value = derived.get(key)
    if not isinstance(value, str) or not value:
        return None, ""
    return value, str((derived.get("origins") or {}).get(key) or "evidence")


def sentence(words: str) -> str:
    """Return words with a capital letter at the beginning.

    Examples
    --------
    >>> sentence("aorta")
    'Aorta'
    """
    return words[:1].upper() + words[1:]


def rule_words(rule: str) -> str:
    """Return the short name of a rule of reading, of structure or of morphology; ``""`` if there is none."""
    if rule.startswith("R-"):
        from chordae.shapes.load import load_rules
        from chordae.shapes.set_rules import load_set_rules

        found = load_rules().rules.get(rule) or load_set_rules().get(rule)
        return found.label if found else ""
    known = issues.rules().get(rule)
    return known.label if known else ""


@cache
def texts() -> Mapping[str, Any]:
    """Return ``schema/report.yaml``: the caution and what each file of a deposit is."""
    import yaml

    loaded: Mapping[str, Any] = yaml.safe_load(resources.read_text("schema/report.yaml"))
    return loaded


def code_words(curie: str) -> str:
    """Return an outside code as its users write it.

    Examples
    --------
    >>> code_words("icd11.code:LA85.2"), code_words("HP:0001719")
    ('ICD-11 LA85.2', 'HP:0001719')
    """
    prefix, _, code = curie.partition(":")
    return f"{texts()['ontologies'][prefix]} {code}" if prefix in texts()["bare_codes"] else curie


def caution() -> str:
    """Return what every report and deposit says of its use."""
    return " ".join(texts()["caution"])


def _spaced(name: object) -> str:
    if isinstance(name, bool):
        return "yes" if name else "no"
    return str(name).replace("_", " ")
