"""All checks of the mapping sets together: rows, proof against the pinned releases, coherence. Issues come out.

::

    mappings/*.sssom.tsv ----------> lint, prove
    mappings/outside/*.tsv --------> prove, coherence
    schema/vocabulary -------------> coherence
    mappings/exceptions.tsv -------> contradictions that are known and stood by, each with its reason

Every contradiction becomes an issue; one that is recorded is only ``info`` and gives the reason. A ``*`` in
``exceptions.tsv`` stands for any one term or code.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from chordae import resources
from chordae.errors import VocabularyError
from chordae.issues import Issue, Location, Severity, issue, sort_issues
from chordae.mapping import codes_for, never_for
from chordae.sssom import MappingSet, read_mappings
from chordae.terms import Vocabulary, vocabulary
from chordae.vocabulary.coherence import KINDS, Contradiction, find_contradictions, links_of
from chordae.vocabulary.lint import lint_mappings
from chordae.vocabulary.outside import Release, pinned
from chordae.vocabulary.proof import prove

__all__ = ["Recorded", "audit", "check_coherence", "our_sets", "outside_pairs", "read_exceptions", "used_codes"]

EXCEPTIONS = "mappings/exceptions.tsv"
PAIRS = "mappings/outside/mondo_icd11.tsv"
SOURCES = ("UBERON", "HP", "MONDO", "PATO", "ICD10CM", "icd11.code", "RO", "BFO", "BSPO")
_RULES = dict(zip(KINDS, ("I-COH-01", "I-COH-02", "I-COH-03", "I-COH-04", "I-COH-05", "I-COH-06"), strict=True))


@dataclass(frozen=True, slots=True)
class Recorded:
    """One row of ``mappings/exceptions.tsv``; ``terms`` and ``codes`` may hold ``*``."""

    kind: str
    terms: tuple[str, ...]
    codes: tuple[str, ...]
    reason: str
    recorded_on: str
    line: int

    def fits(self, found: Contradiction) -> bool:
        """Whether this row is about a contradiction."""
        if self.kind != found.kind or len(self.terms) != len(found.terms) or len(self.codes) != len(found.codes):
            return False
        pairs = zip((*self.terms, *self.codes), (*found.terms, *found.codes), strict=True)
        return all(own in ("*", other) for own, other in pairs)


def audit(releases: Mapping[str, Release] | None = None) -> list[Issue]:
    """Check every set of ours.

    Parameters
    ----------
    releases
        Source to the release to check against; the pinned ones of ``mappings/outside`` if not given.

    Returns
    -------
    list of Issue
        Sorted; recorded exceptions are ``info``.
    """
    against = releases or {source: pinned(source) for source in SOURCES}
    known = vocabulary()
    found: list[Issue] = []
    for mappings, issues in our_sets():
        found += issues
        found += lint_mappings(mappings, known)
        for release in against.values():
            found += prove(mappings, release)
    return sort_issues([*found, *check_coherence(known, against)])


def check_coherence(known: Vocabulary, releases: Mapping[str, Release]) -> list[Issue]:
    """Return every contradiction between our hierarchy and the outside ones as an issue."""
    links = links_of((term.slug for term in known if not term.deprecated), codes_for)
    found = find_contradictions(links, known.ancestors, releases, outside_pairs(), known.above)
    recorded = read_exceptions()
    met = {row.line for row in recorded for one in found if row.fits(one)}
    issues = [_tell(one, known, releases, next((row for row in recorded if row.fits(one)), None)) for one in found]
    return issues + [
        issue(
            "I-COH-08",
            location=Location(EXCEPTIONS, row.line),
            kind=row.kind,
            terms=" < ".join(row.terms),
            codes=" < ".join(row.codes),
        )
        for row in recorded
        if row.line not in met
    ]


def our_sets() -> Iterator[tuple[MappingSet, list[Issue]]]:
    """Yield the sets between our terms and outside vocabularies, as read."""
    names = sorted(entry.name for entry in resources.find("mappings").iterdir())
    for name in names:
        if name.startswith("chordae-") and name.endswith(".sssom.tsv"):
            yield read_mappings(resources.read_bytes(f"mappings/{name}"), f"mappings/{name}")


def used_codes() -> dict[str, list[str]]:
    """Return every outside code that the sets name, with our terms that it was judged for and what it is to each."""
    found: dict[str, list[str]] = {}
    for term in vocabulary():
        for code in codes_for(term.slug):
            found.setdefault(code.curie, []).append(f"{term.european} ({'same' if code.same else code.predicate})")
        for code in never_for(term.slug):
            found.setdefault(code.curie, []).append(f"{term.european} (never)")
    return found


@cache
def outside_pairs() -> tuple[tuple[str, str], ...]:
    """Return pairs of outside terms that an outside source itself maps exactly: MONDO to the codes of ICD-11."""
    rows = _table(PAIRS, ("mondo", "mondo_label", "entity", "entity_title", "code"))
    return tuple((row["mondo"], code) for _, row in rows for code in row["code"].split("|") if code)


@cache
def read_exceptions() -> tuple[Recorded, ...]:
    """Read ``mappings/exceptions.tsv``.

    Raises
    ------
    VocabularyError
        A row names no known kind, or gives no reason.
    """
    found = []
    for line, row in _table(EXCEPTIONS, ("kind", "terms", "codes", "reason", "recorded_on")):
        if row["kind"] not in KINDS or not row["reason"]:
            raise VocabularyError(f"{EXCEPTIONS}:{line} has no known kind, or no reason.")
        found.append(
            Recorded(
                row["kind"],
                tuple(row["terms"].split()),
                tuple(row["codes"].split()),
                row["reason"],
                row["recorded_on"],
                line,
            )
        )
    return tuple(found)


def _tell(found: Contradiction, known: Vocabulary, releases: Mapping[str, Release], recorded: Recorded | None) -> Issue:
    labels = [known[slug].european for slug in found.terms]
    codes = [f"{code} ({_label(code, releases)})" for code in found.codes]
    source = found.codes[0].partition(":")[0]
    alone = found.kind == "ours_only" and found.terms[0] == found.terms[-1]
    told = issue(
        "I-COH-09" if alone else _RULES[found.kind],
        value=" ".join(found.codes),
        narrow=labels[0],
        wide=labels[-1],
        source=_dated(source, releases),
        inner=found.codes[0],
        inner_label=_label(found.codes[0], releases),
        outer=found.codes[-1],
        outer_label=_label(found.codes[-1], releases),
        terms=_listed(labels),
        codes=_listed(codes),
    )
    if recorded is None:
        return told
    level: Severity = "info"
    where = Location(EXCEPTIONS, recorded.line)
    return issue(
        "I-COH-07",
        location=where,
        severity=level,
        value=told.value,
        contradiction=told.message,
        date=recorded.recorded_on,
        reason=recorded.reason,
    )


def _label(code: str, releases: Mapping[str, Release]) -> str:
    release = releases.get(code.partition(":")[0])
    return release.label(code) if release else code


def _dated(source: str, releases: Mapping[str, Release]) -> str:
    return f"{source} {releases[source].version}" if source in releases else source


def _listed(names: Iterable[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last


def _table(name: str, columns: tuple[str, ...]) -> list[tuple[int, dict[str, str]]]:
    lines = resources.read_text(name).splitlines(keepends=True)
    above = sum(line.startswith("#") for line in lines)
    reader = csv.DictReader(io.StringIO("".join(lines[above:])), delimiter="\t", quoting=csv.QUOTE_NONE)
    if tuple(reader.fieldnames or ()) != columns:
        raise VocabularyError(f"{name} does not have the columns {', '.join(columns)}.")
    return [(above + number, row) for number, row in enumerate(reader, 2)]
