"""From the two tables that a curator fills in to a crosswalk, and every mistake in them as an issue.

``columns.tsv``, one row for each use of a column::

    column           part            property       kind         style          unit  note
    Cat. no.         specimen        accession      identifier
    TV / leaflets    tricuspid_valve leaflet_count  number
    VA connection    stated          va_connection  value
    Weight           record          weight         measurement  decimal_comma  g
    Donor            -                              ignore
    european         description     school         constant

``values.tsv``, one row for each statement that a word makes; ``*`` is any column::

    column          local      part       property       value       state           match   reviewer
    VA connection   TGA        stated     va_connection  discordant                  exact   A. Reader
    Ventricles      single RV  ...
    *               not seen                                         not_examined    exact   A. Reader
    *               cut                              transected      not_assessable  exact   A. Reader

Both are UTF-8 with tabs; an apostrophe before a sign that begins a formula is not part of the word. A row with a
mistake is left out, and the issue says what would be right. Further headings may stand in columns.tsv (site, method,
material_state ... of a measurement) and in values.tsv (certainty).
"""

from __future__ import annotations

import os

from chordae.errors import InputError
from chordae.formulas import unguarded
from chordae.intake.crosswalk_columns import ColumnReader
from chordae.intake.crosswalk_rules import COLUMN_HEADINGS, EXTRAS, VALUE_HEADINGS, ColumnRule, Crosswalk, ValueRule
from chordae.intake.crosswalk_values import ValueReader
from chordae.intake.grid import Table
from chordae.intake.table import read_table
from chordae.issues import Issue, issue, nearest

__all__ = ["Crosswalk", "read_crosswalk"]


def read_crosswalk(
    columns: str | os.PathLike[str],
    values: str | os.PathLike[str] | None = None,
    *,
    data: tuple[bytes, bytes | None] | None = None,
) -> tuple[Crosswalk, list[Issue]]:
    """Read and check both tables.

    Parameters
    ----------
    columns, values
        The paths of columns.tsv and values.tsv; the second may be missing if no column has kind ``value``.
    data
        Their bytes, if they were read already.

    Raises
    ------
    InputError
        A file cannot be read, or lacks a heading that it must have.
    """
    table, issues = _read(columns, data[0] if data else None, ("column", "kind"), COLUMN_HEADINGS + EXTRAS)
    reader = ColumnReader(table, issues)
    found: dict[str, list[ColumnRule]] = {}
    for row in table.rows:
        rule = reader.rule(row)
        if rule is not None:
            found.setdefault(rule.column, []).append(rule)
    constants = tuple(rule for rules in found.values() for rule in rules if rule.kind == "constant")
    usable = {name: tuple(rule for rule in rules if rule.kind != "constant") for name, rules in found.items()}
    usable = {name: rules for name, rules in usable.items() if rules}
    if not any(rule.kind == "identifier" for rules in usable.values() for rule in rules):
        issues.append(issue("I-XW-13", location=table.place(table.heading_line)))
    decided: dict[tuple[str, str], list[ValueRule]] = {}
    if values is not None:
        words, more = _read(values, data[1] if data else None, ("column", "local"), (*VALUE_HEADINGS, "certainty"))
        issues += more
        decided = ValueReader(words, issues, usable, reader.faulty).rules()
    return (
        Crosswalk(usable, {key: tuple(rows) for key, rows in decided.items()}, constants, frozenset(reader.faulty)),
        issues,
    )


def _read(
    path: str | os.PathLike[str], data: bytes | None, needed: tuple[str, ...], known: tuple[str, ...]
) -> tuple[Table, list[Issue]]:
    table, issues = read_table(path, data=data, delimiter="\t")
    headings = [one for one in table.headings if not one.startswith("column ")]
    missing = [one for one in needed if one not in headings]
    if missing:
        raise InputError(
            f"{table.file} has no column {missing[0]!r}; its headings should be: {', '.join(known)}.",
            "Separate them with tabs.",
        )
    kept = [
        one for one in issues if one.rule != "I-TAB-08" and not (one.rule == "I-TAB-01" and one.severity == "warning")
    ]
    for heading in headings:
        if heading not in known:
            place = table.place(table.heading_line, table.index(heading))
            expected = ", ".join(known)
            kept.append(
                issue("I-XW-01", location=place, value=heading, expected=expected, nearest=nearest(heading, known))
            )
    return table.changed(unguarded), kept
