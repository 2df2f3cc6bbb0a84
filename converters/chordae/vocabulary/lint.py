"""Faults of one mapping set, row by row: the set in, issues out; nothing is changed.

=========  ==========================================================================================
I-MAP-01   a slot that a set must have is missing (id, title, licence, prefixes)
I-MAP-04   a prefix that the header, or our own table of prefixes, does not declare
I-MAP-05   not a kind of match
I-MAP-06   a cell that is not of its form: date, justification, modifier, confidence
I-MAP-07   one pair of terms twice
I-MAP-08   no reason given for a match that is not exact, or for a search in vain
I-MAP-09   no counterpart, and a counterpart, in one source
I-MAP-10   a label that is missing
I-MAP-11   a term of ours that is not in the vocabulary
=========  ==========================================================================================

The allowed prefixes are a list on purpose: identifiers of vocabularies that may not be passed on cannot slip in.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Container, Iterator

from chordae.identifiers import prefixes
from chordae.issues import Issue, Location, issue, sort_issues
from chordae.mapping import PREDICATES
from chordae.sssom import NO_TERM, MappingSet, Row

__all__ = ["lint_mappings"]

_NEEDED = ("mapping_set_id", "mapping_set_title", "license", "curie_map")
_JUSTIFICATION = re.compile(r"semapv:[A-Za-z]+")
_IDS = ("subject_id", "predicate_id", "object_id", "mapping_justification")


def lint_mappings(mappings: MappingSet, terms: Container[str] | None = None) -> list[Issue]:
    """Return every fault of a set, sorted.

    Parameters
    ----------
    mappings
        The set, as :func:`chordae.sssom.read_mappings` returns it.
    terms
        The slugs of our vocabulary; subjects ``term:...`` must be among them. Not looked at if not given.
    """
    found = [
        issue("I-MAP-01", location=Location(mappings.name, 1), problem=f"the header does not give {slot}")
        for slot in _NEEDED
        if not mappings.header.get(slot)
    ]
    pairs: dict[tuple[str, str], Row] = {}
    sources = _sources_with_terms(mappings)
    for row in mappings.rows:
        where = Location(mappings.name, row.line)
        found += _identifiers(mappings, row, where)
        found += _forms(row, where)
        found += _words(row, where)
        subject = row["subject_id"]
        if terms is not None and subject.startswith("term:") and subject.removeprefix("term:") not in terms:
            found.append(issue("I-MAP-11", location=where, value=subject))
        if row.no_term:
            source = mappings.value(row, "object_source")
            if (subject, source) in sources:
                other = sources[(subject, source)]
                found.append(issue("I-MAP-09", location=where, subject=subject, source=source, object=other))
            continue
        pair = (subject, row["object_id"])
        if pair in pairs:
            first = pairs[pair]
            said = first["predicate_id"]
            found.append(
                issue("I-MAP-07", location=where, subject=pair[0], object=pair[1], first=first.line, predicate=said)
            )
        pairs.setdefault(pair, row)
    return sort_issues(found)


def _sources_with_terms(mappings: MappingSet) -> dict[tuple[str, str], str]:
    return {
        (row["subject_id"], mappings.value(row, "object_source")): row["object_id"]
        for row in mappings.rows
        if row.positive
    }


def _identifiers(mappings: MappingSet, row: Row, where: Location) -> Iterator[Issue]:
    declared, allowed = mappings.prefixes, prefixes()
    for column in _IDS:
        if column == "mapping_justification" and not _JUSTIFICATION.fullmatch(row[column]):
            continue  # told as a cell that is not of its form
        prefix = row[column].partition(":")[0]
        if prefix not in declared:
            yield issue("I-MAP-04", location=where, value=row[column], where="the header")
        elif declared[prefix] != allowed.get(prefix):
            yield issue("I-MAP-04", location=where, value=row[column], where="mappings/prefixes.tsv")
    if row["predicate_id"] not in PREDICATES:
        yield issue("I-MAP-05", location=where, value=row["predicate_id"])


def _forms(row: Row, where: Location) -> Iterator[Issue]:
    if not _JUSTIFICATION.fullmatch(row["mapping_justification"]):
        yield _form(row, "mapping_justification", "a justification such as semapv:ManualMappingCuration", where)
    if row["predicate_modifier"] not in ("", "Not"):
        yield _form(row, "predicate_modifier", "Not, or nothing,", where)
    for column in ("mapping_date", "review_date", "publication_date"):
        if row[column] and not _is_date(row[column]):
            yield _form(row, column, "a date such as 2026-11-25", where)
    if row["confidence"] and not _is_share(row["confidence"]):
        yield _form(row, "confidence", "a number from 0 to 1", where)


def _words(row: Row, where: Location) -> Iterator[Issue]:
    if not row["subject_label"]:
        yield issue("I-MAP-10", location=where, column="subject_label", value=row["subject_id"])
    if not row["object_label"] and not row.no_term:
        yield issue("I-MAP-10", location=where, column="object_label", value=row["object_id"])
    plain = row.positive and row["predicate_id"] == "skos:exactMatch"
    known = row["predicate_id"] in PREDICATES
    if known and not plain and not row["comment"]:
        ours, match, outside = row["subject_id"], row["predicate_id"], row["object_id"]
        yield issue("I-MAP-08", location=where, subject=ours, predicate=match, object=outside)
    if known and not row.positive and row["predicate_id"] not in ("skos:exactMatch", "skos:closeMatch"):
        kind = "the search for a term" if NO_TERM in row["object_id"] else "a row with Not"
        yield _form(row, "predicate_id", f"skos:exactMatch or skos:closeMatch, for {kind},", where)


def _form(row: Row, column: str, expected: str, where: Location) -> Issue:
    return issue("I-MAP-06", location=where, column=column, value=row[column], expected=expected)


def _is_date(text: str) -> bool:
    try:
        return datetime.date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _is_share(text: str) -> bool:
    try:
        return 0 <= float(text) <= 1
    except ValueError:
        return False
