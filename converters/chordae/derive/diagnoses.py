"""From the facts of a heart to the malformations of the vocabulary, most specific first, each with its premises.

::

    schema/diagnoses.yaml   {term: transposition, when: {av_connection: concordant, va_connection: discordant, ...}}
    facts                   av_connection = concordant, va_connection = discordant, atrial_arrangement = usual
        |
        v
    {"term": "transposition", "label": "transposition", "codes": [...], "premises": ["av_connection = concordant", ...]}

A general term stays beside a specific one (double outlet, and double outlet with a subaortic hole), because both are
true; two malformations of different kinds may both be true as well (double outlet by connection, tetralogy by
phenotype). Specific comes first: a term deeper in the vocabulary, then more premises, then the order of the file.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import product
from operator import itemgetter
from typing import Any, NamedTuple, TypeAlias

from chordae.conditions import Condition, Facts, compile_when, verdict
from chordae.derive.heart import Heart, words
from chordae.derive.index import Entries, Index
from chordae.knowledge import table
from chordae.terms import School, vocabulary

__all__ = [
    "CONCLUDED",
    "Diagnosis",
    "ancestors",
    "defined_by",
    "diagnose",
    "excluded_by",
    "label",
    "named_only",
    "whole_rules",
]

_PLACE = itemgetter(0)

CONCLUDED = ("atrial_arrangement", "topology", "av_connection", "va_connection")
"""Conclusions that a malformation may hold by definition."""


class Diagnosis(NamedTuple):
    """One malformation with the facts it follows from; ``part`` only where one part alone gives it."""

    term: str
    premises: tuple[str, ...]
    part: str | None = None


_Found: TypeAlias = tuple[int, int, int, Diagnosis]
"""Sorts the most specific first: with more broader terms, then more premises, then in the order of the data."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One compiled row; ``of`` is a type of part or empty."""

    term: str
    when: tuple[Condition, ...]
    of: str
    where: tuple[Condition, ...]
    gives: str | None
    place: int


def diagnose(
    heart: Heart, extra: Mapping[str, Mapping[str, Any]], index: Index | None = None, gathered: Entries | None = None
) -> list[Diagnosis]:
    """Find every malformation that follows from the facts.

    Parameters
    ----------
    heart
        The facts, with all conclusions put in. Facts that a rule *gives* are put in here.
    extra
        Derived features of single parts by their id, such as ``borders`` of a hole.
    index, gathered
        An index that holds the table *diagnoses*, and what it found in the parts of the heart; made here if not given.
    """
    index = index or _index()
    found: dict[str, _Found] = {}
    for rule in index.holding("diagnoses", heart, index.gather(heart.roles) if gathered is None else gathered):
        if rule.term not in found:
            _take(found, rule, Diagnosis(rule.term, _premises(rule.when, heart)), heart)
    of_parts = _of_parts()
    for kind in _types():
        for part in heart.of_type(kind):
            identifier = part.get("id", "")
            features = {**part, **extra[identifier]} if identifier in extra else part
            entries = of_parts.plain(kind, features)
            if not entries:
                continue
            facts = Facts(features)
            for _, when, rule in sorted(entries, key=_PLACE):
                if when and verdict(when, facts) is not True:
                    continue
                if rule.term in found or verdict(rule.when, heart) is not True:
                    continue
                inner = (f"{identifier}.{name} = {facts[name]}" for name, _, _ in rule.where)
                _take(found, rule, Diagnosis(rule.term, (*_premises(rule.when, heart), *inner), identifier), heart)
    return [diagnosis for _, _, _, diagnosis in sorted(found.values())]


@cache
def label(term: str, school: School = "european") -> str:
    """Return the label of a term in the words of one school; the slug as words if the vocabulary has none."""
    found = vocabulary().get(term)
    return found.label(school) if found else words(term)


@cache
def ancestors(term: str) -> frozenset[str]:
    """Return every broader term of a term; none for a word that is no term."""
    return vocabulary().ancestors(term) if term in vocabulary() else frozenset()


def named_only(stated: Any, found: Iterable[Diagnosis], used: Iterable[str]) -> tuple[str, ...]:
    """Return the terms that the observer named and that are neither found, nor wider than one found, nor used."""
    known = {*used, *(one.term for one in found)}
    known |= {wider for one in found for wider in ancestors(one.term)}
    listed = [one for one in stated if isinstance(one, str)] if isinstance(stated, list) else []
    return tuple(one for one in dict.fromkeys(listed) if one in vocabulary() and one not in known)


def defined_by(term: str, known: Mapping[str, str]) -> dict[str, str]:
    """Return what a malformation says of the conclusions by definition: what all of its rows ask for.

    Parameters
    ----------
    term
        A term of the vocabulary.
    known
        Conclusions that are known otherwise; where they exclude the term, it says nothing.
    """
    meanings: list[dict[str, str]] = []
    for rule in _rules_of(term):
        asked = [(name, values) for name, operator, values in rule.when if operator == "is" and name in CONCLUDED]
        if any(name in known and known[name] not in values for name, values in asked):
            return {}
        meanings.append({name: str(next(iter(values))) for name, values in asked if len(values) == 1})
    return dict(set.intersection(*(set(one.items()) for one in meanings))) if meanings else {}


def excluded_by(term: str, heart: Heart, extra: Mapping[str, Mapping[str, Any]]) -> tuple[str | None, list[str]]:
    """Say what speaks against a term that did not follow, and which facts are missing for it.

    Returns
    -------
    tuple
        A recorded fact that excludes every rule of the term, or ``None``; and the names of facts that are not known.
        Both are empty where the vocabulary has no rule for the term.
    """
    against: list[str] = []
    missing: list[str] = []
    open_rule = False
    for rule in _rules_of(term):
        answers = list(_answers(rule, heart, extra))
        if any(answer is None for answer, _, _ in answers):
            open_rule = True
        for answer, conditions, facts in answers:
            for name, operator, operand in conditions:
                one = verdict([(name, operator, operand)], facts)
                if one is False and answer is False:
                    against.append(facts.fact(name) if isinstance(facts, Heart) else f"{name} = {facts[name]}")
                elif one is None and answer is None:
                    missing.append(name)
    if open_rule:
        return None, sorted(set(missing))
    return (against[0] if against else None), []


def _answers(
    rule: Rule, heart: Heart, extra: Mapping[str, Mapping[str, Any]]
) -> Iterator[tuple[bool | None, tuple[Condition, ...], Facts]]:
    whole = verdict(rule.when, heart)
    if not rule.of or whole is False:
        yield whole, rule.when, heart
        return
    parts = heart.of_type(rule.of)
    if not parts:
        yield None, ((f"{rule.of}", "recorded", True),), Facts()
    for part in parts:
        facts = Facts(part, **extra.get(part.get("id", ""), {}))
        yield verdict(rule.where, facts), rule.where, facts


def _take(found: dict[str, _Found], rule: Rule, diagnosis: Diagnosis, heart: Heart) -> None:
    found[rule.term] = (-len(ancestors(rule.term)), -len(diagnosis.premises), rule.place, diagnosis)
    if rule.gives:
        heart[rule.gives] = True


def _premises(when: tuple[Condition, ...], heart: Heart) -> tuple[str, ...]:
    return tuple([text for text in dict.fromkeys([heart.fact(name) for name, _, _ in when]) if text])


@cache
def _rules() -> tuple[Rule, ...]:
    found = []
    for place, row in enumerate(table("diagnoses")["diagnoses"]):
        for alternatives in product(*row.get("either", ())):
            when = dict(row.get("when", {}))
            conditions = compile_when(when)
            for one in alternatives:
                conditions += compile_when(one)
            where = compile_when(row.get("where", {}))
            found.append(Rule(row["term"], conditions, row.get("of", ""), where, row.get("gives"), place))
    return tuple(found)


@cache
def whole_rules() -> tuple[tuple[tuple[Condition, ...], Rule], ...]:
    """Return the rules on the heart as a whole, each with its conditions."""
    return tuple((rule.when, rule) for rule in _rules() if not rule.of)


@cache
def _index() -> Index:
    return Index({"diagnoses": whole_rules()})


@cache
def _types() -> tuple[str, ...]:
    """Return the types of part that have rules of their own."""
    return tuple(dict.fromkeys(rule.of for rule in _rules() if rule.of))


@cache
def _of_parts() -> Index:
    """Return the rules on single parts, a table for each type of part."""
    return Index({kind: [(rule.where, rule) for rule in _rules() if rule.of == kind] for kind in _types()})


@cache
def _rules_of(term: str) -> tuple[Rule, ...]:
    return tuple(rule for rule in _rules() if rule.term == term)
