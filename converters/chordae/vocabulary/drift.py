"""Two releases of an outside vocabulary and the ids that we use; out comes what changed, and what to do about it.

::

    kind         before -> after                               what a curator does
    obsolete     term in use -> obsolete, successor HP:...     move the mapping to the successor, judge it anew
    gone         term -> not in the release                    look for another term
    renamed      old label -> new label                        write the new label; see whether the meaning went with it
    moved        old parents -> new parents                    see whether the match still holds
    new          not in the old release -> term                nothing, if the match was judged by the new release

As text, grouped by what is to be done, most urgent first; as TSV, one line a change; or as JSON.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass

from chordae.errors import FormatError
from chordae.vocabulary.outside import OutsideTerm, Release

__all__ = ["FORMATS", "Drift", "drift_report", "format_drift", "headline"]

_TODO = {
    "obsolete": "Move the mapping to the successor and judge it anew.",
    "dead": "Look for another term; no successor is named.",
    "gone": "Look for another term; the id is not in the new release.",
    "renamed": "Write the new label; see whether the meaning went with it.",
    "moved": "See whether the match still holds below the new parents.",
    "new": "Nothing, if the match was judged by the new release.",
}
_ORDER = ("obsolete", "gone", "renamed", "moved", "new")


@dataclass(frozen=True, slots=True)
class Drift:
    """One change of one outside term; ``terms`` are ours, ``before`` and ``after`` labels or lists of parents.

    ``label`` is that of the new release, or of the old one where the new has none.
    """

    id: str
    label: str
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


def headline(old: Release, new: Release, used: Iterable[str], entries: Sequence[Drift]) -> str:
    """Return which releases were compared, and how many of the terms in use changed in which way."""
    in_use = [name for name in used if name.startswith(f"{new.source}:")]
    counts = ", ".join(f"{n} {change}" for change in _ORDER if (n := sum(one.change == change for one in entries)))
    changed = len({one.id for one in entries})
    told = f"{changed} of {len(in_use)} terms in use changed" + (f": {counts}." if counts else ".")
    return f"{new.source}, from {old.version} to {new.version}\n{told}\n"


def format_drift(entries: Sequence[Drift], form: str, head: str = "") -> str:
    """Return a report as ``text``, ``tsv`` or ``json``; ``head`` stands above the text.

    Raises
    ------
    FormatError
        The form is none of these.
    """
    if form not in FORMATS:
        raise FormatError(f"There is no form '{form}' of the drift report.", "Use " + ", ".join(FORMATS) + ".")
    return (head if form == "text" else "") + FORMATS[form](entries)


def _compare(
    old: OutsideTerm | None, new: OutsideTerm | None, before: Release, after: Release, name: str, terms: tuple[str, ...]
) -> Iterator[Drift]:
    known = new or old
    label = known.label if known else name

    def drift(change: str, was: str, now: str, successor: str = "") -> Drift:
        kind = "obsolete" if change == "dead" else change
        return Drift(name, label, kind, was, now, successor, terms, _TODO[change])

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
    return "; ".join(f"{name} {release.label(name)}" for name in ids)


def _text(entries: Sequence[Drift]) -> str:
    if not entries:
        return "No change to any outside term in use.\n"
    blocks = []
    for todo in dict.fromkeys(one.todo for one in sorted(entries, key=lambda one: _ORDER.index(one.change))):
        same = [one for one in entries if one.todo == todo]
        blocks.append(f"{same[0].change.upper()}. {todo}\n")
        blocks += [_entry(one) for one in same]
    return "\n" + "\n".join(blocks)


def _entry(one: Drift) -> str:
    was, now = ("no longer below", "now below") if one.change == "moved" else ("was", "now")
    rows = [(was, one.before), (now, one.after), ("ours", ", ".join(one.terms))]
    lines = "".join(f"    {name:15}  {text}\n" for name, text in rows if text)
    return f"  {one.id} {one.label}\n{lines}"


def _tsv(entries: Sequence[Drift]) -> str:
    head = ("id", "label", "change", "before", "after", "successor", "terms", "todo")
    rows = [(e.id, e.label, e.change, e.before, e.after, e.successor, "|".join(e.terms), e.todo) for e in entries]
    return "".join("\t".join(cells) + "\n" for cells in (head, *rows))


def _json(entries: Sequence[Drift]) -> str:
    return json.dumps([asdict(one) for one in entries], ensure_ascii=False, indent=1) + "\n"


FORMATS: dict[str, Callable[[Sequence[Drift]], str]] = {"text": _text, "tsv": _tsv, "json": _json}
"""Forms of the report."""
