"""From the words of one fact of the short form to what they set: tolerant in spelling, strict in meaning.

::

    ivc_commitment: remote          {interventricular_communication.commitment: non_committed}    another spelling
    ventricular_relation: LV superior, RV inferior
                                    {ventricular_mass.right_ventricle_vertical: inferior}         free words
    atrial_arrangement: ambiguus    nothing: a question, because it can mean more than one thing

Which words are known is data: the words of the slot itself, ``schema/short_form.yaml``, and the labels and synonyms
of the vocabulary.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any, Literal

from chordae import resources
from chordae.friends import ask
from chordae.model import Slot, tables
from chordae.shortplain import NUMBERS, per_cent, plain_value, plain_word
from chordae.wordlist import look_up

__all__ = [
    "Understood",
    "is_empty",
    "read_share",
    "read_term",
    "read_words",
    "short_form",
    "target_slot",
]

_DATA = "_generated/short_form.json"
_PRESENCE = "PresenceEnum"
_BRACKETS = re.compile(r"([^()]+)\([^()]*\)")
_TERM = "https://w3id.org/chordae/term/"


@dataclass(frozen=True, slots=True)
class Understood:
    """What was made of some words.

    ``how`` is *exact* (a word of the slot, or of the contract), *spelling* (another spelling of one), *phrase* (found
    in free words), *question* (can mean more than one thing: ``question`` says which), *kept* (known words without a
    place), or *unknown*. ``settings`` maps ``part.slot`` to a value; ``{"state": ...}`` is a state alone.
    """

    how: Literal["exact", "spelling", "phrase", "question", "kept", "unknown"]
    settings: Mapping[str, Any] = field(default_factory=dict)
    question: str = ""


@cache
def short_form() -> Mapping[str, Any]:
    """Return the data of ``schema/short_form.yaml``."""
    found: Mapping[str, Any] = json.loads(resources.read_text(_DATA))
    return found


def target_slot(target: str) -> Slot | None:
    """Return the slot at the end of ``part.slot``."""
    return tables().slots.get(target.rpartition(".")[2]) if "." in target else None


def read_words(value: Any, spec: Mapping[str, Any]) -> Understood:
    """Read one value of a fact.

    Parameters
    ----------
    value
        Text, a number or true/false.
    spec
        The key's row of the short form; at least ``to`` or ``words``.
    """
    to: str = spec.get("to", "")
    slot = target_slot(to)
    word = plain_word(value)
    if slot is not None and slot.kind == "term":
        return read_term(value, spec, to)
    if slot is not None and slot.kind != "enum" and word not in (*spec.get("words", ()), *spec.get("questions", ())):
        return _read_other(value, to, slot)
    values = slot.values if slot else {}
    if isinstance(value, str) and value in values:
        return Understood("exact", {to: value})
    if word in spec.get("plain", ()):
        return Understood("exact", spec["words"][word])
    if slot and slot.range == _PRESENCE and word in {*short_form()["affirm"], *short_form()["deny"]}:
        exact = isinstance(value, bool)
        return Understood(
            "exact" if exact else "spelling", {to: "present" if word in short_form()["affirm"] else "absent"}
        )
    if word in spec.get("questions", {}):
        return Understood("question", question=spec["questions"][word])
    by_word = {plain_word(one): one for one in values}
    if word in by_word or f"{word}_sided" in by_word:
        return Understood("spelling", {to: by_word.get(word) or by_word[f"{word}_sided"]})
    if word in spec.get("words", {}):
        return Understood("spelling", _settings(spec["words"][word], to))
    if word in spec.get("notes", ()):
        return Understood("kept")
    return (
        _by_term(word, to, values) or _by_phrase(value, spec, to) or _bracketed(value, spec) or _otherwise(word, spec)
    )


def read_share(share: Any, part: str, presence: str | None = None) -> Understood:
    """Read how much of a valve or trunk lies over the other ventricle, or whether a feature is there at all.

    Parameters
    ----------
    share
        Per cent from 0 to 100, or words for present and absent.
    part
        Id of the valve or trunk.
    presence
        The feature, if only its presence is asked; by default the share of ``overriding``.
    """
    number = None if presence else per_cent(share)
    if number is None:
        return read_words(share, {"to": f"{part}.{presence or 'overriding'}"})
    if not 0 <= number <= 100:
        return Understood("unknown")
    return Understood("exact" if number == share else "spelling", {f"{part}.override_per_cent": number})


def read_term(value: Any, spec: Mapping[str, Any], to: str) -> Understood:
    """Read a term by its slug, label, synonym or abbreviation; a false friend of the schools is asked about."""
    word = plain_word(value)
    found = spec.get("words", {}).get(word) or look_up(word)
    if value in found:
        return Understood("exact", {to: value})
    traps = [one for one in ask(str(value)) if not one.context]
    if traps:
        return Understood("question", question=traps[0].ask)
    if len(found) > 1:
        return Understood("question", question=f"which is meant: {', '.join(found)}?")
    return Understood("spelling", {to: found[0]}) if found else Understood("unknown")


def _read_other(value: Any, to: str, slot: Slot) -> Understood:
    found = plain_value(value, slot)
    if found is None:
        return Understood("unknown")
    return Understood("spelling" if slot.kind in NUMBERS and found != value else "exact", {to: found})


def _settings(found: Any, to: str) -> Mapping[str, Any]:
    return found if isinstance(found, Mapping) else {to: found}


def _by_term(word: str, to: str, values: Mapping[str, str]) -> Understood | None:
    """Words that the vocabulary knows for the term of exactly one value."""
    if not values or not word:
        return None
    by_iri = {iri: one for one, iri in values.items()}
    found = {by_iri[_TERM + slug] for slug in look_up(word) if _TERM + slug in by_iri}
    return Understood("spelling", {to: found.pop()}) if len(found) == 1 else None


def _by_phrase(value: Any, spec: Mapping[str, Any], to: str) -> Understood | None:
    if not isinstance(value, str):
        return None
    words = " ".join(value.casefold().replace("_", " ").split())
    for long, short in spec.get("expand", {}).items():
        words = re.sub(long, short, words)
    found: dict[str, Any] = {}
    for row in spec.get("phrases", ()):
        if re.search(row["match"], words):
            for target, one in _settings(row["set"], to).items():
                slot = target_slot(target)
                if slot is not None and slot.multivalued:
                    found.setdefault(target, []).append(one)
                elif found.setdefault(target, one) != one:
                    return Understood("question", question=f"is {found[target]} meant, or {one}?")
    return _unless_doubted(words, found) if found else None


def _unless_doubted(words: str, found: Mapping[str, Any]) -> Understood:
    """Free words that deny, doubt or choose are not read, whatever else stands in them."""
    if re.search(short_form()["doubt"], words):
        return Understood("question", question="the words deny, doubt or choose; what is meant?")
    return Understood("phrase", found)


def _bracketed(value: Any, spec: Mapping[str, Any]) -> Understood | None:
    """A value that is known, followed by words in brackets."""
    found = _BRACKETS.fullmatch(value.strip()) if isinstance(value, str) else None
    inner = read_words(found[1].strip(), spec) if found else None
    return _unless_doubted(str(value).casefold(), inner.settings) if inner is not None and inner.settings else None


def _otherwise(word: str, spec: Mapping[str, Any]) -> Understood:
    rest = spec.get("otherwise")
    if rest and word in rest["words"]:
        return Understood("phrase", rest["set"])
    if "question" in spec:
        return Understood("question", question=spec["question"])
    return Understood("unknown")


def is_empty(value: Any) -> bool:
    """Say whether a value says that nothing was recorded.

    Examples
    --------
    >>> [is_empty(one) for one in (None, "?", "not seen", 0, False, "absent")]
    [True, True, True, False, False, False]
    """
    if value is None or value == [] or value == {}:
        return True
    if not isinstance(value, str):
        return False
    empty = short_form()["not_recorded"]
    return value.strip().casefold() in empty or (plain_word(value) != "" and plain_word(value) in empty)
