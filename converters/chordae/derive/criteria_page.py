"""From the criteria in data to a page that a morphologist reads: one table a structure, with sources."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from chordae.derive.heart import words

__all__ = ["criteria_page"]

_SORTS = ("decides", "supports", "excludes")


def criteria_page(criteria: Mapping[str, Any]) -> str:
    """Return the criteria (``schema/criteria.yaml`` as read) as a page in Markdown."""
    lines = ["# Criteria of identity", "", "Written from `schema/criteria.yaml`; not to be edited.", ""]
    lines += ["V = read in the source, M = from memory.", ""]
    for data in criteria["identities"].values():
        lines += [
            f"## {data['what'].capitalize()}",
            "",
            "| answer | | features | unless | source |",
            "|---|---|---|---|---|",
        ]
        for answer, rows in data["answers"].items():
            for sort in _SORTS:
                for row in rows.get(sort, ()):
                    see, unless = _plain(row["see"], " and "), _plain(row.get("unless", {}), " or ")
                    source = f"{row['source']} ({row['status']})"
                    lines.append(f"| {words(answer)} | {sort} | {see} | {unless} | {source} |")
        lines += [
            "",
            "Never decides: " + "; ".join(f"{one['say']} ({one['source']})" for one in data["never"]) + ".",
            "",
        ]
        lines += [f"* {one['say']} ({one['source']})" for one in data.get("notes", ())] + [""]
    return "\n".join(lines).rstrip() + "\n"


def _plain(mapping: Mapping[str, Any], joint: str) -> str:
    return joint.join(f"{words(name)}: {_either(one)}" for name, one in mapping.items())


def _either(values: Any) -> str:
    listed = values if isinstance(values, list) else [values]
    return " or ".join(words(str(one)) for one in listed)
