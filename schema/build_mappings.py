"""Write the compiled table of codes from the mapping sets, or say that it is stale.

::

    python schema/build_mappings.py            writes converters/chordae/_generated/mappings.json
    python schema/build_mappings.py --check    writes nothing; exit 1 if it is stale

The same bytes on every machine. Rows with faults stop the build: they are mended in the set, not left out here.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

TOP = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TOP / "converters"))

from chordae.errors import VocabularyError
from chordae.mapping import HELD, PREDICATES
from chordae.sssom import MappingSet, Row, read_mappings

TARGET = "converters/chordae/_generated/mappings.json"
SETS = "chordae-*.sssom.tsv"


def compile_mappings() -> bytes:
    """Return the content of ``mappings.json``.

    Raises
    ------
    VocabularyError
        A set has a row that cannot be read or a kind of match that is not known.
    """
    folder = TOP / "mappings"
    table: dict[str, Any] = {"sets": [], "rows": {}, "never": {}, "none": {}}
    for number, path in enumerate(sorted(folder.glob(SETS))):
        mappings, issues = read_mappings(path.read_bytes(), path.name)
        if issues:
            raise VocabularyError(f"{issues[0].location}: {issues[0].message}", f"{len(issues)} faults in all.")
        table["sets"].append(_describe(mappings))
        for row in mappings.rows:
            slug = row["subject_id"].removeprefix("term:")
            kind, entry = _entry(mappings, row, number)
            table[kind].setdefault(slug, []).append(entry)
    for kind in ("rows", "never", "none"):
        table[kind] = dict(sorted(table[kind].items()))
    return (json.dumps(table, ensure_ascii=False, separators=(",", ":")) + "\n").encode()


def _describe(mappings: MappingSet) -> dict[str, Any]:
    header = mappings.header
    return {
        "file": mappings.name,
        "id": header["mapping_set_id"],
        "title": header["mapping_set_title"],
        "version": header["mapping_set_version"],
        "source": header["object_source"],
        "release": header["object_source_version"],
        "reviewed": all(row["reviewer_label"] for row in mappings.rows),
        "rows": len(mappings.rows),
    }


def _entry(mappings: MappingSet, row: Row, number: int) -> tuple[str, list[Any]]:
    release = mappings.value(row, "object_source_version")
    if row.no_term:
        return "none", [number, release, row["comment"]]
    if row["predicate_id"] not in PREDICATES:
        raise VocabularyError(f"{mappings.name}:{row.line}: {row['predicate_id']} is no kind of match.")
    predicate = PREDICATES[row["predicate_id"]]
    same = row.positive and (predicate == "exact" or row["curation_rule_text"] == HELD)
    entry = [number, release, row["object_id"], row["object_label"], predicate]
    return "never" if row.negative else "rows", [*entry, bool(row["reviewer_label"]), same, row["comment"]]


def main() -> int:
    """Write the table, or with ``--check`` compare it."""
    content = compile_mappings()
    target = TOP / TARGET
    if "--check" in sys.argv[1:]:
        fresh = target.is_file() and target.read_bytes() == content
        if not fresh:
            print(f"{TARGET} is stale: run python schema/build_mappings.py", file=sys.stderr)
        return 0 if fresh else 1
    target.write_bytes(content)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
