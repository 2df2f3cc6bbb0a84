"""From the conclusions on a heart to one sentence in each school's words, by phrases in ``schema/phrases.yaml``.

::

    main clause   This heart has <arrangement>, <av connection>, <topology> and <va connection>
    clauses       ; <relation of the trunks>; <junctions>; <ventricles>; <holes>; <veins>; <arteries>; <position>
    named         ; the observer also names "<malformation>"

The main clause is always complete: what is not recorded, was not examined, cannot be judged or is not determined is
said to be so, each in its own words. A conclusion that is only inferred is marked. The order is that of the data file,
so that the same facts always give the same sentence. :mod:`chordae.derive.statement` reads the sentence back.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from chordae.conditions import SILENT, Condition, Facts, compile_when, verdict
from chordae.derive.diagnoses import label
from chordae.derive.heart import Heart
from chordae.derive.index import Entries, Index
from chordae.knowledge import table

__all__ = ["MAIN", "SCHOOLS", "Phrase", "clause_rules", "clauses", "main_phrases", "say"]

SCHOOLS = ("european", "north_american")
MAIN = ("atrial_arrangement", "av_connection", "topology", "va_connection")
"""Places of the main clause in the order of speaking."""

_FEATURES = {"location": "interatrial_location"}
"""Slot of a list to the feature that it names, where these differ."""


@dataclass(frozen=True, slots=True)
class Phrase:
    """One row of the data: conditions, words by school, or the name of a list."""

    when: tuple[Condition, ...]
    words: Mapping[str, str]
    data: Mapping[str, Any]
    lists: str = ""


def say(
    heart: Heart,
    notation: str,
    inferred: frozenset[str],
    extra: Mapping[str, Mapping[str, Any]],
    index: Index | None = None,
    gathered: Entries | None = None,
) -> dict[str, str]:
    """Say what a heart is.

    Parameters
    ----------
    heart
        The facts, with all conclusions put in; ``<name>_silence`` for a conclusion that has no value, ``named`` for the
        terms that the observer named and that do not follow.
    notation
        The segmental notation.
    inferred
        Names of conclusions that are only inferred.
    extra
        Derived features of single parts by their id, such as ``borders`` of a hole.
    index, gathered
        An index that holds the table *clauses*, and what it found in the parts of the heart; made here if not given.

    Returns
    -------
    dict
        ``european`` and ``north_american``, one sentence each.
    """
    phrases = table("phrases")
    said = _main_clause(tuple([heart[name] for name in _main_facts()]), inferred)
    extras: dict[str, list[str]] = {school: [] for school in SCHOOLS}
    index = index or _index()
    for phrase in index.holding("clauses", heart, index.gather(heart.roles) if gathered is None else gathered):
        if phrase.lists:
            _say_list(phrase.lists, heart, extra, extras)
        else:
            for school in SCHOOLS:
                extras[school].append(phrase.words[school])
    if named := heart["named"]:
        for school in SCHOOLS:
            labels = _join([f'"{label(term, school)}"' for term in named])
            extras[school].append(phrases["named"][school].format(items=labels))
    joint = phrases["semicolon"]
    return {
        school: phrases["frame"][school].format(
            notation=notation,
            main=said[school],
            clauses="".join(joint + text for text in extras[school]),
        )
        for school in SCHOOLS
    }


@lru_cache(maxsize=65536)
def _main_clause(values: tuple[Any, ...], inferred: frozenset[str]) -> Mapping[str, str]:
    """Join the main clause in each school's words, from the facts that its phrases ask for."""
    facts = Facts(zip(_main_facts(), values, strict=True))
    mark = table("phrases")["inferred"]
    chosen = [next(one for one in main_phrases(name) if verdict(one.when, facts)) for name in MAIN]
    marks = [mark if name in inferred else "" for name in MAIN]
    return {
        school: _join([one.words[school] + mark for one, mark in zip(chosen, marks, strict=True) if one.words[school]])
        for school in SCHOOLS
    }


@cache
def _main_facts() -> tuple[str, ...]:
    """Return the names of the facts that the phrases of the main clause ask for."""
    return tuple(dict.fromkeys(fact for name in MAIN for one in main_phrases(name) for fact, _, _ in one.when))


@cache
def clause_rules() -> tuple[tuple[tuple[Condition, ...], Phrase], ...]:
    """Return the rows of the clauses, each with its conditions."""
    return tuple((one.when, one) for one in clauses())


@cache
def _index() -> Index:
    return Index({"clauses": clause_rules()})


@cache
def main_phrases(name: str) -> tuple[Phrase, ...]:
    """Return the rows of one place of the main clause."""
    return tuple(_phrase(row) for row in table("phrases")["main"][name])


@cache
def clauses() -> tuple[Phrase, ...]:
    """Return the rows of the clauses, in order."""
    return tuple(_phrase(row) for row in table("phrases")["clauses"])


def _phrase(row: Mapping[str, Any]) -> Phrase:
    if "list" in row:
        return Phrase((), {}, row, row["list"])
    return Phrase(compile_when(row["when"]), {school: row[school] for school in SCHOOLS}, row)


def _say_list(name: str, heart: Heart, extra: Mapping[str, Mapping[str, Any]], said: Mapping[str, list[str]]) -> None:
    data = table("phrases")["lists"][name]
    parts = heart.of_type(data["type"])
    if not parts:
        return
    features = _features(name)
    given = [
        tuple([more.get(one, part.get(one)) for one in features])
        for part in parts
        for more in (extra.get(part.get("id", ""), {}),)
    ]
    for school in SCHOOLS:
        items = [item for values in given if (item := _item(name, values, school))]
        if items:
            form = data["one" if len(items) == 1 else "many"][school]
            said[school].append(form.format(items=_join(items)))


@cache
def _features(name: str) -> tuple[str, ...]:
    """Return the features that the slots of a list ask for."""
    return tuple(_FEATURES.get(slot, slot) for slot in table("phrases")["lists"][name]["slots"])


@lru_cache(maxsize=4096)
def _item(name: str, values: tuple[Any, ...], school: str) -> str:
    """Say one item of a list, from the values of its features; empty where nothing can be said of it."""
    data = table("phrases")["lists"][name]
    slots = {}
    for (slot, words), value in zip(data["slots"].items(), values, strict=True):
        slots[slot] = words[value][school] if value not in SILENT and value in words else ""
    text: str = data["item"][school].format(a="{a}", noun=data["noun"][school], **slots)
    rest = text.removeprefix("{a} ")
    if not rest.strip():
        return ""
    return ("an " if rest[0] in "aeiou" else "a ") + rest


def _join(items: list[str]) -> str:
    phrases = table("phrases")
    if len(items) <= 1:
        return "".join(items)
    head: str = phrases["comma"].join(items[:-1])
    return f"{head}{phrases['and']}{items[-1]}"
