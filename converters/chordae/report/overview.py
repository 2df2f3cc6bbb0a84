"""From the counts of an exchange to the sections of the page that stand before the single hearts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from chordae.report.findings import issues, undetermined, unmapped
from chordae.report.markup import Html, join, table, tag, text
from chordae.report.words import CONCLUSIONS, sentence

__all__ = ["SECTIONS", "sections"]

_LISTED = 30

_VERDICTS: Mapping[str, str] = {
    "agrees": "agree",
    "contradicts": "contradict",
    "more_specific": "stated is narrower",
    "less_specific": "stated is wider",
    "cannot_be_judged": "cannot be judged from features",
    "stated_only": "only stated",
    "derived_only": "only derived",
    "neither": "neither",
}

_KEY = Html('<p class="key"><i class="d"></i>derived from features<i class="s"></i>stated by the observer</p>')


def sections(counts: Mapping[str, Any], linked: Mapping[str, str]) -> Iterator[tuple[str, str, Html]]:
    """Yield ``(id, heading, section)`` in order.

    Parameters
    ----------
    counts
        :meth:`chordae.report.summary.Summary.to_json`.
    linked
        Record id -> anchor, for the hearts that have a section of their own on the page.
    """
    for name, heading, lead, build in SECTIONS:
        content = build(counts, linked)
        if content:
            body = tag("section", tag("h2", text(heading)), tag("p", text(lead), class_="lead"), content, id=name)
            yield name, heading, body


def _counts(counts: Mapping[str, Any], linked: Mapping[str, str]) -> Html:
    found = counts["issues"]
    told = [
        (counts["rows"], "rows in the catalogue", ""),
        (counts["records"], "descriptions read", ""),
        (counts["hearts"], "hearts", ""),
        (counts["refused"], "rows refused", "bad" if counts["refused"] else ""),
        (found["violation"], "violations", "bad" if found["violation"] else ""),
        (found["warning"], "warnings", "warn" if found["warning"] else ""),
        (found["info"], "for the record", "info"),
    ]
    return tag(
        "dl",
        *(
            tag("div", tag("dt", text(words)), tag("dd", text(f"{number:,}")), class_=kind or None)
            for number, words, kind in told
        ),
        class_="counts",
    )


def _conclusions(counts: Mapping[str, Any], linked: Mapping[str, str]) -> Html:
    pieces = []
    for slot, name in CONCLUSIONS.items():
        words = sentence(name)
        rows = counts["conclusions"].get(slot)
        if not rows:
            continue
        top = max(max(row["stated"], row["derived"]) for row in rows)
        body = [
            (
                _in_both_schools(row),
                text(row["derived"]),
                text(row["stated"]),
                _bars(row["derived"], row["stated"], top),
            )
            for row in rows
        ]
        told = [f"{_VERDICTS[kind]} {count:,}" for kind, count in counts["agreement"][slot].items() if count]
        note = f"Stated against derived: {', '.join(told)} (descriptions)."
        made = table((words, "Derived", "Stated", ""), body, caption=words, numbers=(1, 2))
        pieces.append(tag("div", made, tag("p", text(note), class_="where")))
    return join([_KEY, tag("div", *pieces, class_="pair")]) if pieces else text("")


def _in_both_schools(row: Mapping[str, Any]) -> Html:
    other = row.get("label_north_american")
    label = text(sentence(row["label"]))
    return label if not other or other == row["label"] else join([label, tag("span", text(other), class_="sub")])


def _bars(derived: int, stated: int, top: int) -> Html:
    def bar(kind: str, count: int) -> Html:
        return tag("i", class_=kind, style=f"width:{100 * count / top:.1f}%") if count else text("")

    return tag("span", bar("d", derived), bar("s", stated), class_="bars", aria_hidden="true")


def _diagnoses(counts: Mapping[str, Any], linked: Mapping[str, str]) -> Html:
    rows = [
        (
            text(sentence(row["label"])),
            text(row["derived"]),
            text(row["stated"]),
            text(row["both"]),
            tag("code", text(", ".join(row["codes"]))) if row["codes"] else text(""),
        )
        for row in counts["diagnoses"]
    ]
    if not rows:
        return text("")
    head = ("Malformation", "Derived", "Stated", "In both", "Open codes")
    first = table(head, rows[:_LISTED], caption="Malformations", numbers=(1, 2, 3))
    if len(rows) <= _LISTED:
        return first
    rest = table(head, rows[_LISTED:], caption="Rarer malformations", numbers=(1, 2, 3))
    return join([first, tag("details", tag("summary", text(f"{len(rows) - _LISTED} rarer ones")), rest)])


def _coding(counts: Mapping[str, Any], linked: Mapping[str, str]) -> Html:
    coding = counts.get("coding") or {}
    pieces = []
    if cells := coding.get("cells"):
        share = _share(cells["mapped"], cells["filled"])
        told = (
            f"{cells['mapped']:,} of {cells['filled']:,} filled cells were given a meaning by the crosswalk ({share})."
        )
        pieces.append(tag("p", text(told)))
    if coding.get("terms"):
        told = f"{coding['coded']:,} of {coding['terms']:,} terms used in the descriptions have at least one open code "
        pieces.append(tag("p", text(f"{told}({_share(coding['coded'], coding['terms'])}).")))
    rows = [
        (
            text(row["name"]),
            text(f"{row['exact']:,}"),
            text(f"{row['other']:,}"),
            text(_share(row["exact"] + row["other"], coding["terms"])),
        )
        for row in coding.get("by_ontology") or ()
    ]
    if rows:
        head = (
            "Ontology or classification",
            "Terms with an exact code",
            "with a broader, narrower or close one",
            "Share",
        )
        pieces.append(table(head, rows, caption="Open codes of the terms used", numbers=(1, 2, 3)))
    return join(pieces)


def _share(part: int, whole: int) -> str:
    return f"{100 * part / whole:.0f} %" if whole else "none"


def _not_tested(counts: Mapping[str, Any], linked: Mapping[str, str]) -> Html:
    rules: Sequence[Mapping[str, Any]] = counts.get("not_tested") or ()
    items = [tag("li", tag("code", text(one["rule"])), text(f" {one['label']}")) for one in rules]
    return tag("ul", *items, class_="plain index") if items else text("")


SECTIONS = (
    ("counts", "At a glance", "A heart that was described twice counts as one heart and two descriptions.", _counts),
    (
        "what-they-are",
        "What the hearts are",
        "By connections, as derived from the recorded features and as stated by the observers; the two never mix.",
        _conclusions,
    ),
    (
        "malformations",
        "Malformations",
        "Each derived malformation carries its premises in the section of the heart.",
        _diagnoses,
    ),
    ("issues", "Issues by rule", "Each with what was found, where, and what to do; the worst first.", issues),
    (
        "not-determined",
        "What could not be determined",
        "Silence is never read as normal: what was not recorded, or could not be judged, leaves the conclusion open.",
        undetermined,
    ),
    (
        "words",
        "Words and columns without a meaning",
        "They were not taken over. A row in values.tsv or columns.tsv gives them one.",
        unmapped,
    ),
    (
        "coding",
        "Coverage of coding",
        "How much of the catalogue has a meaning, and how many terms an open code.",
        _coding,
    ),
    (
        "not-tested",
        "Rules that were not tested",
        "These rules met nothing in the collection that they speak of. Not tested is not passed.",
        _not_tested,
    ),
)
"""Id, heading, lead, and the function that fills the section; an empty section is left out."""
