"""The words of a collection that nobody has mapped: read from a list, or found with a crosswalk and its catalogue.

::

    LocalWord("aneurysmal flap", column="Atria / Septum", count=1, seen=("0039, line 44",))

A list is one of: ``report.json`` of a deposit (its unmapped words), a table with a heading ``word`` or ``local`` and,
where wanted, ``column``, ``count`` and ``seen`` (values.tsv is one: its rows without a match are taken), or plain
text with one word a line.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from chordae.errors import FormatError, InputError
from chordae.exchange.catalogue import find_catalogue
from chordae.files import read_input
from chordae.intake.crosswalk import Crosswalk, read_crosswalk
from chordae.intake.crosswalk_rules import normalised
from chordae.intake.encoding import decode
from chordae.intake.grid import Table
from chordae.intake.json_value import read_json
from chordae.intake.source import Source, find_crosswalk, read_source
from chordae.intake.table import is_table, read_table
from chordae.issues import Issue

__all__ = ["Collection", "LocalWord", "read_collection", "read_list"]

_SEEN = 3


@dataclass(frozen=True, slots=True)
class LocalWord:
    """A word of a catalogue: the column it stands in, how many cells hold it, and some of the places."""

    word: str
    column: str = ""
    count: int = 0
    seen: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Collection:
    """A crosswalk with what its catalogue holds.

    ``words`` are those not mapped, most frequent first; ``cells`` counts every word of every value column;
    ``table`` is None where the folder holds no catalogue. ``about`` is what collection.yaml says.
    """

    folder: Path
    crosswalk: Crosswalk
    words: tuple[LocalWord, ...]
    table: Table | None
    about: Mapping[str, Any]
    issues: tuple[Issue, ...]


def read_list(path: str) -> list[LocalWord]:
    """Read a list of words.

    Raises
    ------
    InputError
        It cannot be read, or holds no word.
    FormatError
        It is JSON, but no report of an exchange.
    """
    name = Path(path).name
    if name.endswith(".json"):
        found = _from_report(read_input(path), name)
    elif is_table(path) and not name.endswith(".txt"):
        found = _from_table(path)
    else:
        text, _ = decode(read_input(path), name)
        found = [LocalWord(" ".join(line.split())) for line in text.splitlines() if line.strip()]
    if not found:
        raise InputError(f"{name} holds no word.", "Give one word a line, or a table with a heading 'word'.")
    return list(dict.fromkeys(found))


def read_collection(folder: Path) -> Collection:
    """Read a crosswalk, and the catalogue beside it where there is one.

    Raises
    ------
    InputError
        There is no columns.tsv, or a file cannot be read.
    """
    columns, values = find_crosswalk(folder)
    crosswalk, issues = read_crosswalk(columns, values)
    undecided = [LocalWord(one.word, one.column) for one in _undecided(values)]
    try:
        catalogue = find_catalogue(folder)
    except InputError:
        return Collection(folder, crosswalk, tuple(undecided), None, {}, tuple(issues))
    if catalogue.is_document:
        return Collection(folder, crosswalk, tuple(undecided), None, catalogue.collection, tuple(issues))
    source = Source(str(catalogue.path), columns, values, catalogue.sheet, catalogue.encoding)
    built = read_source(source)
    table, _ = read_table(catalogue.path, sheet=catalogue.sheet, encoding=catalogue.encoding)
    places = _places(table, crosswalk, {column for column, _ in built.unmapped})
    counts: dict[tuple[str, str], LocalWord] = {}
    for (column, word), count in sorted(built.unmapped.items(), key=lambda one: (-one[1], one[0])):
        key = column, normalised(word)
        seen = tuple(places[column][normalised(word)][:_SEEN])
        known = counts.get(key)
        counts[key] = LocalWord(known.word if known else word, column, count + (known.count if known else 0), seen)
    words = list(counts.values())
    words += [one for one in undecided if (one.column, normalised(one.word)) not in counts]
    return Collection(folder, crosswalk, tuple(words), table, catalogue.collection, tuple(built.issues))


def _from_report(data: bytes, name: str) -> list[LocalWord]:
    report, _ = read_json(data, name)
    try:
        rows = report["unmapped_words"]
        return [LocalWord(str(one["word"]), str(one["column"]), int(one["count"])) for one in rows]
    except (ValueError, KeyError, TypeError, OverflowError):
        raise FormatError(
            f"{name} holds no list of words that are not mapped.",
            "Name data/report.json of a deposit, or a table with the headings column, word, count.",
        ) from None


def _from_table(path: str) -> list[LocalWord]:
    table, _ = read_table(path)
    at = {name: table.index(name) for name in ("word", "local", "column", "count", "seen", "match")}
    word = at["word"] if at["word"] is not None else at["local"]
    if word is None:
        raise InputError(f"{table.file} has no column 'word' or 'local'.", "Head the column of words with 'word'.")

    def cell(row: Any, name: str) -> str:
        index = at[name]
        return row.cells[index] if index is not None else ""

    return [
        LocalWord(
            row.cells[word],
            cell(row, "column"),
            int(count) if (count := cell(row, "count")).isdigit() and len(count) < 10 else 0,
            (cell(row, "seen"),) if cell(row, "seen") else (),
        )
        for row in table.rows
        if row.cells[word] and not cell(row, "match")
    ]


def _undecided(values: str | None) -> list[LocalWord]:
    return [] if values is None else _from_table(values)


def _places(table: Table, crosswalk: Crosswalk, columns: set[str]) -> Mapping[str, Mapping[str, list[str]]]:
    """Return column -> word -> records and lines in which it stands, each cell whole or split at its signs."""
    names = [name for name, rules in crosswalk.columns.items() if any(one.kind == "identifier" for one in rules)]
    ids = next((at for name in names if (at := table.index(name)) is not None), None)
    found: dict[str, dict[str, list[str]]] = {column: defaultdict(list) for column in columns}
    for row in table.rows:
        where = f"{row.cells[ids]}, line {row.line}" if ids is not None else f"line {row.line}"
        for column in columns:
            index = table.index(column)
            text = row.cells[index] if index is not None else ""
            pieces = {text, *(one for sign in ",;/+" for one in text.split(sign))}
            for piece in {normalised(one) for one in pieces} - {""}:
                found[column][piece].append(where)
    return found
