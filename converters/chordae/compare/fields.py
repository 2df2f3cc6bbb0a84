"""From many hearts, each described by several readers, to the agreement on each field.

::

    reader A: examples/veyhaven     reader B: examples/tolliver_bay     pairs: exchange.tsv
        -> Field("conclusions", "va_connection", agreement=..., partial=0.97)
           Field("aorta", "override_per_cent", numbers: alpha of squared differences)

A reader who is silent, could not see or did not look has no value: it is left out of the coefficients, never taken
for a value. Partial credit counts a word and a wider word for the same as partly equal, by how alike they are
(:mod:`chordae.compare.information`); two values that are not one above the other get no credit. It stands apart and
enters no coefficient.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from chordae import model
from chordae.compare.agreement import Agreement, Interval, Ratings, agreement
from chordae.compare.align import align, aligned_facts
from chordae.compare.grounds import grounds, slug_of_value
from chordae.compare.hearts import Item, Said
from chordae.compare.information import lin
from chordae.compare.numbers import interval_alpha
from chordae.compare.sets import keys_of
from chordae.compare.told import place_of
from chordae.derive import derive
from chordae.record import Record
from chordae.terms import vocabulary

__all__ = ["Field", "agreement_of_fields"]

_FEWEST = 10
_LIST = " + "


@dataclass(frozen=True, slots=True)
class Field:
    """Agreement on one field over all hearts.

    ``partial`` is the mean share of pairs that agree, a wider word counted in part; for numbers ``agreement`` holds the
    raw share only, and ``numbers`` is Krippendorff's alpha for squared differences with their mean.
    """

    segment: str
    area: str
    slot: str
    agreement: Agreement
    partial: float | None = None
    numbers: float | None = None
    mean_difference: float | None = None

    @property
    def label(self) -> str:
        """The field in words."""
        return place_of(Item(self.segment, self.area, self.slot, Said(), Said(), "agree"))


def agreement_of_fields(
    sets: Sequence[Sequence[Record]], table: Sequence[Sequence[str]] | None = None, rounds: int = 500
) -> list[Field]:
    """Compute agreement for every field that at least two readers filled in for at least one heart.

    Parameters
    ----------
    sets
        One set a reader; or one set in which hearts are described more than once.
    table
        Rows of ids, one column a set: which descriptions are of one heart. Without it ids or catalogue numbers are.
    rounds
        Bootstrap samples; for fewer than ten hearts there is no interval.

    Returns
    -------
    list of Field
        In the order of sequential segmental analysis.
    """
    hearts = _hearts(sets, table)
    readers = max((len(one) for one in hearts), default=0)
    rows: dict[tuple[str, str, str], list[list[str | None]]] = defaultdict(list)
    for heart in hearts:
        for field, values in _values(heart, readers).items():
            if sum(value is not None for value in values) >= 2:
                rows[field].append(values)
    order = {name: at for at, (name, _) in enumerate(grounds().segments)}
    return [_field(field, rows[field], rounds) for field in sorted(rows, key=lambda one: (order[one[0]], one[1:]))]


def _hearts(sets: Sequence[Sequence[Record]], table: Sequence[Sequence[str]] | None) -> list[list[Record | None]]:
    """Return for each heart its descriptions, one place a reader."""
    if table is not None:
        by_key = [{key: one for one in reversed(records) for key in keys_of(one)} for records in sets]
        return [[known.get(key) for known, key in zip(by_key, row, strict=False)] for row in table]
    groups: dict[str, list[Record | None]] = {}
    if len(sets) == 1:
        for one in sets[0]:
            groups.setdefault(keys_of(one)[-1], []).append(one)
        return [group for group in groups.values() if len(group) > 1]
    for number, records in enumerate(sets):
        for one in records:
            key = next((key for key in keys_of(one) if key in groups), keys_of(one)[0])
            row = groups.setdefault(key, [None] * len(sets))
            row[number] = row[number] or one
    return list(groups.values())


def _values(heart: Sequence[Record | None], readers: int) -> Mapping[tuple[str, str, str], list[str | None]]:
    """Return field -> one value a reader; parts are called as the first reader calls them."""
    found: dict[tuple[str, str, str], list[str | None]] = defaultdict(lambda: [None] * readers)
    first = next((one for one in heart if one is not None), None)
    if first is None:
        return found
    of_first = derive(first)
    types = {str(part["id"]): str(part["type"]) for one in heart if one for part in one.get("parts") or ()}
    for number, record in enumerate(heart):
        if record is None:
            continue
        derived = of_first if record is first else derive(record)
        for key, slot in grounds().conclusions.items():
            if derived.get(key):
                found["conclusions", "conclusions", slot][number] = str(derived[key])
        names = {} if record is first else align(first, record, of_first, derived)
        for (area, slot), facts in aligned_facts(record, names).items():
            values = sorted(str(fact.value) for fact in facts if fact.value is not None)
            if values and grounds().compared(area, slot):
                segment = grounds().segment(area, types.get(area, ""))
                found[segment, area, slot][number] = _LIST.join(values)
    return found


def _field(field: tuple[str, str, str], rows: Ratings, rounds: int) -> Field:
    segment, area, slot = field
    stem = slot.partition(".")[0]
    known = model.tables().slots.get(stem)
    if area == "measurements" or (known is not None and (known.kind == "decimal" or known.range == "Commitment")):
        numbers = [[_number(value) for value in row] for row in rows]
        differences = [abs(a - b) for row in numbers for a, b in combinations([n for n in row if n is not None], 2)]
        whole = agreement(rows, 0)
        none = Interval(None, None, None)
        raw = Agreement(whole.hearts, whole.readings, whole.raw, none, none, none, none, {})
        mean = sum(differences) / len(differences) if differences else None
        return Field(segment, area, slot, raw, None, interval_alpha(numbers), mean)
    return Field(segment, area, slot, agreement(rows, rounds if len(rows) >= _FEWEST else 0), _partial(stem, rows))


def _partial(slot: str, rows: Ratings) -> float | None:
    """Mean over hearts of the mean credit of its pairs of readings."""
    shares = []
    for row in rows:
        pairs = list(combinations([value for value in row if value is not None], 2))
        if pairs:
            shares.append(sum(_credit(slot, *pair) for pair in pairs) / len(pairs))
    return sum(shares) / len(shares) if shares else None


def _credit(slot: str, one: str, other: str) -> float:
    if one == other:
        return 1.0
    mine, theirs = set(one.split(_LIST)), set(other.split(_LIST))
    if mine < theirs or theirs < mine:
        return len(mine & theirs) / len(mine | theirs)
    first, second = slug_of_value(slot, one), slug_of_value(slot, other)
    above = vocabulary().is_a(first, second) or vocabulary().is_a(second, first)
    return lin(first, second) if above else 0.0


def _number(text: str | None) -> float | None:
    try:
        return float((text or "").partition(" ")[0])
    except ValueError:
        return None
