"""What every format carries of the example collections: written, read again, and counted statement by statement.

::

    python tests/bench/measure_losses.py            write examples/losses.md
    python tests/bench/measure_losses.py --check    say whether it is as measured now

Nothing here is asserted by a format itself: a statement counts as coded only if it comes back the same from what was
written. Formats that are not read have the marks of their writers, and the table says so.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

TOP = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(TOP), str(TOP / "converters")]

from chordae.canonical import canonical
from chordae.formats.dwca.archive import FACTS_FILE
from chordae.formats.losses import Carried, loss_report
from chordae.formats.opening import open_bytes
from chordae.formats.packing import pack, unpack
from chordae.formats.settings import Settings
from chordae.formats.table import FORMATS, Format
from chordae.intake.source import Source, find_crosswalk, read_source
from chordae.record import Record
from chordae.shortform import expand_reading
from chordae.soundness import make_sound

PAGE = TOP / "examples" / "losses.md"
COLLECTIONS = {"veyhaven": "catalogue.xlsx", "tolliver_bay": "catalogue.csv", "valid": "*.yaml"}
_WHEN = "2026-01-31T12:00:00Z"
_BASE = "https://example.org/invented/"
_HEAD = """# What each format carries
Measured over the invented collections of this folder by `python tests/bench/measure_losses.py`; not edited by hand.
Every statement of every record (one word, number or text at one place) is counted once.
*coded*: chordae reads it back the same from what was written. *as words*: only a person can read it. *dropped*: gone.
*standard*: coded even when everything that only chordae understands is taken out of the file before it is read (our
extensions in FHIR, the table of facts in a Darwin Core Archive); other systems can be expected to keep that much.
Formats marked with a star are written only; their counts are the writer's own, and count nothing as coded.
No format turns *absent*, *not assessable* or *not examined* into anything else: what it cannot say, it leaves out.
Specimens for teaching, research and registries; not for diagnosis or planning treatment.
"""


def records(name: str) -> list[Record]:
    """Return the records of one collection, in canonical order."""
    folder = TOP / "examples" / name
    found: list[Record] = []
    for path in sorted(folder.glob(COLLECTIONS[name])):
        columns, values = find_crosswalk(folder) if (folder / "columns.tsv").is_file() else (None, None)
        for reading in read_source(Source(str(path), columns=columns, values=values)).readings:
            found.append(canonical(make_sound(expand_reading(reading)[0])[0].record))
    return found


def _bare_fhir(data: bytes) -> bytes:
    """A FHIR file without extensions."""

    def bare(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: bare(one) for key, one in value.items() if key != "extension"}
        return [bare(one) for one in value] if isinstance(value, list) else value

    try:
        return json.dumps(bare(json.loads(data))).encode()
    except json.JSONDecodeError:
        return b"".join(json.dumps(bare(json.loads(line))).encode() + b"\n" for line in data.splitlines())


def _bare_dwca(data: bytes) -> bytes:
    """A Darwin Core Archive whose table of facts has its heading only."""
    files = unpack(data, "archive")
    files[FACTS_FILE] = files[FACTS_FILE].splitlines(keepends=True)[0]
    return pack(files.items())


BARE = {"fhir": _bare_fhir, "fhir-ndjson": _bare_fhir, "dwca": _bare_dwca}
"""What takes out of a file all that only chordae understands."""


def measure(format: Format, found: list[Record], *, standard: bool = False) -> dict[str, Any]:
    """Write records, read them again, and count; with ``standard`` after all that is our own was taken out."""
    noted: list[tuple[Record, Carried]] = []
    settings = Settings(format=format.name, base=_BASE, recorded=_WHEN).noting(
        lambda record, carried: noted.append((record, carried))
    )
    items = ((record, None) for record in found)
    module = format.load()
    data = pack(module.write_files(items, settings)) if format.several else b"".join(module.write(items, settings))
    if standard:
        data = BARE[format.name](data)
    again = None
    if format.reads:
        again = {str(one.record.get("id")): canonical(one.record) for one in open_bytes(data, "out", format)[0]}
    return loss_report(format.name, noted, again)


def page() -> str:
    """Return the page with both tables."""
    collections = {name: records(name) for name in COLLECTIONS}
    everything = [record for found in collections.values() for record in found]
    formats = [one for one in FORMATS.values() if one.holds == "records"]
    by_collection = {one.name: [measure(one, found) for found in collections.values()] for one in formats}
    lines = [_HEAD, f"## All statements ({len(everything)} descriptions)"]
    lines += ["| format | statements | coded | as words | dropped | coded | standard |"]
    lines += ["|---|---:|---:|---:|---:|---:|---:|"]
    for one in formats:
        reports = by_collection[one.name]
        n = {key: sum(report["totals"][key] for report in reports) for key in reports[0]["totals"]}
        standard = n["coded"]
        if one.name in BARE:
            standard = measure(one, everything_once(collections), standard=True)["totals"]["coded"]
        name = one.name if one.reads else f"{one.name} \\*"
        share, own = (f"{100 * part / n['statements']:.1f} %" for part in (n["coded"], standard))
        lines.append(f"| {name} | {n['statements']} | {n['coded']} | {n['text']} | {n['dropped']} | {share} | {own} |")
    lines += ["", "## By kind of statement, per cent coded (as words)"]
    lines += list(_kinds(formats, by_collection))
    return "\n".join(lines) + "\n"


def everything_once(collections: dict[str, list[Record]]) -> list[Record]:
    """Return all records with ids that are different."""
    return [{**record, "id": f"{name}-{record['id']}"} for name, found in collections.items() for record in found]


def _kinds(formats: list[Format], reports: dict[str, list[dict[str, Any]]]) -> Iterator[str]:
    kinds = sorted({row["kind"] for found in reports.values() for report in found for row in report["kinds"]})
    yield "| format | " + " | ".join(kinds) + " |"
    yield "|---" * (len(kinds) + 1) + "|"
    for one in formats:
        cells = []
        for kind in kinds:
            rows = [row for report in reports[one.name] for row in report["kinds"] if row["kind"] == kind]
            total = sum(row["statements"] for row in rows)
            coded, text = (100 * sum(row[key] for row in rows) / total for key in ("coded", "text"))
            cells.append(f"{coded:.0f}" + (f" ({text:.0f})" if text >= 0.5 else ""))
        yield f"| {one.name} | " + " | ".join(cells) + " |"


def main() -> int:
    """Write the page, or compare it."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true", help="compare, and write nothing")
    args = parser.parse_args()
    text = page()
    if args.check:
        fresh = PAGE.is_file() and PAGE.read_text(encoding="utf-8") == text
        print("examples/losses.md is as measured" if fresh else "examples/losses.md is not as measured; run me again")
        return 0 if fresh else 1
    PAGE.write_text(text, encoding="utf-8")
    print(text)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
