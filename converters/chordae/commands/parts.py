"""Options and work of ``chordae check`` and ``chordae exchange`` on a folder of parts; see :mod:`chordae.parts`."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from chordae.commands.options import write_data

__all__ = ["add_options", "check", "exchange", "folder_of"]

_MANY = 5_000


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add the options on a folder of parts."""
    group = parser.add_argument_group("a folder of .ndjson and .parquet files")
    group.add_argument(
        "--cluster",
        metavar="WHERE",
        help="local (a worker a processor), local:N, or the address of a Dask scheduler (default: this process)",
    )
    group.add_argument("--work", metavar="FOLDER", help="work folder, seen by all workers (default: beside the input)")


def folder_of(args: argparse.Namespace, inputs: list[str]) -> Path | None:
    """Return the folder of parts that is the only input, ``None`` if it is something else."""
    from chordae.errors import FormatError
    from chordae.parts.plan import is_parts

    if len(inputs) == 1 and inputs[0] != "-" and is_parts(inputs[0]):
        return Path(inputs[0])
    if args.cluster is not None or args.work is not None:
        raise FormatError(
            "--cluster and --work are for one folder of .ndjson or .parquet files.",
            "Put the parts into a folder of their own, without columns.tsv.",
        )
    return None


def check(args: argparse.Namespace, folder: Path) -> int:
    """Check a folder of parts; shows the issues, or their counts where there are many."""
    import orjson

    from chordae.issues import Issue, at_or_above
    from chordae.parts import check_parts
    from chordae.report.listing import list_issues

    profile = None
    if args.profile:
        from chordae.shapes.profile_file import find_profile, read_profile

        read_profile(args.profile)  # tells its mistakes
        profile, _ = find_profile(args.profile)
    found = check_parts(folder, _work(args, folder, "check"), cluster=args.cluster or "", profile=profile)
    total = sum(found.severities.values())
    if total <= _MANY:
        told = [orjson.loads(line) for line in found.issues.read_bytes().splitlines()]
        issues = [Issue.from_json(one) for one in told]
        write_data(list_issues(issues, args.report), args.report_to)
    else:
        for (rule, severity), count in sorted(found.rules.items(), key=lambda item: (-item[1], item[0])):
            write_data(f"{count:9,}  {severity:9}  {rule}\n", None)
    print(
        f"{found.records:,} records in {found.slices:,} slices, {total:,} issues: {found.issues}\n"
        f"{len(found.untested)} rules met nothing to look at.",
        file=sys.stderr,
    )
    return 1 if at_or_above(found.worst, args.fail_on) else 0


def exchange(args: argparse.Namespace, folder: Path) -> Any:
    """Exchange a folder of parts; returns what was made."""
    from chordae.exchange.catalogue import COLLECTION
    from chordae.files import read_input
    from chordae.intake.yaml_text import find_records
    from chordae.parts import exchange_parts

    about = Path(args.collection) if args.collection else folder / COLLECTION
    said: dict[str, Any] = {}
    if about.is_file():
        found = [one.value for one in find_records(read_input(about).decode(errors="replace"))]
        said = {str(key): str(value) for key, value in (found[0] if found else {}).items() if value is not None}
    if args.base:
        said["base_iri"] = args.base
    return exchange_parts(folder, Path(args.out), _work(args, folder, "exchange"), said, cluster=args.cluster or "")


def _work(args: argparse.Namespace, folder: Path, kind: str) -> Path:
    return Path(args.work) if args.work else folder.with_name(f"{folder.resolve().name}.{kind}")
