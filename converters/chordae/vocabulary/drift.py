"""Two releases of an outside vocabulary and the ids that we use; out comes what changed, and what to do about it.

::

    kind         before -> after                               what a curator does
    obsolete     term in use -> obsolete, successor HP:...     move the mapping to the successor, judge it anew
    gone         term -> not in the release                    look for another term
    renamed      old label -> new label                        write the new label; see whether the meaning went with it
    moved        old parents -> new parents                    see whether the match still holds
    new          not in the old release -> term                nothing, if the match was judged by the new release

As text, TSV or JSON; one line a change, with the terms of ours that it concerns.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass

from chordae.errors import FormatError
from chordae.vocabulary.outside import OutsideTerm, Release

__all__ = ["FORMATS", "Drift", "drift_report", "format_drift"]

_TODO = {
    "obsolete": "Move the mapping to the successor and judge it anew.",
    "dead": "Look for another term; no successor is named.",
    "gone": "Look for another term; the id is not in the new release.",
    "renamed": "Write the new label; see whether the meaning went with it.",
    "moved": "See whether the match still holds below the new parents.",
    "new": "Nothing, if the match was judged by the new release.",
}


@dataclass(frozen=True, slots=True)
class Drift:
    """One change of one outside term; ``terms`` are ours, ``before`` and ``after`` labels or lists of parents."""

    id: str
    change: str
    before: str
    after: str
    successor: str
    terms: tuple[str, ...]
    todo: str


def drift_report(old: Release, new: Release, used: Mapping[str, Sequence[str]] | Iterable[str]) -> list[Drift]:
    """Return what changed between two releases for the ids in use.

    Parameters
    ----------
    old, new
        Two releases of one source.
    used
        Ids in use, each with the terms of ours that it was mapped to if known.

    Returns
    -------
    list of Drift
        Sorted by id; an obsolete term yields one entry for that, and one for its label.
    """
    owners = used if isinstance(used, Mapping) else dict.fromkeys(used, ())
    found: list[Drift] = []
    for name in sorted(owners):
        if name.startswith(f"{new.source}:"):
            found += _compare(old.terms.get(name), new.terms.get(name), old, new, name, tuple(owners[name]))
    return found


def format_drift(entries: Sequence[Drift], form: str) -> str:
    """Return a report as ``text``, ``tsv`` or ``json``.

    Raises
    ------
    FormatError
        The form is none of these.
    """
    if form not in FORMATS:
        raise FormatError(f"There is no form '{form}' of the drift report.", "Use " + ", ".join(FORMATS) + ".")
    return FORMATS[form](entries)


def _compare(
    old: OutsideTerm | None, new: OutsideTerm | None, before: Release, after: Release, name: str, terms: tuple[str, ...]
) -> Iterator[Drift]:
    def drift(change: str, was: str, now: str, successor: str = "") -> Drift:
        kind = "obsolete" if change == "dead" else change
        return Drift(name, kind, was, now, successor, terms, _TODO[change])

    if new is None:
        if old is not None:
            yield drift("gone", old.label, "")
        return
    if old is None:
        yield drift("new", "", new.label)
        return
    if new.obsolete and not old.obsolete:
        successor = new.replaced_by or ""
        now = f"{successor} {after.label(successor)}" if successor else "no successor"
        yield drift("obsolete" if successor else "dead", old.label, now, successor)
    if new.label != old.label:
        yield drift("renamed", old.label, new.label)
    if set(new.parents) != set(old.parents) and not new.obsolete:
        lost = sorted(set(old.parents) - set(new.parents))
        gained = sorted(set(new.parents) - set(old.parents))
        yield drift("moved", _names(lost, before), _names(gained, after))


def _names(ids: Iterable[str], release: Release) -> str:
    return "; ".join(f"{name} {release.label(name)}" for name in ids) or "none"


def _text(entries: Sequence[Drift]) -> str:
    if not entries:
        return "No change to any outside term in use.\n"
    blocks = []
    for one in entries:
        ours = f"\n  ours: {', '.join(one.terms)}" if one.terms else ""
        was, now = ("no longer below", "now below") if one.change == "moved" else ("was", "now")
        blocks.append(f"{one.id} {one.change}\n  {was}: {one.before}\n  {now}: {one.after}{ours}\n  {one.todo}\n")
    return "\n".join(blocks)


def _tsv(entries: Sequence[Drift]) -> str:
    head = ("id", "change", "before", "after", "successor", "terms", "todo")
    rows = [(e.id, e.change, e.before, e.after, e.successor, "|".join(e.terms), e.todo) for e in entries]
    return "".join("\t".join(cells) + "\n" for cells in (head, *rows))


def _json(entries: Sequence[Drift]) -> str:
    return json.dumps([asdict(one) for one in entries], ensure_ascii=False, indent=1) + "\n"


FORMATS: dict[str, Callable[[Sequence[Drift]], str]] = {"text": _text, "tsv": _tsv, "json": _json}
"""Forms of the report."""
