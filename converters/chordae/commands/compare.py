"""``chordae compare``: two descriptions of one heart, two sets of them, many readers, or hearts that are alike."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

from chordae.commands.options import add_from, add_report, check_stdin, count_from, finish, format_for, tell, write_data
from chordae.errors import FormatError
from chordae.files import STDIN

if TYPE_CHECKING:
    from chordae.compare.hearts import Comparison
    from chordae.compare.sets import Pairs
    from chordae.issues import Issue
    from chordae.record import Record

__all__ = ["add_parser", "run"]


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command."""
    parser = subparsers.add_parser(
        "compare",
        help="compare two descriptions of one heart; agreement over many; reconcile; find hearts alike",
        description="Compare descriptions part by part after both schools' words, notation and features have met as "
        "conclusions. One input: the readings of each heart in it. Two: each heart of A with the one of B.",
    )
    parser.add_argument(
        "inputs", metavar="INPUT", nargs="+",
        help="file of records in any format that is read, catalogue or folder of a collection, or deposit folder; "
        "- for standard input",
    )  # fmt: skip
    add_from(parser)
    parser.add_argument("--pairs", metavar="TABLE", help="table whose first two columns are the ids of A and of B")
    parser.add_argument(
        "--to", choices=("text", "json", "html", "tsv", "svg", "yaml"),
        help="form of the output (default: text; of --reconcile: yaml)",
    )  # fmt: skip
    parser.add_argument("--out", metavar="FILE", help="file to write (default: standard output)")
    parser.add_argument("--all", action="store_true", help="list in text also what agrees and what one has only")
    group = parser.add_argument_group("many hearts, many readers")
    group.add_argument(
        "--agreement", action="store_true",
        help="coefficients of agreement for each field; each input is a reader, or each reading in one input",
    )  # fmt: skip
    group.add_argument(
        "--rounds", metavar="N", type=count_from(1), default=500, help="bootstrap samples (default: 500)"
    )
    group = parser.add_argument_group("one understanding")
    group.add_argument("--reconcile", action="store_true", help="write a third record with the origin of each fact")
    group.add_argument("--decisions", metavar="TABLE", help="what was settled: id, part, property, take, why")
    group.add_argument("--by", metavar="NAME", help="who settled it")
    group.add_argument("--date", metavar="DAY", help="date of the third description (default: today)")
    group = parser.add_argument_group("hearts alike")
    group.add_argument("--nearest", metavar="ID", help="rank the hearts of the other inputs by likeness to this one")
    group.add_argument("--most", metavar="N", type=count_from(1), default=10, help="hearts to show (default: 10)")
    add_report(parser)


def run(args: argparse.Namespace) -> int:
    """Do the one thing that was asked for."""
    wanted = [name for name in ("agreement", "reconcile", "nearest") if getattr(args, name)]
    if len(wanted) > 1:
        raise FormatError(f"--{wanted[0]} and --{wanted[1]} do not go together.", "Run one after the other.")
    check_stdin(args.inputs)
    from chordae.compare.sets import read_set

    sets: list[list[Record]] = []
    # What is wrong with a description itself is told by chordae check; here only what keeps it from being read.
    kept: list[Issue] = []
    for name in args.inputs:
        records, found = read_set(name, format_for(args, name))
        sets.append(records)
        kept += [one for one in found if one.severity == "violation"]
    try:
        for name, records in zip(args.inputs, sets, strict=True):
            if not records:
                which = "standard input" if name == STDIN else name
                raise FormatError(f"No description could be read from {which}.", "Mend what is wrong in it.")
        return _work(args, sets, kept)
    except FormatError:
        tell(kept, args)  # nothing to compare may be because something could not be read
        raise


def _work(args: argparse.Namespace, sets: list[list[Record]], issues: list[Issue]) -> int:
    if args.nearest:
        return _nearest(args, sets, issues)
    if args.agreement:
        return _agreement(args, sets, issues)
    pairs = _pairs(args, sets)
    issues += pairs.issues
    if args.reconcile:
        return _reconcile(args, pairs, issues)
    return _compare(args, pairs, issues)


def _pairs(args: argparse.Namespace, sets: Sequence[Sequence[Record]]) -> Pairs:
    from chordae.compare.sets import pair_by_id, pair_by_table, pair_within

    if len(sets) > 2:
        raise FormatError("Two sets are compared at a time.", "Name two inputs, or use --agreement for more readers.")
    if len(sets) == 1:
        records = sets[0]
        if args.pairs:
            return pair_by_table(records, records, args.pairs)
        found = pair_within(records)
        if not found.pairs:
            raise FormatError(
                "No heart is described twice in it.", "Name a second input, or a table of pairs with --pairs."
            )
        return found
    if args.pairs:
        return pair_by_table(sets[0], sets[1], args.pairs)
    if len(sets[0]) == len(sets[1]) == 1:
        from chordae.compare.sets import Pairs

        return Pairs(((sets[0][0], sets[1][0]),), ())
    return pair_by_id(sets[0], sets[1])


def _compare(args: argparse.Namespace, pairs: Pairs, issues: Sequence[Issue]) -> int:
    from chordae.compare.hearts import compare
    from chordae.progress import track

    if not pairs.pairs:
        raise FormatError("No heart stands in both.", "Give a table of the pairs with --pairs.")
    found: list[Comparison] = [compare(a, b) for a, b in track(pairs.pairs, "Comparing")]
    form = args.to or "text"
    if form == "json":
        import orjson

        from chordae.compare.told import to_json

        whole = {"pairs": [to_json(one) for one in found], "unpaired": list(pairs.unpaired)}
        write_data(orjson.dumps(whole, option=orjson.OPT_INDENT_2).decode() + "\n", args.out)
    elif form == "html":
        from chordae.compare.page import make_page

        write_data(make_page(found, pairs.unpaired), args.out)
    elif form == "text":
        from chordae.compare.text import make_text

        rest = "".join(f"{one}\n" for one in pairs.unpaired)
        write_data(make_text(found, args.all) + rest, args.out)
    else:
        raise FormatError(f"A comparison is not written as {form}.", "Use text, json or html.")
    return finish(issues, args)


def _agreement(args: argparse.Namespace, sets: Sequence[Sequence[Record]], issues: Sequence[Issue]) -> int:
    from chordae.compare.fields import agreement_of_fields
    from chordae.compare.fields_told import to_json, to_text, to_tsv
    from chordae.compare.plot import draw

    table = None
    if args.pairs:
        from chordae.intake.table import read_table

        table = [row.cells for row in read_table(args.pairs)[0].rows]
    found = agreement_of_fields(sets, table, args.rounds)
    if not found:
        raise FormatError("No heart was read by two readers.", "Give each reader's set, or a table of pairs.")
    form = args.to or "text"
    makers = {"text": to_text, "tsv": to_tsv, "svg": draw, "json": to_json}
    if form not in makers:
        raise FormatError(f"Agreement is not written as {form}.", "Use text, tsv, json or svg.")
    write_data(makers[form](found), args.out)
    return finish(issues, args)


def _reconcile(args: argparse.Namespace, pairs: Pairs, issues: list[Issue]) -> int:
    import datetime

    from chordae.compare.reconcile import reconcile
    from chordae.compare.sets import base_of
    from chordae.compare.settled import read_settled
    from chordae.intake.document_text import write_document

    settled, found = read_settled(args.decisions, args.by) if args.decisions else ([], [])
    issues += found
    records = []
    bases = (base_of(args.inputs[0]), base_of(args.inputs[-1]))
    for a, b in pairs.pairs:
        record, more = reconcile(a, b, settled, bases, args.date or datetime.date.today().isoformat())
        records.append(record)
        issues += more
    form = args.to or "yaml"
    if form not in ("yaml", "json"):
        raise FormatError(f"A reconciled record is not written as {form}.", "Use yaml or json, then chordae write.")
    write_data(write_document(records, form), args.out)
    return finish(issues, args)


def _nearest(args: argparse.Namespace, sets: Sequence[Sequence[Record]], issues: Sequence[Issue]) -> int:
    from chordae.compare.nearest import Hearts, to_json, to_text

    wanted = next((one for one in sets[0] if one["id"] == args.nearest), None)
    if wanted is None:
        raise FormatError(f"There is no heart {args.nearest!r} in {args.inputs[0]}.", "Name one of the first input.")
    others = [one for records in (sets[1:] or sets) for one in records if one is not wanted]
    found = Hearts(others).nearest(wanted, args.most)
    form = args.to or "text"
    if form not in ("text", "json"):
        raise FormatError(f"Hearts alike are not written as {form}.", "Use text or json.")
    write_data(to_json(found) if form == "json" else to_text(found), args.out)
    return finish(issues, args)
