"""``chordae check``: records, tables or deposits against the rules of morphology; or the mapping sets.

::

    chordae check hearts.yaml                            every input: full or short records, a table, RDF, a deposit
    chordae check out/veyhaven --report json             a deposit: its digests, then its records
    chordae check hearts.ndjson --profile teaching.yaml  a registry's choice of rules and required fields
    chordae check hearts.ndjson --cache .kept --audit 0.05
    chordae check hearts.yaml --confirm R-VSD-10 --record 0033 --reason "..." --by "Reader B" --out hearts.yaml
    chordae check --mappings

Issues go to standard output. What was not tested is said on standard error: it is not the same as passed.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

from chordae.commands import check_mappings, confirming, parts
from chordae.commands.options import add_input, add_report, count_from, finish
from chordae.errors import FormatError
from chordae.files import STDIN
from chordae.issues import counted

if TYPE_CHECKING:
    from chordae.issues import Issue
    from chordae.record import Reading
    from chordae.shapes.cache import FindingsCache
    from chordae.shapes.check import CheckResult
    from chordae.shapes.engines import Engine
    from chordae.shapes.result import Result

__all__ = ["add_parser", "run"]

_FEW = 20


def add_parser(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = commands.add_parser(
        "check",
        help="check records, a table or a deposit against the rules",
        description="Check records against the rules of structure and morphology, one by one and across the set; "
        "verify a deposit; check the mapping sets.",
    )
    add_input(parser, many=True)
    group = parser.add_argument_group("rules")
    group.add_argument(
        "--profile", metavar="FILE", help="severity of rules, what is required; a file, or a name that chordae brings"
    )
    group.add_argument("--engine", choices=("fast", "reference"), help="engine of the rules (default: the fast one)")
    group.add_argument("--audit", metavar="SHARE", type=_share, default=0.0, help="share of records, 0 to 1, that "
                       "the reference engine checks as well; any difference is reported")  # fmt: skip
    group.add_argument(
        "--threads", metavar="N", type=count_from(1), help="number of threads (default: one a processor)"
    )
    group.add_argument("--cache", metavar="FOLDER", help="keep findings there; unchanged records are not checked again")
    group.add_argument(
        "--validation-report", metavar="FILE", help="write what the rules found as a W3C validation report (Turtle)"
    )
    group.add_argument("--base", metavar="IRI", help="IRI under which the records stand, for the validation report")
    group.add_argument("--untested", action="store_true", help="list every rule that met nothing to look at")
    confirming.add_options(parser)
    check_mappings.add_options(parser)
    parts.add_options(parser)
    add_report(parser, stdout=True)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Check; return the exit code."""
    confirming.check_options(args)
    if args.mappings or args.set or args.drift is not None:
        if args.inputs != [STDIN]:
            raise FormatError(
                f"--mappings, --set and --drift are about mapping sets, but {args.inputs[0]} is named too.",
                "Check the records in a run of their own.",
            )
        return check_mappings.run(args)
    if (folder := parts.folder_of(args, args.inputs)) is not None:
        return parts.check(args, folder)
    from chordae.shapes.profile import DEFAULT
    from chordae.shapes.profile_file import read_profile

    profile = read_profile(args.profile) if args.profile else DEFAULT
    engine: Engine | None = "reference_cached" if args.engine == "reference" else args.engine
    if args.confirm is not None:
        return confirming.run(args)
    from chordae.shapes.across import Across
    from chordae.shapes.check import check_records
    from chordae.shapes.engines import default_engine

    found: list[Issue] = []
    cache = _cache(args.cache, engine or default_engine())
    with Across(profile=profile) as across, _validation_report(args.validation_report) as on_results:

        def sound() -> Iterator[Reading]:
            for reading, issues in _everything(args):
                found.extend(issues)
                if reading is not None:
                    across.add(reading)
                    yield reading

        result = check_records(
            sound(),
            engine=engine,
            threads=args.threads,
            audit=args.audit,
            base=_base(args),
            profile=profile,
            cache=cache,
            on_results=on_results,
        )
        found.extend(result.issues)
        found.extend(across.issues())
    if cache is not None:
        cache.close()
        found.extend(cache.issues)
    code = finish(found, args)
    _tell(result, args.untested)
    return 1 if result.differences and args.fail_on != "never" else code


def _everything(args: argparse.Namespace) -> Iterator[tuple[Reading | None, list[Issue]]]:
    from chordae.commands.inputs import each_full
    from chordae.deposit import is_deposit, records_file, verify

    for path in args.inputs:
        if path != "-" and is_deposit(path):
            yield None, verify(path)
            yield from each_full(args, str(records_file(path)))
        else:
            yield from each_full(args, path)


def _base(args: argparse.Namespace) -> str | None:
    """The base IRI that was given, or that the only input, a deposit, has."""
    from chordae.compare.sets import base_of
    from chordae.rdf.emit import check_base

    if args.base is not None:
        return check_base(args.base)
    return base_of(args.inputs[0]) if len(args.inputs) == 1 and args.inputs[0] != "-" else None


@contextmanager
def _validation_report(path: str | None) -> Iterator[Callable[[Sequence[Result]], object] | None]:
    """Take results while the block runs, and give the report its name when it ends without an error."""
    if path is None:
        yield None
        return
    from chordae.files import open_aside
    from chordae.shapes.published import ValidationReport

    report = ValidationReport()
    with open_aside(path) as stream:
        stream.write(report.begin().encode())
        yield lambda results: stream.write(report.add(results).encode())
        stream.write(report.end().encode())


def _cache(folder: str | None, engine: str) -> FindingsCache | None:
    if folder is None:
        return None
    from pathlib import Path

    from chordae.shapes.cache import FindingsCache

    return FindingsCache(Path(folder), engine)


def _tell(result: CheckResult, everything: bool) -> None:
    total = len(result.tested)
    tested = f"{total - len(result.untested)} of {counted(total, 'rule')} tested"
    print(f"{counted(result.records, 'record')}, {tested}.", file=sys.stderr)
    if result.untested and result.records:
        few = everything or len(result.untested) <= _FEW
        which = ", ".join(result.untested) if few else f"{len(result.untested)} rules (--untested lists them)"
        print(f"Not tested, because nothing they speak of was recorded: {which}.", file=sys.stderr)
    if result.audited:
        audited = counted(result.audited, "record was", "records were")
        print(f"{audited} checked by the reference engine as well.", file=sys.stderr)
    for one in result.differences:
        said = f"it stopped: {one.stopped}" if one.stopped else (
            f"only the fast engine: {', '.join(sorted({r.rule for r in one.fast})) or 'nothing'}; "
            f"only the reference: {', '.join(sorted({r.rule for r in one.reference})) or 'nothing'}"
        )  # fmt: skip
        print(f"The two engines differ on record {one.record}: {said}.", file=sys.stderr)


def _share(text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = -1.0
    if not 0 <= value <= 1:
        raise argparse.ArgumentTypeError(f"{text!r} is no share; a share lies between 0 and 1")
    return value
