"""From the counts of an exchange to the sections that ask for something to be done.

Issues by rule, what could not be determined and why, and words and columns without a meaning.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from chordae.report.heart import mark
from chordae.report.markup import Html, join, table, tag, text
from chordae.report.words import sentence

__all__ = ["issues", "undetermined", "unmapped"]

_OPEN = 3
"""Up to so many places are shown at once."""
_REASONS = 8
_WORDS = 100


def issues(counts: Mapping[str, Any], linked: Mapping[str, str]) -> Html:
    """Return the issues by rule, the worst first, each with places and remedy."""
    items = []
    for row in counts["by_rule"]:
        examples = [tag("li", *_found(one, linked)) for one in row["examples"]]
        left = row["count"] - len(examples)
        more = [tag("li", text(f"and {left:,} more; all stand in issues.tsv"))] if left > 0 else []
        first = row["examples"][0]
        found = (
            tag("p", *_found(first, linked))
            if row["count"] == 1
            else tag(
                "details",
                tag("summary", text("Where")),
                tag("ul", *examples, *more, class_="plain"),
                open=row["count"] <= _OPEN,
            )
        )
        items.append(
            tag(
                "li",
                mark(row["severity"], row["severity"]),
                text(" "),
                tag("b", text(row["label"] or row["rule"])),
                text(" "),
                tag("code", text(row["rule"])),
                tag("p", text(_times(row["count"], row["records"])), class_="where"),
                found,
                tag("p", text(first["hint"]), class_="to-do") if first["hint"] else text(""),
            )
        )
    return tag("ul", *items, class_="rules") if items else tag("p", text("No issues were found."))


def _times(count: int, records: int) -> str:
    times = "once" if count == 1 else f"{count:,} times"
    if not records:
        return f"{times}, about the table"
    return f"{times}, in {records:,} description{'s' if records != 1 else ''}"


def _found(one: Mapping[str, Any], linked: Mapping[str, str]) -> list[Html]:
    name = one["record"]
    pieces = [] if name is None else [_link(name, linked), text(" ")]
    pieces.append(text(one["message"]))
    if one["place"]:
        pieces.append(tag("span", text(one["place"]), class_="where sub"))
    return pieces


def _link(name: str, linked: Mapping[str, str]) -> Html:
    return tag("a", text(name), href=f"#{linked[name]}") if name in linked else tag("b", text(name))


def undetermined(counts: Mapping[str, Any], linked: Mapping[str, str]) -> Html:
    """Return what could not be determined, with the reasons and how often."""
    rows = []
    for row in counts["undetermined"]:
        reasons = [tag("li", text(f"{one['why']} ({one['count']:,})")) for one in row["reasons"][:_REASONS]]
        left = len(row["reasons"]) - _REASONS
        more = [tag("li", text(f"and {left} other reasons"))] if left > 0 else []
        where = join((_link(name, linked) for name in row["records"]), ", ")
        rest = ", …" if row["count"] > len(row["records"]) else ""
        rows.append(
            (
                text(sentence(row["label"])),
                text(f"{row['count']:,}"),
                tag("ul", *reasons, *more, class_="plain"),
                join([where, text(rest)]),
            )
        )
    head = ("What", "Descriptions", "Why", "For example in")
    return table(head, rows, caption="Not determined", numbers=(1,)) if rows else text("")


def unmapped(counts: Mapping[str, Any], linked: Mapping[str, str]) -> Html:
    """Return the words and columns without a meaning, the most frequent first."""
    words, columns = counts.get("unmapped_words") or (), counts.get("unmapped_columns") or ()
    pieces = []
    if words:
        rows = [(text(row["word"]), text(row["column"]), text(f"{row['count']:,}")) for row in words[:_WORDS]]
        pieces.append(table(("Word", "Column", "Rows"), rows, caption="Words without a meaning", numbers=(2,)))
        if len(words) > _WORDS:
            pieces.append(tag("p", text(f"and {len(words) - _WORDS:,} more; all stand in report.json"), class_="where"))
    if columns:
        left = [(text(row["column"]), text(f"{row['count']:,}")) for row in columns]
        pieces.append(table(("Column", "Filled cells"), left, caption="Columns not taken over", numbers=(1,)))
    return tag("div", *(tag("div", piece) for piece in pieces), class_="pair") if pieces else text("")
