"""``chordae match``: local words to the terms that they may mean; decisions back into the crosswalk; its quality."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from chordae.commands.options import add_report, count_from, finish, words_of, write_data
from chordae.errors import FormatError
from chordae.issues import counted

if TYPE_CHECKING:
    from chordae.issues import Issue
    from chordae.match.local import Collection, LocalWord
    from chordae.match.offers import Offer

__all__ = ["add_parser", "run"]


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command."""
    parser = subparsers.add_parser(
        "match",
        help="propose terms for local words; review them; the quality of a crosswalk; translate a catalogue",
        description="Propose terms of the vocabulary, and of an open ontology if one is named, for local words: "
        "candidates with their reasons, or the question that has to be answered first. Nothing is ever taken over "
        "without a person: --out writes a table to decide in, --read takes the decisions into the crosswalk.",
    )
    parser.add_argument(
        "words", metavar="WORD", nargs="*",
        help="a local word; quote one of several words; - for standard input, a word a line",
    )  # fmt: skip
    group = parser.add_argument_group("what to match")
    group.add_argument("--unmapped", metavar="FILE", help="list of words: report.json of a deposit, a table, or text")
    group.add_argument("--crosswalk", metavar="FOLDER", help="folder with columns.tsv, values.tsv and the catalogue")
    group.add_argument(
        "--ontology", metavar="NAME", action="append", default=[],
        help="match with this ontology too: a file (OBO, OBO Graph JSON, OWL, SKOS), or hpo, uberon, mondo",
    )  # fmt: skip
    group.add_argument("--meaning", action="store_true", help="compare meanings too (extra embeddings; slower)")
    group.add_argument("--most", metavar="N", type=count_from(1), default=5, help="candidates a word (default: 5)")
    group = parser.add_argument_group("what to do")
    group.add_argument("--out", metavar="FILE", help="review table (.xlsx, .tsv) or, with --into, catalogue to write")
    group.add_argument("--to", choices=("text", "json"), default="text", help="form of the output (default: text)")
    group.add_argument("--read", metavar="TABLE", help="take the decisions of a review table into the crosswalk")
    group.add_argument("--author", metavar="NAME", help="who decided: a name or an ORCID")
    group.add_argument("--date", metavar="DAY", help="when it was decided, year-month-day (default: today)")
    group.add_argument("--quality", action="store_true", help="say how good the crosswalk is")
    group.add_argument("--into", metavar="FOLDER", help="translate the catalogue into the words of this crosswalk")
    add_report(parser)


def run(args: argparse.Namespace) -> int:
    """Do the one thing that was asked for."""
    wanted = [name for name in ("read", "quality", "into") if getattr(args, name)]
    if len(wanted) > 1:
        raise FormatError(f"--{wanted[0]} and --{wanted[1]} do not go together.", "Run one after the other.")
    if wanted and args.crosswalk is None:
        raise FormatError(f"--{wanted[0]} needs a crosswalk.", "Name its folder with --crosswalk.")
    if args.read is not None:
        return _read(args)
    if args.quality:
        return _quality(args)
    if args.into is not None:
        return _translate(args)
    return _propose(args)


def _propose(args: argparse.Namespace) -> int:
    from chordae.match.decisions import read_decisions, rejected
    from chordae.match.local import LocalWord, read_collection, read_list
    from chordae.match.offers import offers
    from chordae.match.ontology import load_ontology
    from chordae.progress import track

    words: list[LocalWord] = [LocalWord(one) for one in words_of(args.words)]
    collection: Collection | None = None
    if args.unmapped is not None:
        words += read_list(args.unmapped)
    if args.crosswalk is not None:
        collection = read_collection(Path(args.crosswalk))
        words += collection.words if not words else []
    if not words:
        if collection is None:
            raise FormatError("There is no word to match.", "Give words, or a list with --unmapped, or --crosswalk.")
        write_data("Every word of the catalogue is in the crosswalk.\n", None)
        return 0
    history = read_decisions(Path(args.crosswalk)) if args.crosswalk else []
    ontology = [target for name in args.ontology for target in load_ontology(name)]
    crosswalk = collection.crosswalk if collection else None
    meaning = None
    if args.meaning:
        from chordae.match.meaning import load_meaning

        meaning = load_meaning()
    found = offers(words, crosswalk, ontology, rejected(history), args.most, meaning)
    shown = list(track(found, "Matching", total=len(words)))
    if args.out is not None:
        from chordae.match.review import write_review

        rows = write_review(Path(args.out), shown, history)
        write_data(f"{counted(len(words), 'word')}, {counted(rows, 'row')} to decide on: {args.out}\n", None)
    else:
        write_data(_json(shown) if args.to == "json" else "".join(_text(shown)), None)
    return 0


def _read(args: argparse.Namespace) -> int:
    import datetime
    import re

    from chordae.match.apply import apply
    from chordae.match.decisions import read_decisions
    from chordae.match.local import read_collection
    from chordae.match.review_read import read_review

    if not args.author or not args.author.strip():
        raise FormatError("Who decided?", "Give a name or an ORCID with --author.")
    day = args.date or datetime.date.today().isoformat()
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", day):
        raise FormatError(f"{day!r} is no day.", "Write year-month-day, for example 2026-11-25.")
    folder = Path(args.crosswalk)
    collection = read_collection(folder)
    history = read_decisions(folder)
    new, issues = read_review(Path(args.read), collection.crosswalk, history, " ".join(args.author.split()), day)
    done = apply(folder, history, new, _text_of(collection.about.get("base_iri")))
    write_data(
        f"{counted(len(new), 'decision')} taken; {counted(done.added, 'row')} added to values.tsv, "
        f"{done.taken_out:,} taken out; {counted(done.mappings, 'mapping')} in local.sssom.tsv.\n",
        None,
    )
    return finish(issues, args)


def _quality(args: argparse.Namespace) -> int:
    from chordae.match.local import read_collection
    from chordae.match.quality import judge

    found = judge(read_collection(Path(args.crosswalk)))
    if args.to == "json":
        import orjson

        write_data(orjson.dumps(found.to_json(), option=orjson.OPT_INDENT_2).decode() + "\n", args.out)
    else:
        write_data(found.to_text(), args.out)
    return finish(found.issues, args)


def _translate(args: argparse.Namespace) -> int:
    from chordae.match.translate import translate_collection

    found = translate_collection(Path(args.crosswalk), Path(args.into))
    write_data(found.table, args.out)
    issues: list[Issue] = [*found.issues]
    if args.out is not None:
        write_data(found.summary(), None)
    return finish(issues, args)


def _json(shown: Iterable[Offer]) -> str:
    import orjson

    rows = []
    for offer in shown:
        row = offer.proposal.to_json()
        for candidate, fill in zip(row["candidates"], offer.fills, strict=True):
            if fill is not None:
                candidate["row"] = {
                    name: text for name in ("part", "property", "value", "state") if (text := getattr(fill, name))
                }
        local = offer.local
        place = {"column": local.column, "count": local.count, "seen": list(local.seen)} if local.column else {}
        rows.append({"word": row.pop("word"), **place, **row})
    return orjson.dumps(rows, option=orjson.OPT_INDENT_2).decode() + "\n"


def _text(shown: Iterable[Offer]) -> Iterator[str]:
    for offer in shown:
        local, proposal = offer.local, offer.proposal
        times = f", {local.count:,} times" if local.count > 1 else ""
        where = f"   ({local.column}{times})" if local.column else ""
        yield f"{local.word}{where}\n"
        for question in proposal.questions:
            yield f"    ?  {question.ask}\n"
            for meaning in question.meanings:
                yield f"         {meaning.gloss}\n"
        if not proposal.candidates and not proposal.questions:
            yield "    nothing near enough was found\n"
        for at, one in enumerate(proposal.candidates, 1):
            told = "sure" if proposal.sure and at == 1 else f"{100 * one.confidence:.0f} %"
            yield f"    {at}  {one.label}   [{one.target}, {one.stage}, {told}]\n"
            yield "".join(f"         {reason}\n" for reason in one.reasons)


def _text_of(value: object) -> str | None:
    return None if value is None else str(value)
