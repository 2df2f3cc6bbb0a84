"""From the counts of an exchange to a summary for the terminal: plain text, 80 columns, worst first."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from chordae.issues import counted
from chordae.report.words import CONCLUSIONS, sentence, texts

__all__ = ["WIDTH", "make_brief", "make_text"]

WIDTH = 80
_SHOWN = 12
_SIGNS: Mapping[str, str] = {"violation": "!!", "warning": " !", "info": "  "}


def make_text(counts: Mapping[str, Any]) -> str:
    """Return the summary.

    Parameters
    ----------
    counts
        :meth:`chordae.report.summary.Summary.to_json`.

    Returns
    -------
    str
        Lines of at most 80 characters (a long word of the catalogue may stand out), ending with a newline.
    """
    parts = (_head, _conclusions, _diagnoses, _issues, _undetermined, _unmapped, _coding, _not_tested, _foot)
    made = "\n".join("\n".join(lines) + "\n" for part in parts if (lines := list(part(counts))))
    # Nothing from a catalogue reaches the terminal as a control.
    return "".join(one if one.isprintable() or one == "\n" else f"\\u{ord(one):04x}" for one in made)


def make_brief(counts: Mapping[str, Any]) -> str:
    """Return the counts in one line, for the end of a long report."""
    found = counts["issues"]
    return (
        f"{counted(counts['records'], 'description')}, {counted(counts['refused'], 'row')} refused, "
        f"{counted(found['violation'], 'violation')}, {counted(found['warning'], 'warning')}."
    )


def _head(counts: Mapping[str, Any]) -> Iterator[str]:
    name = str(counts["collection"].get("name") or "Collection without a name")
    yield name
    yield "=" * min(len(name), WIDTH)
    refused = f"; {counted(counts['refused'], 'row')} refused" if counts["refused"] else ""
    read = f"{counted(counts['rows'], 'row')} in the catalogue, {counted(counts['records'], 'description')} of "
    yield from _wrap(f"{read}{counted(counts['hearts'], 'heart')}{refused}.")
    found = counts["issues"]
    yield from _wrap(
        f"{counted(found['violation'], 'violation')}, {counted(found['warning'], 'warning')}, "
        f"{found['info']:,} for the record."
    )


def _conclusions(counts: Mapping[str, Any]) -> Iterator[str]:
    first = True
    for slot, name in CONCLUSIONS.items():
        words = sentence(name)
        rows = counts["conclusions"].get(slot) or ()
        if not rows:
            continue
        head = f"{words:<60}{'derived' if first else '':>10}{'stated' if first else '':>10}"
        first = False
        yield head.rstrip()
        for row in rows:
            yield _columns(f"  {sentence(row['label'])}", row["derived"], row["stated"])


def _diagnoses(counts: Mapping[str, Any]) -> Iterator[str]:
    rows = counts["diagnoses"]
    if rows:
        yield f"{'Malformations':<60}{'derived':>10}{'stated':>10}"
    for row in rows[:_SHOWN]:
        yield _columns(f"  {sentence(row['label'])}", row["derived"], row["stated"])
    yield from _more(len(rows) - _SHOWN, "malformation")


def _issues(counts: Mapping[str, Any]) -> Iterator[str]:
    rows = counts["by_rule"]
    if rows:
        yield f"Issues by rule{'':<46}{'times':>10}{'records':>10}"
    for row in rows:
        sign, label = _SIGNS[row["severity"]], f"{row['rule']} {row['label']}".strip()
        yield _columns(f"{sign} {label}", row["count"], row["records"] or "")
        first = row["examples"][0]
        if row["severity"] != "info":
            place = f"{first['record'] or ''} {first['place']}".strip()
            yield from _wrap(f"{place}: {first['message']}" if place else first["message"], "   ")
            if first["hint"]:
                yield from _wrap(f"-> {first['hint']}", "   ", "      ")
    if rows:
        yield "!! violation   ! warning   the rest: for the record"


def _undetermined(counts: Mapping[str, Any]) -> Iterator[str]:
    rows = counts["undetermined"]
    if rows:
        yield f"{'Could not be determined':<60}{'times':>10}"
    for row in rows[:_SHOWN]:
        yield _columns(f"  {sentence(row['label'])}", row["count"])
        yield from _wrap(row["reasons"][0]["why"], "    ")
    yield from _more(len(rows) - _SHOWN, "thing")


def _unmapped(counts: Mapping[str, Any]) -> Iterator[str]:
    words: Sequence[Mapping[str, Any]] = counts.get("unmapped_words") or ()
    if words:
        yield f"{'Words without a meaning, and their columns':<60}{'rows':>10}"
    for row in words[:_SHOWN]:
        yield _columns(f"  {row['word']}  ({row['column']})", row["count"])
    yield from _more(len(words) - _SHOWN, "word")
    columns = ", ".join(f"{row['column']} ({row['count']:,})" for row in counts.get("unmapped_columns") or ())
    if columns:
        yield from _wrap(f"Columns not taken over, with their filled cells: {columns}")


def _coding(counts: Mapping[str, Any]) -> Iterator[str]:
    coding = counts.get("coding") or {}
    if cells := coding.get("cells"):
        told = f"{cells['mapped']:,} of {cells['filled']:,} filled cells have a meaning"
        yield from _wrap(f"{told} ({_share(cells['mapped'], cells['filled'])}).")
    if terms := coding.get("terms"):
        each = ", ".join(f"{row['name']} {_share(row['exact'] + row['other'], terms)}" for row in coding["by_ontology"])
        told = f"{coding['coded']:,} of {terms:,} terms used have an open code ({_share(coding['coded'], terms)})"
        yield from _wrap(f"{told}: {each}." if each else f"{told}.")


def _not_tested(counts: Mapping[str, Any]) -> Iterator[str]:
    rules = [one["rule"] for one in counts.get("not_tested") or ()]
    if rules:
        told = f"{counted(len(rules), 'rule')} met nothing to speak of; not tested is not passed: "
        more = f" and {len(rules) - _SHOWN} more" if len(rules) > _SHOWN else ""
        yield from _wrap(told + ", ".join(rules[:_SHOWN]) + more)


def _foot(counts: Mapping[str, Any]) -> Iterator[str]:
    for line in texts()["caution"]:
        yield from _wrap(line)


def _columns(words: str, *numbers: object) -> str:
    room = WIDTH - 20 - 1
    shown = words if len(words) <= room else words[: room - 3] + "..."
    told = "".join(f"{one:>10,}" if isinstance(one, int) else f"{one:>10}" for one in numbers)
    return f"{shown:<{WIDTH - 20}}{told}".rstrip()


def _wrap(words: str, first: str = "", rest: str | None = None) -> Iterable[str]:
    return textwrap.wrap(
        " ".join(words.split()),
        WIDTH,
        initial_indent=first,
        subsequent_indent=first if rest is None else rest,
        break_long_words=False,
        break_on_hyphens=False,
    )


def _more(left: int, thing: str) -> Iterator[str]:
    if left > 0:
        yield f"  and {counted(left, thing)} more"


def _share(part: int, whole: int) -> str:
    return f"{100 * part / whole:.0f} %" if whole else "none"
