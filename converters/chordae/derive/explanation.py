"""From a derived object to an account that a morphologist can follow and dispute, step by step.

::

    C04  DORV {S,D,L}
    This heart has usual atrial arrangement, ...

    1. Identities            each with the features used (whether each decides or supports, and by which source), those
                             against, those not seen and what they would change
    2. Conclusions           each with its origin, its source, its premises, what was expected
    3. Holes, arteries       by borders, by geography, expected axis
    4. Malformations         each with its premises and sources
    5. Stated against derived
    6. Not determined
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from chordae.derive.heart import part_words, words
from chordae.knowledge import table
from chordae.record import Record

__all__ = ["explain"]

_CONCLUSIONS = ("arrangement", "av_connection", "topology", "va_connection", "aorta_relation")
_ORIGINS = {
    "evidence": "from the recorded features",
    "stated": "as the observer stated it",
    "inferred": "inferred, not seen",
}
_VERDICTS = {
    "agrees": "agrees with the features",
    "contradicts": "is contradicted by the features",
    "more_specific": "says more than the features give",
    "less_specific": "says less than the features give",
    "cannot_be_judged": "cannot be judged",
}


def explain(derived: Mapping[str, Any], record: Record | None = None) -> str:
    """Put a derived object into words.

    Parameters
    ----------
    derived
        What :func:`chordae.derive.derive` returned.
    record
        The record it was derived from; with it, the photographs, videos and reports behind each feature are named.

    Returns
    -------
    str
        Lines of text, at most as wide as their longest fact; ends with a line break.
    """
    evidence = _evidence(record)
    lines = [f"{derived['record']}  {derived['notation']}", *derived["statement"].values(), ""]
    for title, found in (
        ("Identities", list(_identities(derived, evidence))),
        ("Conclusions", list(_conclusions(derived))),
        ("Holes between the ventricles", list(_holes(derived))),
        ("Arteries", list(_arteries(derived))),
        ("Malformations", list(_diagnoses(derived))),
        ("Stated against derived", list(_compared(derived))),
        ("Combinations", [f"{one['verdict']}: {one['why']} ({one['source']})" for one in derived["combinations"]]),
        ("Lost in the notation", [one["why"] for one in derived["notation_lost"]]),
        ("Not determined", list(_open(derived))),
    ):
        if found:
            lines += [title, *(f"  {_written_out(line)}" for line in found), ""]
    return "\n".join(lines)


def _written_out(line: str) -> str:
    """Write out what the data files abbreviate."""
    short = table("phrases")["written_out"]
    return _short().sub(lambda match: short[match[0]], line)


@cache
def _short() -> re.Pattern[str]:
    words_of = sorted(table("phrases")["written_out"], key=len, reverse=True)
    return re.compile(rf"\b({'|'.join(map(re.escape, words_of))})\b")


@cache
def _grounds(term: str, decided: bool) -> dict[tuple[str, str], str]:
    """Return, for each feature with its value, how it speaks for an identity and which source says so."""
    found: dict[tuple[str, str], str] = {}
    for one in table("criteria")["identities"].values():
        for answer, rows in one["answers"].items():
            if rows.get("term", answer) != term:
                continue
            for sort in ("decides", "supports") if decided else ("supports",):
                for row in rows.get(sort, ()):
                    for feature, values in row["see"].items():
                        for value in values if isinstance(values, list) else [values]:
                            others = " with others" if len(row["see"]) > 1 else ""
                            found.setdefault((feature, str(value)), f"{sort}{others}, {words(row['source'])}")
    return found


@cache
def _source_of(name: str, value: str) -> str:
    """Return the source of the row by which a conclusion follows."""
    tables = {"arrangement": "arrangement", "av_connection": "av_connection", "va_connection": "va_connection"}
    rows = table("combinations").get(tables.get(name, ""), ())
    return next((words(row["source"]) for row in rows if row["value"] == value), "")


@cache
def _rule_sources(term: str) -> str:
    """Return the sources of the rows of one malformation."""
    rows = [row for row in table("diagnoses")["diagnoses"] if row["term"] == term]
    return ", ".join(dict.fromkeys(words(row["source"]) for row in rows))


def _identities(derived: Mapping[str, Any], evidence: Mapping[str, str]) -> Iterator[str]:
    for one in derived["identities"]:
        name = words(one["identity"]) if one["identity"] else "not determined"
        yield f"{part_words(one['part'])}: {name} ({one['confidence']})"
        for sign, texts in (("+", one["basis"]), ("-", one.get("against", ()))):
            for text in texts:
                shown = evidence.get(_feature(text, one["part"]), "")
                feature, _, value = text.removeprefix(f"{one['part']}.").partition(" = ")
                ground = (
                    _grounds(one["identity"] or "", one["confidence"] == "decided").get((feature, value), "")
                    if sign == "+"
                    else ""
                )
                yield f"  {sign} {_plain(text, one['part'])}{f'  ({ground})' if ground else ''}{shown}"
        for text in one.get("not_seen", ()):
            yield f"  ? {text}"
        for text in one.get("would_change", ()):
            yield f"    would decide: {text}"
        if one.get("stated"):
            yield f"  the observer calls it {words(one['stated'])}"


def _conclusions(derived: Mapping[str, Any]) -> Iterator[str]:
    for name in _CONCLUSIONS:
        value = derived.get(name)
        if value is None:
            continue
        origin = derived["origins"].get(name)
        source = _source_of(name, value) if origin == "evidence" else ""
        yield f"{words(name)}: {words(value)} ({_ORIGINS.get(origin, origin)}{f'; {source}' if source else ''})"
        for premise in derived["premises"].get(name, ()):
            yield f"  + {words(premise)}"
    expected = derived.get("topology_expected")
    if expected and derived.get("topology") not in (None, expected):
        yield f"topology expected: {words(expected)}; the stated one differs (disharmony)"
    for name in derived.get("shared_by_halves", ()):
        yield f"{words(name)}: shared by halves, given to neither ventricle"


def _holes(derived: Mapping[str, Any]) -> Iterator[str]:
    for hole in derived["septal_defects"]:
        yield f"{part_words(hole['part'])}"
        if "borders_confidence" in hole:
            borders = words(hole["borders"]) if hole["borders"] else "not determined"
            yield f"  by borders: {borders} ({hole['borders_confidence']})"
        for name in ("geography", "commitment", "plane_of_closure", "malalignment", "restrictive"):
            if name in hole:
                yield f"  {'by ' if name == 'geography' else ''}{words(name)}: {words(hole[name])}"
        if "conduction" in hole:
            yield f"  for information: {hole['conduction']['say']} ({hole['conduction']['source']})"


def _arteries(derived: Mapping[str, Any]) -> Iterator[str]:
    for name, value in (derived.get("arch") or {}).items():
        yield f"arch, {words(name)}: {words(value)}"
    for name, value in (derived.get("coronary") or {}).items():
        yield f"coronary arteries, {words(name)}: {words(str(value))}"


def _diagnoses(derived: Mapping[str, Any]) -> Iterator[str]:
    for one in derived["diagnoses"]:
        yield f"{one['label']}"
        yield f"  because {'; '.join(words(text) for text in one['premises'])}  ({_rule_sources(one['term'])})"
        if one["codes"]:
            yield "  codes " + ", ".join(f"{code['code']} ({code['match']})" for code in one["codes"])


def _compared(derived: Mapping[str, Any]) -> Iterator[str]:
    for one in derived["stated_against_derived"]:
        text = f"{_what(one['what'])}, stated {words(str(one['stated']))}: {_VERDICTS[one['verdict']]}"
        yield text + (f": {words(one['because'])}" if one.get("because") else "")
        if one.get("expected"):
            yield f"  expected {words(one['expected'])}; disharmony {words(one['disharmony'])}"
        for ground in one.get("rests_on", ()):
            yield f"  {words(ground)}"


def _open(derived: Mapping[str, Any]) -> Iterator[str]:
    """What stays open; the parts themselves stand above, with what was not seen of them."""
    parts = []
    for one in derived["undetermined"]:
        part, _, rest = one["what"].rpartition(".")
        if rest == "identity":
            parts.append(part_words(part))
        else:
            yield f"{_what(one['what'])}: {one['why']}"
    if parts:
        yield f"identities (see above): {', '.join(parts)}"


def _evidence(record: Record | None) -> dict[str, str]:
    """Return, by part.feature, the evidence and certainty that the observer gave for it."""
    found: dict[str, str] = {}
    if record is None:
        return found
    files = {one.get("id"): one.get("source_file") for one in record.get("evidence") or ()}
    for part in record.get("parts") or ():
        for entry in part.get("observed") or ():
            notes = [str(files.get(one, one)) for one in entry.get("evidence_refs") or ()]
            notes += [str(entry[name]) for name in ("certainty", "note") if entry.get(name)]
            if notes:
                found[f"{part.get('id')}.{entry.get('feature')}"] = f"  [{'; '.join(notes)}]"
    return found


def _feature(text: str, part: str) -> str:
    name = text.partition(" = ")[0]
    return name if name.startswith(f"{part}.") else f"{part}.{name}"


def _plain(text: str, part: str) -> str:
    return words(text.removeprefix(f"{part}."))


def _what(what: str) -> str:
    part, dot, rest = what.partition(".")
    return f"{part_words(part)}, {words(rest)}" if dot else words(what)
