"""Actions of ``chordae registry`` for those who hand in and ask; each takes the options and returns the exit code."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

import orjson

from chordae.commands.options import write_data
from chordae.errors import FormatError, InputError
from chordae.issues import Issue, at_or_above, worst
from chordae.registry.place import Registry

__all__ = ["ask", "check", "list_lines", "pack", "questions", "report", "submit"]


def check(args: argparse.Namespace) -> int:
    """Judge a deposit at home."""
    from chordae.registry.gate import judge
    from chordae.registry.profile import EXAMPLE, parse_profile, read_profile

    profile = read_profile(Path(args.profile)) if args.profile else parse_profile(EXAMPLE.encode())
    verdict = judge(Path(args.deposit), profile)
    return _tell(verdict.report(), args)


def pack(args: argparse.Namespace) -> int:
    """Pack a deposit."""
    from chordae.registry.package import deposit_digest, pack

    deposit_digest(Path(args.deposit))
    pack(Path(args.deposit), Path(args.out))
    return 0


def submit(args: argparse.Namespace) -> int:
    """Hand a deposit in to a folder or an address."""
    if args.to.startswith(("http://", "https://")):
        from chordae.registry.client import hand_in

        return _tell(hand_in(Path(args.deposit), args.to, args.follows), args)
    from chordae.registry.stores import open_store
    from chordae.registry.submit import submit

    with Registry.open(args.to, write=True) as registry:
        done = submit(registry, Path(args.deposit), agent=args.by, follows=args.follows)
        with open_store(registry):
            pass
    if done.again:
        print(f"chordae: this deposit was decided before, as line {done.entry.number}.", file=sys.stderr)
    return _tell(done.report, args)


def list_lines(args: argparse.Namespace) -> int:
    """List the lines of the ledger."""
    with Registry.open(args.registry) as registry:
        heads = {one.number for one in registry.ledger.heads()}
        for one in registry.ledger.entries(collection=args.collection):
            mark = "current" if one.number in heads else one.kind if one.kind != "submission" else ""
            fields = (one.number, one.body["at"], one.collection, one.outcome, one.deposit, mark)
            write_data("\t".join(map(str, fields)) + "\n", None)
    return 0


def report(args: argparse.Namespace) -> int:
    """Show the report on a deposit."""
    from chordae.registry.made import REPORT

    with Registry.open(args.registry) as registry:
        found = registry.ledger.of_deposit(args.deposit)
        if not found:
            raise InputError(f"There is no deposit {args.deposit[:80]!r}.", "chordae registry list tells them.")
        write_data((registry.made(found[-1].number) / REPORT).read_text(encoding="utf-8"), None)
    return 0


def questions(args: argparse.Namespace) -> int:
    """List the ready questions."""
    from chordae.registry.questions import questions

    for one in questions().values():
        write_data(f"{one.name}\n    {one.say}\n", None)
        for each in one.parameters:
            default = "must be given" if each.default is None else f"default: {each.default}"
            write_data(f"    {each.name}=   {each.say} ({default})\n", None)
    return 0


def ask(args: argparse.Namespace) -> int:
    """Ask a ready question, or a query."""
    from chordae.files import read_input
    from chordae.registry.ask import Asker

    if (args.query is None) == (args.question is None):
        raise FormatError("Either a question or --query is needed.", "chordae registry questions lists the questions.")
    values = dict(one.partition("=")[::2] for one in args.values)
    with Registry.open(args.registry) as registry, Asker.of(registry) as asker:
        if args.query is not None:
            text = read_input(args.query, 1 << 20).decode(errors="replace")
            found = asker.ask(text, args.to, rows=1_000_000, size=1 << 30, seconds=args.seconds)
        else:
            found = asker.question(args.question, values, args.to, args.seconds)
    write_data(found.data.decode(), None)
    if found.cut:
        print("chordae: the answer was cut short.", file=sys.stderr)
    return 0


def _tell(report: bytes, args: argparse.Namespace) -> int:
    """Show a report, and return 1 for a deposit that is refused or has issues from --fail-on."""
    found: dict[str, Any] = orjson.loads(report)
    issues = [Issue.from_json(one) for one in found["issues"]]
    if args.report == "json":
        write_data(report.decode(), None)
    else:
        from chordae.report.listing import list_issues

        write_data(list_issues(issues), None)
        write_data(f"\n{found['outcome'].replace('_', ' ').upper()}: deposit {found['deposit']}\n", None)
    return 1 if found["outcome"] == "refused" or at_or_above(worst(issues), args.fail_on) else 0
