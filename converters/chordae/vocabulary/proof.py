"""Every outside id that a mapping set names, looked up in a release: there, in use, and of that label. Issues come out.

=========  ====================================================
I-OUT-01   the release has no such term
I-OUT-02   the term is obsolete; its successor, if it has one
I-OUT-03   the label of the release is another one
I-OUT-04   the set was judged by another release
=========  ====================================================
"""

from __future__ import annotations

from collections.abc import Iterator

from chordae.issues import Issue, Location, issue, sort_issues
from chordae.sssom import MappingSet, Row
from chordae.vocabulary.outside import Release

__all__ = ["prove"]


def prove(mappings: MappingSet, release: Release) -> list[Issue]:
    """Return what does not hold of the outside terms of a set in one release.

    Parameters
    ----------
    mappings
        A set; rows about other sources than ``release.source`` are passed over.
    release
        The release to look in, for example one of :func:`chordae.vocabulary.packages.installed`.

    Returns
    -------
    list of Issue
        Empty if every id exists, is not obsolete and carries the recorded label. Rows with ``Not`` are looked up too:
        a warning about a term that has gone is no use to anyone.
    """
    found: list[Issue] = []
    for row in mappings.rows:
        if not row.no_term and row["object_id"].startswith(f"{release.source}:"):
            found += _look_up(mappings, row, release)
    return sort_issues(found)


def _look_up(mappings: MappingSet, row: Row, release: Release) -> Iterator[Issue]:
    name = row["object_id"]

    def fault(rule: str, value: str, step: str = "", label: str = "") -> Issue:
        return issue(
            rule,
            location=Location(mappings.name, row.line),
            value=value,
            id=name,
            term=row["subject_label"],
            source=release.source,
            release=release.version,
            next=step,
            label=label,
        )

    judged = mappings.value(row, "object_source_version")
    if judged.partition(" ")[0] != release.version.partition(" ")[0].strip(","):
        yield fault("I-OUT-04", judged)
    term = release.terms.get(name)
    if term is None:
        yield fault("I-OUT-01", name)
        return
    if term.obsolete:
        successor = term.replaced_by
        step = f"use {successor} ({release.label(successor)})" if successor else "it names no successor"
        yield fault("I-OUT-02", name, step=step)
    if term.label != row["object_label"]:
        yield fault("I-OUT-03", row["object_label"], label=term.label)
