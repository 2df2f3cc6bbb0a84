"""From a sentence in one school's words back to the facts, and into the other school's words, by the same phrases.

::

    "This heart has usual atrial arrangement, concordant atrioventricular connections, ..."
        |  read_statement: longest phrases first, each place once
        v
    Statement(said {"atrial_arrangement": "usual", ...}, parts [holes], inferred {"topology"}, unread "")
        |  rewrite
        v
    {"european": "This heart has ...", "north_american": "{S,D,S}: this heart has ..."}, lost ["..."]

Only what stands in a phrase is read: words between phrases are given back as ``unread``, so that nothing is lost
without a word. The notation before a sentence of the North American school is read as notation.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from chordae import notation
from chordae.derive.heart import Heart, words
from chordae.derive.sentence import MAIN, Phrase, clauses, main_phrases, say
from chordae.knowledge import table
from chordae.model import tables
from chordae.terms import School, vocabulary

__all__ = ["Rewritten", "Statement", "read_statement", "rewrite"]

_FACTS = (*MAIN, "aorta_relation", "isomerism")
_FEATURES = {"location": "interatrial_location", "borders": "stated_border_category"}


@dataclass(frozen=True, slots=True)
class Statement:
    """What a sentence says.

    ``said`` are facts by name; ``parts`` are the holes it lists, as parts of a record; ``inferred`` names conclusions
    that it marks so; ``notation`` is the set before the sentence; ``unread`` are words that stand in no phrase;
    ``named`` are terms of malformations that the observer named.
    """

    said: Mapping[str, Any]
    parts: tuple[Mapping[str, Any], ...]
    inferred: frozenset[str]
    notation: notation.Notation | None
    unread: str
    named: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Rewritten:
    """A statement in the words of both schools, and what of it was lost, in words."""

    sentences: Mapping[str, str]
    lost: tuple[str, ...]


def read_statement(text: str, school: School) -> Statement:
    """Read a sentence that was written with the phrases of one school.

    Parameters
    ----------
    text
        The sentence.
    school
        ``european`` or ``north_american``.
    """
    said: dict[str, Any] = {}
    inferred: set[str] = set()
    for other, house in table("phrases")["spellings"]:
        text = text.replace(other, house)
    written, rest = _notation(text)
    named, rest = _named(rest, school)
    parts, rest = _lists(rest, school)
    mark = table("phrases")["inferred"].strip()
    for pattern, place, phrase in _phrases(school):
        match = pattern.search(rest)
        if match is None or (place and place in said):
            continue
        means = _means(phrase)
        if any(said.get(fact) not in (None, value) and not _several(fact) for fact, value in means.items()):
            continue  # contradicts what was read; it stays among the words that are not read
        for fact, value in means.items():
            said[fact] = _both(said.get(fact), value)
        if place:
            said.setdefault(place, None)
            if rest[match.end() :].lstrip().startswith(mark):
                inferred.add(place)
        rest = f"{rest[: match.start()]}\n{rest[match.end() :]}"
    known = {name: value for name, value in said.items() if value is not None}
    return Statement(known, tuple(parts), frozenset(inferred), written, _left(rest.replace(mark, "\n")), named)


def rewrite(text: str, school: School) -> Rewritten:
    """Write a statement of one school in the words of both.

    Parameters
    ----------
    text
        The sentence.
    school
        The school whose words it uses.
    """
    read = read_statement(text, school)
    heart = Heart({"id": "statement", "parts": [dict(part) for part in read.parts]})
    extra = {part["id"]: {"borders": part.get("stated_border_category")} for part in read.parts}
    for name, value in read.said.items():
        heart.tell(name, value)
    known = {name: heart[name] for name in _FACTS}
    if read.notation is not None and read.notation.arrangement == "A":
        known["letter_1"] = "A"
    segments = notation.from_conclusions(known)
    heart["named"] = read.named
    sentences = say(heart, notation.format(segments.notation), read.inferred, extra)
    lost = [f'not read: "{read.unread}"'] if read.unread else []
    again = read_statement(sentences[school], school).said
    lost += [f"{words(name)} = {words(str(one))}" for name, one in read.said.items() if again.get(name) != one]
    return Rewritten(sentences, tuple(lost))


@cache
def _phrases(school: str) -> tuple[tuple[re.Pattern[str], str, Phrase], ...]:
    found = [(phrase.words[school], name, phrase) for name in MAIN for phrase in main_phrases(name)]
    found += [(phrase.words[school], "", phrase) for phrase in clauses() if not phrase.lists]
    longest = sorted((one for one in found if one[0]), key=lambda one: (-len(one[0]), one[0]))
    return tuple((re.compile(rf"(?<![\w-]){re.escape(words)}(?![\w-])"), name, one) for words, name, one in longest)


def _means(phrase: Phrase) -> dict[str, Any]:
    """Return the facts of a phrase that name one value; a choice between values says none."""
    return {name: next(iter(values)) for name, operator, values in phrase.when if operator == "is" and len(values) == 1}


@cache
def _several(fact: str) -> bool:
    """Say whether a fact may have several values at once, as the levels at which a tract is narrowed."""
    slot = tables().slots.get(fact.rpartition(".")[2])
    return slot is not None and slot.multivalued


def _both(before: Any, value: Any) -> Any:
    """Return a value, or a set where another one was said before, as of a tract that is narrowed at two levels."""
    if before is None or before == value:
        return value
    return (before if isinstance(before, frozenset) else frozenset((before,))) | {value}


def _named(text: str, school: School) -> tuple[tuple[str, ...], str]:
    """Return the terms that the observer named, and the rest; a label that is no term stays in the rest."""
    head = re.escape(table("phrases")["named"][school].partition("{")[0])
    match = re.search(head + r'((?:"[^"]{1,200}"(?:, | and )?)+)', text)
    if match is None:
        return (), text
    labels = re.findall(r'"([^"]+)"', match[1])
    terms = _labels(school)
    unknown = "\n".join(f'"{one}"' for one in labels if one not in terms)
    return tuple(
        terms[one] for one in labels if one in terms
    ), f"{text[: match.start()]}\n{unknown}\n{text[match.end() :]}"


@cache
def _labels(school: School) -> dict[str, str]:
    """Return the label of each malformation in the words of one school, with its term."""
    return {one.label(school): one.slug for one in vocabulary() if one.slug in _malformations()}


@cache
def _malformations() -> frozenset[str]:
    """Return the terms that an observer may name as diagnoses: malformations and connections."""
    kinds = {vocabulary()[row["term"]].kind for row in table("diagnoses")["diagnoses"]}
    return frozenset(one.slug for one in vocabulary() if one.kind in kinds)


def _notation(text: str) -> tuple[notation.Notation | None, str]:
    head, colon, rest = text.partition(":")
    found = notation.read(head) if colon and head.rstrip().endswith("}") else None
    return (found, rest) if found else (None, text)


def _lists(text: str, school: str) -> tuple[list[dict[str, Any]], str]:
    parts: list[dict[str, Any]] = []
    for name, data in table("phrases")["lists"].items():
        pattern, values = _items(name, school)
        stem = "interventricular_communication" if name == "holes" else "interatrial_communication"
        for number, match in enumerate(list(pattern.finditer(text))):
            found = {
                _FEATURES.get(slot, slot): values[slot][words] for slot, words in match.groupdict().items() if words
            }
            parts.append({"id": f"{stem}_{number + 1}" if number else stem, "type": data["type"], **found})
        text = pattern.sub("\n", text)
        for form in (data["one"], data["many"]):
            for piece in form[school].split("{items}"):
                if len(piece.strip()) > 1:
                    text = re.sub(rf"{re.escape(piece.strip())}(?=\s*\n)|(?<=\n){re.escape(piece)}", "\n", text)
    return parts, text


@cache
def _items(name: str, school: str) -> tuple[re.Pattern[str], dict[str, dict[str, str]]]:
    """Return the pattern of one item of a list, and for each slot its words with their values."""
    data = table("phrases")["lists"][name]
    values = {slot: {words[school]: value for value, words in given.items()} for slot, given in data["slots"].items()}
    text = (
        re.escape(data["item"][school]).replace(r"\{a\}", "an?").replace(r"\{noun\}", re.escape(data["noun"][school]))
    )
    for slot, known in values.items():
        longest = "|".join(re.escape(one) for one in sorted(known, key=len, reverse=True))
        needed = "" if data["noun"][school] else "{1}"
        text = text.replace(rf"\{{{slot}\}}", f"(?P<{slot}>{longest}){needed or '?'}")
    return re.compile(rf"(?<![\w-]){text}(?![\w-])"), values


def _left(text: str) -> str:
    plain = {"and", "This heart has", "this heart has", "there is", "there are"}
    pieces = (re.sub(r"^and\b|\band$", "", piece.strip(" ,;.:")).strip(" ,;") for piece in text.split("\n"))
    return " ".join(piece for piece in pieces if piece and piece not in plain)
