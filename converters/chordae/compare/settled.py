"""What somebody settled between two descriptions: a table, read strictly.

::

    heart  part   property     take  value  why                               by
    0029   aorta  arises_from  b            measured again with the lid off   A. Reader
    0055   right_sided_atrium  pectinate_extent  value  to_crux  ...          A. Reader

``take`` is ``a``, ``b``, or ``value`` with the value beside it. A row without a reason, or without a name, settles
nothing.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from chordae.errors import InputError
from chordae.intake.table import read_table
from chordae.intake.targets import Mistake, find_target, typed
from chordae.issues import Issue, Location, issue, nearest

__all__ = ["Settled", "read_settled"]

_HEADINGS = ("heart", "part", "property", "take", "value", "why", "by")
_TAKES = ("a", "b", "value")
_ORCID = re.compile(r"(?:https?://orcid\.org/|orcid:)?(\d{4}-\d{4}-\d{4}-\d{3}[\dX])")


@dataclass(frozen=True, slots=True)
class Settled:
    """One difference that was settled; ``heart`` is the id of one of the two descriptions."""

    heart: str
    part: str
    property: str
    take: str
    value: Any
    why: str
    by: str
    location: Location = field(default_factory=Location)

    def place(self) -> tuple[str, str]:
        """Return part and property."""
        return self.part, self.property

    def person(self) -> str:
        """Return the IRI of the person, where an ORCID was given; else an empty text."""
        found = _ORCID.fullmatch(self.by)
        return f"https://orcid.org/{found[1]}" if found else ""


def read_settled(path: str, by: str | None = None) -> tuple[list[Settled], list[Issue]]:
    """Read the table.

    Parameters
    ----------
    path
        CSV, TSV or a workbook with the headings above.
    by
        Who settled the rows in which nobody is named.

    Raises
    ------
    InputError
        It cannot be read, or lacks a heading.
    """
    table, issues = read_table(path)
    missing = [one for one in _HEADINGS[:4] if table.index(one) is None]
    if missing:
        raise InputError(f"{table.file} has no column {missing[0]!r}; its headings should be: {', '.join(_HEADINGS)}.")
    found = []
    for row in table.rows:
        cells = {name: row.cells[at] if (at := table.index(name)) is not None else "" for name in _HEADINGS}
        place = table.place(row.line)
        take, who = cells["take"].casefold(), cells["by"] or " ".join((by or "").split())
        what = f"{cells['part']}.{cells['property']}"
        if take not in _TAKES:
            near = nearest(take, _TAKES)
            issues.append(issue("I-RCN-02", location=place, value=cells["take"], what=what, nearest=near))
            continue
        if not who or not cells["why"]:
            lacking = "who settled it" if not who else "the reason"
            issues.append(issue("I-RCN-03", location=place, value=what, lacking=lacking))
            continue
        value: Any = None
        if take == "value":
            target = find_target(cells["part"], cells["property"])
            value = target if isinstance(target, Mistake) else typed(target, cells["value"])
            if isinstance(value, Mistake):
                issues.append(issue(value.rule, location=place, value=value.value, **value.fields))
                continue
        found.append(Settled(cells["heart"], cells["part"], cells["property"], take, value, cells["why"], who, place))
    return found, issues
