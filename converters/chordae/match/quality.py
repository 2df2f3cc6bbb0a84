"""How good a crosswalk is for its catalogue: coverage, conflicts, words never seen, terms given up, what is lost.

::

    column          cells  decided  asked  open      words  decided  asked  open
    Spleen             58       57      0     1          4        3      0     1
    all             2,310    2,290     12     8        301      290      5     6

*Decided*: a row of values.tsv is applied. *Asked*: the word may mean more than one thing, and its question is not
answered. *Open*: no row decides. Cells of numbers, dates and free text are no words and are not counted.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from chordae.intake.crosswalk_rules import ANY, LIST_STYLES, NOT_RECORDED, Crosswalk, ValueRule, normalised
from chordae.intake.grid import Table
from chordae.intake.targets import Target
from chordae.issues import Issue, issue
from chordae.match.local import Collection
from chordae.match.own import names_of
from chordae.match.places import term_of
from chordae.match.words import content
from chordae.terms import vocabulary

__all__ = ["Coverage", "Quality", "judge"]

_LOSSY = {
    "close": "it means nearly this",
    "broad": "it says more than the term",
    "narrow": "it says less than the term",
}


@dataclass(slots=True)
class Coverage:
    """Cells and different words of one column that hold a word, by what happens to them."""

    cells: Counter[str] = field(default_factory=Counter)
    words: Counter[str] = field(default_factory=Counter)

    def share(self, what: str) -> float | None:
        """Share of cells or words that are decided, 0 to 1; None where there is none."""
        counts: Counter[str] = getattr(self, what)
        return counts["decided"] / counts.total() if counts.total() else None


@dataclass(frozen=True, slots=True)
class Quality:
    """What was found; ``columns`` maps a heading to its coverage, ``open_columns`` to filled cells nobody mapped."""

    columns: Mapping[str, Coverage]
    open_columns: Mapping[str, int]
    unseen: tuple[tuple[str, str], ...]
    issues: tuple[Issue, ...]

    @property
    def whole(self) -> Coverage:
        """Coverage of all columns together."""
        whole = Coverage()
        for one in self.columns.values():
            whole.cells.update(one.cells)
            whole.words.update(one.words)
        return whole

    def to_json(self) -> dict[str, Any]:
        """Return plain data."""

        def row(one: Coverage) -> dict[str, Any]:
            return {
                what: {name: getattr(one, what)[name] for name in ("decided", "asked", "open")}
                for what in ("cells", "words")
            }

        return {
            "all": row(self.whole),
            "columns": {name: row(one) for name, one in self.columns.items()},
            "columns_not_mapped": dict(self.open_columns),
            "never_seen": [{"column": column, "word": word} for column, word in self.unseen],
            "issues": [one.to_json() for one in self.issues],
        }

    def to_text(self) -> str:
        """Return the table of coverage and the counts of what was found, in words."""
        lines = [
            f"{'column':<34}{'cells':>7}{'decided':>9}{'asked':>7}{'open':>6}{'words':>8}{'decided':>9}{'asked':>7}{'open':>6}"
        ]
        for name, one in [*self.columns.items(), ("all", self.whole)]:
            cells, words = one.cells, one.words
            lines.append(
                f"{name[:33]:<34}{cells.total():>7,}{_per_cent(one.share('cells')):>9}{cells['asked']:>7,}{cells['open']:>6,}"
                f"{words.total():>8,}{_per_cent(one.share('words')):>9}{words['asked']:>7,}{words['open']:>6,}"
            )
        lines.append("")
        for name, count in self.open_columns.items():
            lines.append(f"Column not mapped: {name}, {count:,} filled cells.")
        lines += [f"Mapped but never seen: {word!r} in {column}." for column, word in self.unseen]
        counts = Counter(one.rule for one in self.issues)
        lines += [f"{told}: {counts[rule]:,}" for rule, told in _TOLD.items()]
        return "\n".join(lines) + "\n"


_TOLD = {
    "I-QUA-01": "Words mapped in two ways",
    "I-QUA-02": "Words mapped to a term that is given up",
    "I-QUA-03": "Words of which something is lost",
    "I-QUA-04": "Groups of words that cannot be told apart afterwards",
}


def judge(collection: Collection) -> Quality:
    """Judge a crosswalk.

    Parameters
    ----------
    collection
        With its catalogue: coverage and words never seen; without: conflicts, terms given up and losses only.
    """
    crosswalk, table = collection.crosswalk, collection.table
    columns: dict[str, Coverage] = {}
    open_columns: dict[str, int] = {}
    unseen: list[tuple[str, str]] = []
    if table is not None:
        met: set[tuple[str, str]] = set()
        for index, heading in enumerate(table.headings):
            filled = [row.cells[index] for row in table.rows if row.cells[index]]
            if heading not in crosswalk.columns:
                if filled and heading not in crosswalk.faulty:
                    open_columns[heading] = len(filled)
            elif any(rule.kind == "value" for rule in crosswalk.columns[heading]):
                columns[heading] = _coverage(crosswalk, heading, filled, met)
        unseen = _unseen(crosswalk, table, met)
    issues = [*_conflicts(crosswalk), *_given_up(crosswalk), *_lossy(crosswalk), *_merged(crosswalk)]
    return Quality(columns, open_columns, tuple(unseen), tuple(issues))


def _coverage(crosswalk: Crosswalk, heading: str, filled: Sequence[str], met: set[tuple[str, str]]) -> Coverage:
    found = Coverage()
    style = next((one.style for one in crosswalk.columns[heading] if one.kind == "value" and one.style), "")
    sign = LIST_STYLES.get(style)
    numbers = any(one.kind in ("number", "percent", "measurement", "date") for one in crosswalk.columns[heading])
    words: dict[str, str] = {}
    for cell in filled:
        for word in [one.strip() for one in cell.split(sign)] if sign else [cell]:
            if not word:
                continue
            rules = crosswalk.decisions(heading, word)
            if not rules and numbers:
                continue
            what = "open" if not rules else "asked" if any(one.match == "ambiguous" for one in rules) else "decided"
            found.cells[what] += 1
            words[normalised(word)] = what
            met |= {(one.column, normalised(one.local)) for one in rules}
    found.words.update(words.values())
    return found


def _unseen(crosswalk: Crosswalk, table: Table, met: set[tuple[str, str]]) -> list[tuple[str, str]]:
    """Words with a row of their own that no cell holds; words for any column count only if no cell holds them."""
    found = []
    for (column, word), rules in crosswalk.values.items():
        if (column, word) not in met and (column == ANY or table.index(column) is not None):
            found.append((column, rules[0].local))
    return found


def _each(crosswalk: Crosswalk) -> Iterator[tuple[ValueRule, Target | None, str]]:
    """Yield every applied row with the place it fills and the term it says; a row of numbers or words has no term."""
    for rules in crosswalk.values.values():
        for rule in rules:
            if rule.match == "ambiguous" or rule.state == NOT_RECORDED:
                continue
            columns = crosswalk.columns.get(rule.column, ())
            targets = [rule.target] if rule.target else [one.target for one in columns if one.kind == "value"]
            for target in targets or [None]:
                yield rule, target, term_of(target, rule.value, rule.state) or ""


def _conflicts(crosswalk: Crosswalk) -> Iterator[Issue]:
    first: dict[tuple[str, str], ValueRule] = {}
    seen: dict[tuple[str, str], set[tuple[str, str]]] = defaultdict(set)
    for rule, target, _ in _each(crosswalk):
        if target is None:
            continue
        key = normalised(rule.local), str(target)
        said = rule.value, rule.state
        before = first.setdefault(key, rule)
        if before.column != rule.column and (before.value, before.state) != said and said not in seen[key]:
            told: dict[str, Any] = {
                "first": before.value or before.state,
                "now": rule.value or rule.state,
                "place": str(target),
            }
            yield issue(
                "I-QUA-01", location=rule.place, value=rule.local, column=before.column, other=rule.column, **told
            )
        seen[key].add(said)


def _given_up(crosswalk: Crosswalk) -> Iterator[Issue]:
    for rule, _, slug in _each(crosswalk):
        term = vocabulary().get(slug)
        if term is not None and term.deprecated:
            after = vocabulary().successor(slug)
            told = f" Use {after.european} ({after.slug})." if after else ""
            fields: dict[str, Any] = {"term": term.european, "version": term.deprecated, "successor": told}
            yield issue("I-QUA-02", location=rule.place, value=rule.local, column=rule.column, **fields)


def _lossy(crosswalk: Crosswalk) -> Iterator[Issue]:
    for rule, target, slug in _each(crosswalk):
        if rule.match not in _LOSSY:
            continue
        term = vocabulary().get(slug)
        lost = _LOSSY[rule.match]
        if term is not None:
            known = {word for name in names_of(term) for word in content(name.text)}
            left = [word for word in content(rule.local) if word not in known]
            if left and rule.match in ("broad", "close"):
                lost += f"; what is not in the term: {', '.join(left)}"
        if rule.note:
            lost += f" ({rule.note})"
        told = term.european if term else rule.value or rule.state
        place = f"{told} at {target}" if target is not None else told
        yield issue("I-QUA-03", location=rule.place, value=rule.local, column=rule.column, term=place, lost=lost)


def _merged(crosswalk: Crosswalk) -> Iterator[Issue]:
    """Words of one column that make the same statements, one of which at least is not exact."""
    statements: dict[tuple[str, str], set[tuple[str, str, str]]] = defaultdict(set)
    rows: dict[tuple[str, str], list[ValueRule]] = defaultdict(list)
    for rule, target, _ in _each(crosswalk):
        key = rule.column, normalised(rule.local)
        statements[key].add((str(target), rule.value, rule.state))
        rows[key].append(rule)
    groups: dict[tuple[str, frozenset[tuple[str, str, str]]], list[list[ValueRule]]] = defaultdict(list)
    for key, said in statements.items():
        groups[key[0], frozenset(said)].append(rows[key])
    for (column, _), several in groups.items():
        if len(several) > 1 and any(one.match != "exact" for rules in several for one in rules):
            words = ", ".join(f'"{rules[0].local}"' for rules in several)
            one = several[0][0]
            yield issue("I-QUA-04", location=one.place, value=words, column=column, term=one.value or one.state)


def _per_cent(share: float | None) -> str:
    return "" if share is None else f"{100 * share:.1f} %"
