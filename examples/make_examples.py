"""From hearts.yaml, the crosswalks and planted_faults.tsv to the two catalogues and exchange.tsv.

::

    hearts.yaml ---- facts of a heart ------+
    columns.tsv, values.tsv ---- words -----+--> cells --> planted faults --> catalogue.xlsx, catalogue.csv
                                            +--> exchange.tsv

Everything is invented. A word of values.tsv fits a heart if all it states is a fact of that heart; of the words
of a column the one that states most is written. A fact that no word states stops the run, so that a
catalogue says all that hearts.yaml says. The same bytes come out at every run.

Run ``python examples/make_examples.py`` in the root of the checkout.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

import yaml
from catalogue_files import Row, write_csv, write_workbook

HERE = Path(__file__).parent
EXTRA = {"veyhaven": "Conclusion / Label colour", "tolliver_bay": "Photo Roll"}
"""The column that nobody mapped; its cells say nothing about the heart."""

Facts = dict[str, Any]


@dataclass
class Column:
    """A column of a catalogue, with the words that may stand in it and what each states."""

    heading: str
    kind: str = ""
    style: str = ""
    facts: list[str] = field(default_factory=list)
    words: dict[str, Facts] = field(default_factory=dict)


def read_tsv(path: Path) -> list[dict[str, str]]:
    """Return the rows of a tab-separated table by heading."""
    lines = path.read_text(encoding="utf-8").splitlines()
    heads = lines[0].split("\t")
    return [dict(zip(heads, line.split("\t"), strict=True)) for line in lines[1:]]


def read_columns(folder: Path) -> list[Column]:
    """Read the crosswalk of a collection, columns in the order of columns.tsv."""
    columns: dict[str, Column] = {}
    for row in read_tsv(folder / "columns.tsv"):
        if row["kind"] == "constant":
            continue
        column = columns.setdefault(row["column"], Column(row["column"]))
        column.kind, column.style = row["kind"], row["style"]
        if row["kind"] == "measurement":
            column.facts.append(f"measure.{row['part'] or 'heart'}.{row['property']}")
        elif row["part"]:
            column.facts.append(f"{row['part']}.{row['property']}")
    for row in read_tsv(folder / "values.tsv"):
        if row["column"] != "*" and row["match"] != "ambiguous":
            add_statement(columns[row["column"]].words.setdefault(row["local"], {}), row)
    return list(columns.values())


def add_statement(states: Facts, row: dict[str, str]) -> None:
    """Add what one row of values.tsv states to what the word states."""
    part, name, value, state = row["part"], row["property"], row["value"], row["state"]
    slot, _, ventricle = name.partition(".")
    key = f"{part}.{slot}"
    if slot in ("opens_into", "arises_from"):
        states.setdefault(key, []).append(f"{ventricle} {value}" if ventricle else value)
    elif slot in ("diagnoses", "obstruction", "ventricle_position", "preparation"):
        states.setdefault(key, []).append(value)
    else:
        states[key] = state or (int(value) if value.isdigit() else value)
        if state and value:
            states[f"{part}.state_reason"] = value


def facts_of(heart: dict[str, Any], kinds: dict[str, Any], *more: Facts) -> Facts:
    """Return the facts of a heart: those of its kinds, its own, and further ones."""
    facts: Facts = {}

    def take(new: Facts) -> None:
        for key, value in new.items():
            if key.endswith(".*"):
                for old in [one for one in facts if one.startswith(key[:-1])]:
                    del facts[old]
            elif value is None:
                facts.pop(key, None)
            else:
                facts[key] = value

    def like(name: str) -> None:
        for parent in kinds[name].get("like", []):
            like(parent)
        take(kinds[name]["facts"])

    for name in heart["like"]:
        like(name)
    for one in (heart.get("facts", {}), *more):
        take(one)
    return facts


def chance(sides: int, *words: str) -> int:
    """Return a number from 0 to sides - 1 that depends on the words alone."""
    return int.from_bytes(hashlib.sha256("|".join(words).encode()).digest()[:6]) % sides


def word_for(column: Column, facts: Facts, record: str) -> str:
    """Return the word that states most of the facts; a fact that it leaves unsaid stops the run."""
    fitting = {
        word: states
        for word, states in column.words.items()
        if all(facts.get(key) == value for key, value in states.items())
    }
    known = {key for states in column.words.values() for key in states}
    most = max((len(states) for states in fitting.values()), default=0)
    best = [word for word, states in fitting.items() if len(states) == most]
    said = set(fitting[best[0]]) if best else set()
    unsaid = sorted(key for key in known if key in facts and key not in said)
    if unsaid:
        raise SystemExit(f"{record}: no word in {column.heading!r} states {unsaid}")
    return best[chance(len(best), record, column.heading)] if best else ""


def as_written(value: Any, style: str) -> str:
    """Return a number, or words, as the collection writes them."""
    text = format(value, "g") if isinstance(value, int | float) else str(value)
    return text.replace(".", ",") if style == "decimal_comma" else text


def written_case(word: str, record: str, heading: str) -> str:
    """Return the word in the capitals of a hurried hand: now and then other ones."""
    turn = chance(40, record, heading, "case")
    return word.upper() if turn == 0 else word[:1].upper() + word[1:] if turn in (1, 2) else word


def rows_of(name: str, source: dict[str, Any], columns: list[Column]) -> Iterator[Row]:
    """Write each heart of a collection down in its words, in the order of the numbers."""
    desk = source["collections"][name]
    hearts = [one for one in source["hearts"] if name in one]
    for heart in sorted(hearts, key=lambda one: str(one[name]["number"])):
        here = heart[name]
        own = {"specimen.accession": here["number"]}
        if name == "tolliver_bay":
            own["specimen.other_numbers"] = heart.get("veyhaven", {}).get("number", "")
        facts = facts_of(heart, source["kinds"], here.get("facts", {}))
        second = here.get("second_reader")
        readings = [(here, facts, "first" if second else "")]
        if second:
            readings.append((second, facts_of({"like": []}, {}, facts, second["facts"]), "second"))
        for reading, seen, reader in readings:
            own = {**own, **desk_facts(desk, reading["number"], here["number"], reader)}
            yield Row(reading["number"], write_cells(reading, seen, desk, columns, own))


def desk_facts(desk: dict[str, Any], record: str, jar: str, reader: str) -> Facts:
    """Return who described the heart and when, and when it came: invented by chance."""
    readers = desk["observers"]
    turn = chance(len(readers), jar) + (reader == "second")
    low, high = desk["years"]
    day = date.fromordinal(date(low, 1, 1).toordinal() + chance((high - low) * 365, record, "day"))
    first, last = desk["acquired"]
    written = f"{day.day}.{day.month}.{day.year}" if desk["date"] == "d.m.y" else f"{day.month}/{day.day}/{day.year}"
    return {
        "description.observer": readers[turn % len(readers)],
        "description.reader": reader,
        "description.described_on": written,
        "specimen.acquired": str(first + chance(last - first, jar, "in")),
    }


def write_cells(
    here: dict[str, Any], facts: Facts, desk: dict[str, Any], columns: list[Column], own: Facts
) -> dict[str, str]:
    """Write one description down as cells; ``own`` are the facts that are not of the heart."""
    record, jar = str(here["number"]), str(own["specimen.accession"])
    cells: dict[str, str] = {}
    left = {one for one in facts if one not in desk["silent"]}
    for column in columns:
        name, fact = column.heading, column.facts[0] if column.facts else ""
        if name in here.get("cells", {}):
            cells[name] = here["cells"][name]
        elif column.kind == "value":
            rare = name in desk["seldom"] and chance(9, record, name, "blank") == 0
            cells[name] = "" if rare else written_case(word_for(column, facts, record), record, name)
            left -= {key for states in column.words.values() for key in states}
        elif column.kind == "identifier":
            cells[name] = record
        elif column.kind == "remark":
            cells[name] = here.get("remarks", "")
        elif column.kind == "ignore":
            cells[name] = desk["shelf"].format(chance(7, jar) + 1, "abcdef"[chance(6, jar, "shelf")])
        elif fact in own:
            cells[name] = own[fact]
        elif fact in facts:
            cells[name] = as_written(facts[fact], column.style)
            left.discard(fact)
    if left:
        raise SystemExit(f"{record}: no column for {sorted(left)}")
    return cells


def plant(rows: list[Row], faults: list[dict[str, str]], heading: str) -> list[Row]:
    """Put the faults in; ``heading`` is that of the column of numbers."""
    by_record = {one.record: one for one in rows}
    for fault in faults:
        row = by_record.get(fault["record"])
        if fault["how"] in ("cell", "formula", "date") and row is not None:
            row.cells[fault["column"]] = fault["cell"].replace("\\n", "\n")
            row.how[fault["column"]] = fault["how"]
        elif fault["how"] == "repeat" and row is not None:
            rows.insert(rows.index(row) + 9, Row(row.record, dict(row.cells), dict(row.how)))
        elif fault["how"] == "no_number" and row is not None:
            row.cells[heading] = ""
        elif fault["how"] == "no_heading" and row is not None:
            row.cells[""] = fault["cell"]
        elif fault["how"] == "wide" and row is not None:
            row.how[""] = "wide"
    return rows


def fault_table(faults: list[dict[str, str]]) -> str:
    """Return the planted faults as a table for the README."""
    lines = ["| collection | heart | column | cell | what is wrong | rule |", "|---|---|---|---|---|---|"]
    for fault in faults:
        shown = [fault[one].replace("|", "\\|") for one in ("collection", "record", "column", "cell", "wrong", "rule")]
        shown[3] = f"`{shown[3]}`" if shown[3] else ""
        lines.append(f"| {' | '.join(shown)} |")
    return "\n".join(lines)


def main() -> None:
    """Write both catalogues, the table of hearts that stand in both, and the table of faults in the README."""
    source = yaml.safe_load((HERE / "hearts.yaml").read_text(encoding="utf-8"))
    faults = read_tsv(HERE / "planted_faults.tsv")
    for name in ("veyhaven", "tolliver_bay"):
        columns = read_columns(HERE / name)
        rows = plant(
            list(rows_of(name, source, columns)),
            [one for one in faults if one["collection"] == name],
            columns[0].heading,
        )
        headings = [one.heading for one in columns]
        headings.insert(len(headings) - 2, EXTRA[name])
        if name == "veyhaven":
            headings.insert(next(n for n, one in enumerate(headings) if one.startswith("Conclusion")), "")
        for row in rows:
            if chance(3, row.record, "extra"):
                row.cells[EXTRA[name]] = "blue" if name == "veyhaven" else f"roll {chance(30, row.record) + 1}"
        if name == "veyhaven":
            write_workbook(HERE / name / "catalogue.xlsx", headings, rows)
        else:
            write_csv(HERE / name / "catalogue.csv", headings, rows)
    lines = ["veyhaven\ttolliver_bay\tverdict\tnote"]
    for heart in source["hearts"]:
        if "exchange" in heart:
            link = heart["exchange"]
            numbers = [heart[one]["number"] for one in ("veyhaven", "tolliver_bay")]
            lines.append("\t".join([*numbers, link["verdict"], link["note"]]))
    (HERE / "exchange.tsv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    readme = (HERE / "README.md").read_text(encoding="utf-8")
    before, after = readme.split("<!-- faults -->")[0], readme.split("<!-- end of faults -->")[1]
    table = f"<!-- faults -->\n{fault_table(faults)}\n<!-- end of faults -->"
    (HERE / "README.md").write_text(before + table + after, encoding="utf-8")


if __name__ == "__main__":
    main()
