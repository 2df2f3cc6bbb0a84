"""What a format carried of a record: each statement coded, as text, or dropped. Counted, never asserted.

::

    carried {"/parts/0/pectinate_extent": "coded", "/remarks/0/text": "text"}   +   all statements of the record
        -> Loss: coded 1, text 1, dropped ["/parts/0/side", ...]

A writer marks what it put into the file; everything it did not mark counts as dropped. Where the format can be read,
the file is read again, and what was marked coded but does not come back the same counts as dropped too
(:func:`confirm`).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from chordae.formats.same import kept
from chordae.formats.statements import Statement, statements
from chordae.record import Record

__all__ = ["Carried", "Loss", "Manner", "Report", "confirm", "count_losses", "loss_report", "whole"]

Manner = Literal["coded", "text"]
"""How a statement was carried: in a field of its own that a program can read back, or only as words for a person."""

Carried = dict[str, Manner]
"""JSON pointer of each statement that was carried."""

_MANNERS = ("coded", "text", "dropped")


@dataclass(frozen=True, slots=True)
class Loss:
    """What became of the statements of one record in one format."""

    record: str
    format: str
    coded: tuple[Statement, ...] = ()
    text: tuple[Statement, ...] = ()
    dropped: tuple[Statement, ...] = field(default=())

    @property
    def total(self) -> int:
        """Number of statements of the record."""
        return len(self.coded) + len(self.text) + len(self.dropped)

    def to_json(self) -> dict[str, Any]:
        """Return counts, and the place and words of everything not carried coded."""
        return {
            "record": self.record,
            "format": self.format,
            "statements": self.total,
            "coded": len(self.coded),
            "text": [{"path": one.path, "value": one.value} for one in self.text],
            "dropped": [{"path": one.path, "value": one.value} for one in self.dropped],
        }


def count_losses(record: Record, format: str, carried: Mapping[str, Manner]) -> Loss:
    """Sort the statements of a record by how they were carried."""
    found: dict[str, list[Statement]] = {"coded": [], "text": [], "dropped": []}
    for one in statements(record):
        found[carried.get(one.path, "dropped")].append(one)
    return Loss(str(record.get("id")), format, tuple(found["coded"]), tuple(found["text"]), tuple(found["dropped"]))


def whole(record: Record) -> Carried:
    """Mark every statement of a record as coded: for a format that holds whatever a record holds."""
    return {one.path: "coded" for one in statements(record)}


def confirm(record: Record, carried: Mapping[str, Manner], again: Record | None) -> Carried:
    """Return what was carried, without the statements marked coded that do not stand in what was read again.

    Parameters
    ----------
    record
        What was written.
    carried
        What the writer marked.
    again
        The record with the same id in what was read from the file; ``None`` if there is none.
    """
    there = kept(record, again) if again is not None else set()
    return {path: manner for path, manner in carried.items() if manner == "text" or path in there}


class Report:
    """What became of the records of one export: the sums by kind of statement, and what each record lost.

    Holds counts and losses, not the records, so that an export of any length can be told.
    """

    def __init__(self, format: str, confirmed: str) -> None:
        self._format, self._confirmed = format, confirmed
        self._kinds: dict[str, Counter[str]] = {}
        self._records: list[dict[str, Any]] = []

    def add(self, loss: Loss) -> None:
        """Take in what became of one record."""
        for manner, some in (("coded", loss.coded), ("text", loss.text), ("dropped", loss.dropped)):
            for one in some:
                self._kinds.setdefault(one.kind, Counter())[manner] += 1
        self._records.append(loss.to_json())

    def to_json(self) -> dict[str, Any]:
        """Return what became of each record, the sums by kind of statement, and the totals."""
        rows = [
            {"format": self._format, "kind": kind, "statements": n.total()} | {one: n[one] for one in _MANNERS}
            for kind, n in sorted(self._kinds.items())
        ]
        return {
            "format": self._format,
            "confirmed": self._confirmed,
            "totals": {one: sum(row[one] for row in rows) for one in ("statements", *_MANNERS)},
            "kinds": rows,
            "records": self._records,
        }


def loss_report(
    format: str, noted: Iterable[tuple[Record, Carried]], again: Mapping[str, Record] | None
) -> dict[str, Any]:
    """Return what became of each record, the sums by kind of statement, and the totals.

    Parameters
    ----------
    format
        Name of the format.
    noted
        Records, each with what the writer marked.
    again
        What was read from the file written, by id; ``None`` where the format is not read, so that the marks of the
        writer stand unconfirmed.
    """
    report = Report(format, "by reading the file again" if again is not None else "as marked by the writer")
    for record, carried in noted:
        if again is not None:
            carried = confirm(record, carried, again.get(str(record.get("id"))))
        report.add(count_losses(record, format, carried))
    return report.to_json()
