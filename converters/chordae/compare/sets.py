"""Sets of descriptions: read from whatever the user names, and paired heart by heart.

::

    hearts.yaml, hearts.ttl, -     a document, or a file of any format that holds records
    examples/veyhaven              a folder with a catalogue and its crosswalk, or the catalogue itself
    out/veyhaven                   a deposit folder

    exchange.tsv    veyhaven  tolliver_bay  ...       two columns of record ids: which heart is which
                    0012      TB-0118
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from chordae.errors import InputError
from chordae.exchange.catalogue import COLLECTION, find_catalogue
from chordae.files import read_input
from chordae.formats.opening import open_path
from chordae.formats.recognise import is_template
from chordae.formats.table import Format, format_named, format_of_name
from chordae.intake.encoding import decode
from chordae.intake.source import Source, each_of
from chordae.intake.table import is_table, read_table
from chordae.intake.yaml_text import find_records
from chordae.issues import Issue, Location, issue
from chordae.rdf.emit import check_base
from chordae.record import Reading, Record
from chordae.shortform import expand_reading
from chordae.soundness import make_sound

__all__ = ["Pairs", "base_of", "keys_of", "pair_by_id", "pair_by_table", "pair_within", "read_set"]

_DEPOSIT = Path("data") / "records.ndjson"


@dataclass(frozen=True, slots=True)
class Pairs:
    """Pairs of descriptions of one heart, and sentences on those that found no partner."""

    pairs: tuple[tuple[Record, Record], ...]
    unpaired: tuple[str, ...]
    issues: tuple[Issue, ...] = ()


def read_set(name: str, format: str | None = None) -> tuple[list[Record], list[Issue]]:
    """Read the descriptions of one set, full and in the shape of the schema.

    Parameters
    ----------
    name
        A file, a folder, or ``-`` for standard input.
    format
        Name of a format of :mod:`chordae.formats.table`; by default from the name.

    Raises
    ------
    InputError
        It cannot be read, or a table has no crosswalk beside it.
    FormatError
        The format holds no records.
    """
    records, issues = [], []
    for reading, found in _readings(name, format):
        issues += found
        if reading is None:
            continue
        full, more = expand_reading(reading)
        sound, faults = make_sound(full)
        issues += [*more, *faults]
        if sound is not None and sound.record.get("id"):
            records.append(sound.record)
    return records, issues


def base_of(name: str) -> str | None:
    """Return the base IRI of the records of a set, from the collection.yaml of its folder; None if none is given."""
    path = Path(name)
    folder = path / "data" if (path / _DEPOSIT).is_file() else path
    if not folder.is_dir() or not (folder / COLLECTION).is_file():
        return None
    text, _ = decode(read_input(folder / COLLECTION), COLLECTION)
    values = [one.value for one in find_records(text) if isinstance(one.value, dict)]
    found = values[0].get("base_iri") if values else None
    return check_base(str(found)) if found else None


def _readings(name: str, format: str | None) -> Iterable[tuple[Reading | None, list[Issue]]]:
    path = Path(name)
    if format is None and (path / _DEPOSIT).is_file():
        return each_of(Source(str(path / _DEPOSIT)))
    known = _format(name, format)
    if known is not None and known.module != "documents":
        readings, issues = open_path(name, format_named(known.name, to="read"))
        return [(None, issues), *((one, []) for one in readings)]
    if known is None and (path.is_dir() or is_table(path)):
        catalogue = find_catalogue(path)
        columns, values = (str(one) for one in (*catalogue.crosswalk, "", "")[:2])
        return each_of(
            Source(str(catalogue.path), columns or None, values or None, catalogue.sheet, catalogue.encoding)
        )
    return each_of(Source(name, format=known.name if known is not None else None))


def _format(name: str, format: str | None) -> Format | None:
    if format is None and is_template(name):
        format = "xlsx"
    return format_named(format, to="read") if format is not None else format_of_name(name)


def pair_by_id(a: Sequence[Record], b: Sequence[Record]) -> Pairs:
    """Pair descriptions with the same id, else of the same catalogue number."""
    theirs = {key: one for one in reversed(b) for key in keys_of(one)}
    pairs, taken = [], set()
    unpaired = []
    for one in a:
        other = next((theirs[key] for key in keys_of(one) if key in theirs and id(theirs[key]) not in taken), None)
        if other is None:
            unpaired.append(f"{one['id']} stands in A only.")
        else:
            taken.add(id(other))
            pairs.append((one, other))
    unpaired += [f"{one['id']} stands in B only." for one in b if id(one) not in taken]
    return Pairs(tuple(pairs), tuple(unpaired))


def pair_by_table(a: Sequence[Record], b: Sequence[Record], path: str) -> Pairs:
    """Pair descriptions by a table whose first two columns hold ids of A and of B.

    Descriptions that the table does not name are not spoken of; a row whose id is not there is an issue.

    Raises
    ------
    InputError
        The table has less than two columns.
    """
    table, issues = read_table(path)
    if len(table.headings) < 2:
        raise InputError(f"{table.file} should have two columns of ids.", "Put the ids of A first, those of B second.")
    sides = [{key: one for one in reversed(records) for key in keys_of(one)} for records in (a, b)]
    pairs = []
    found = [*issues]
    for row in table.rows:
        both = [side.get(row.cells[at]) for at, side in enumerate(sides)]
        if both[0] is not None and both[1] is not None:
            pairs.append((both[0], both[1]))
            continue
        for at, one in enumerate(both):
            if one is None:
                place: Location = table.place(row.line, at)
                found.append(issue("I-CMP-01", location=place, value=row.cells[at], which="AB"[at]))
    return Pairs(tuple(pairs), (), tuple(found))


def pair_within(records: Sequence[Record]) -> Pairs:
    """Pair the readings of one set: descriptions of one specimen, the first with each later one."""
    groups: dict[str, list[Record]] = defaultdict(list)
    for one in records:
        specimen: Mapping[str, object] = one.get("specimen") or {}
        groups[str(specimen.get("accession") or one["id"])].append(one)
    pairs = [(group[0], other) for group in groups.values() for other in group[1:]]
    return Pairs(tuple(pairs), ())


def keys_of(record: Record) -> list[str]:
    """Return the names by which a description may be looked up: its id, and the catalogue number of its specimen."""
    specimen: Mapping[str, object] = record.get("specimen") or {}
    return list(dict.fromkeys(str(one) for one in (record["id"], specimen.get("accession")) if one))
