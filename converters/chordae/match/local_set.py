"""The words of a collection as a mapping set in SSSOM: what each was decided to mean, and what it does not mean.

::

    local:Spleen/polysplennia  skos:exactMatch  term:multiple_spleens  author A. Reader, date 2026-11-25
    local:Spleen/big%20spleen  skos:exactMatch  term:multiple_spleens  predicate_modifier Not

A word that makes several statements at once is not the same as any of them: its rows are ``skos:relatedMatch``.
Source: SSSOM (https://mapping-commons.github.io/sssom/).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from urllib.parse import quote

from chordae.identifiers import prefixes
from chordae.intake.crosswalk_rules import normalised
from chordae.intake.targets import Target, find_target
from chordae.match.decisions import MATCHES, Decision, in_force
from chordae.match.places import term_of
from chordae.rdf.emit import DEFAULT_BASE
from chordae.resources import VERSION
from chordae.sssom import MappingSet, Row
from chordae.terms import vocabulary

__all__ = ["FILE", "local_set"]

FILE = "local.sssom.tsv"

_PREDICATES = {
    "exact": "skos:exactMatch",
    "close": "skos:closeMatch",
    "broad": "skos:broadMatch",
    "narrow": "skos:narrowMatch",
}
_ORCID = re.compile(r"(?:https?://orcid\.org/|orcid:)?(\d{4}-\d{4}-\d{4}-\d{3}[\dX])")


def local_set(decisions: Sequence[Decision], base: str | None = None) -> MappingSet:
    """Write the decisions in force as mappings.

    Parameters
    ----------
    decisions
        All decisions, oldest first.
    base
        Base IRI of the collection's records; its words get ``<base>word/<column>/<word>``.

    Returns
    -------
    MappingSet
        One row for each decision that names a term of the vocabulary or of an outside ontology; numbers, questions
        and words that say nothing have no row.
    """
    now = in_force(decisions)
    accepted = [one for one in now if one.decision in MATCHES]
    statements = Counter((one.column, normalised(one.word)) for one in accepted if one.part or one.state)
    rows = []
    for one in now:
        term = _term(one)
        if term is None or one.decision in ("ask", "says nothing"):
            continue
        several = statements[one.column, normalised(one.word)] > 1 and bool(one.part or one.state)
        rows.append(_row(one, term, several))
    used = {row["object_id"].partition(":")[0] for row in rows}
    home = base or DEFAULT_BASE
    header = {
        "sssom_version": "1.1",
        "mapping_set_id": f"{home}mappings/local",
        "mapping_set_title": "Words of a collection and the terms that they were decided to mean",
        "license": "https://creativecommons.org/licenses/by/4.0/",
        "mapping_tool": "chordae match",
        "mapping_tool_version": VERSION,
        "curie_map": {
            **{one: prefixes()[one] for one in sorted({*used, "skos", "semapv", "term"}) if one in prefixes()},
            "local": f"{home}word/",
            "orcid": "https://orcid.org/",
        },
    }
    return MappingSet(FILE, header, tuple(rows))


def _term(one: Decision) -> tuple[str, str] | None:
    """Return the identifier and the label of what a decision is about."""
    if one.target and one.target not in vocabulary():
        return one.target, one.label
    place = find_target(one.part, one.property) if one.part else None
    slug = one.target or term_of(place if isinstance(place, Target) else None, one.value, one.state)
    found = vocabulary().get(slug) if slug else None
    return (f"term:{found.slug}", found.european) if found else None


def _row(one: Decision, term: tuple[str, str], several: bool) -> Row:
    identifier, label = term
    orcid = _ORCID.fullmatch(one.author)
    predicate = _PREDICATES[MATCHES.get(one.decision, "exact")]
    comment = one.note
    if several:
        predicate = "skos:relatedMatch"
        comment = "; ".join(filter(None, ("one of several statements that the word makes", one.note)))
    cells = {
        "subject_id": f"local:{quote(one.column or '*', safe='')}/{quote(one.word, safe='')}",
        "subject_label": one.word,
        "predicate_id": predicate,
        "predicate_modifier": "Not" if one.decision == "not this" else "",
        "object_id": identifier,
        "object_label": label,
        "mapping_justification": "semapv:ManualMappingCuration",
        "author_id": f"orcid:{orcid[1]}" if orcid else "",
        "author_label": "" if orcid else one.author,
        "mapping_date": one.decided_on,
        "other": f"column={one.column}" if one.column else "",
        "comment": comment,
    }
    return Row({name: text for name, text in cells.items() if text})
