"""The actions of ``chordae registry``: each takes the options and returns the exit code."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

import orjson

from chordae.commands.options import write_data
from chordae.errors import FormatError, InputError, MissingExtra
from chordae.issues import Issue, at_or_above, worst
from chordae.registry.place import Registry

__all__: list[str] = []


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


def list(args: argparse.Namespace) -> int:
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


def create(args: argparse.Namespace) -> int:
    """Make an empty registry."""
    from chordae.registry.place import create

    create(args.registry, args.name, args.base)
    return 0


def serve(args: argparse.Namespace) -> int:
    """Serve a registry until it is ended."""
    try:
        import uvicorn

        from chordae.registry.service import make_app
    except ImportError:
        raise MissingExtra("registry", "serving a registry") from None
    from chordae.registry.settings import Settings

    with Registry.open(args.registry):
        pass  # so that a wrong folder is told before anything starts
    settings = Settings(rate=args.rate, burst=6 * args.rate, seconds=args.seconds, workers=args.workers)
    app = make_app(args.registry, settings)
    print(f"chordae: http://{args.host}:{args.port}/ (end with Ctrl-C)", file=sys.stderr)
    uvicorn.run(
        app,
        host=args.host,
        port=args.port,
        access_log=False,
        log_level="warning",
        proxy_headers=False,
        server_header=False,
        limit_concurrency=100,
        timeout_keep_alive=15,
        h11_max_incomplete_event_size=64 * 1024,
    )
    return 0


def token(args: argparse.Namespace) -> int:
    """Make, list or revoke tokens."""
    from chordae.registry.tokens import Tokens

    with Registry.open(args.registry) as registry:
        tokens = Tokens(registry.folder / "tokens.sqlite")
    if args.make:
        write_data(tokens.make(args.make, tuple(args.scopes.split(",")), args.days, args.note) + "\n", None)
    elif args.revoke:
        tokens.revoke(args.revoke)
    else:
        for one in tokens.list():
            state = "revoked" if one.revoked else "holds" if one.holds else "expired"
            fields = (one.id, one.collection, ",".join(one.scopes), one.expires, state, one.note)
            write_data("\t".join(fields) + "\n", None)
    tokens.close()
    return 0


def peer(args: argparse.Namespace) -> int:
    """Let queries ask another registry, or no longer."""
    from chordae.files import write_aside

    with Registry.open(args.registry, write=True) as registry:
        peers = dict(registry.about.get("peers") or {})
        peers.pop(args.name, None)
        if args.address:
            if not args.address.startswith(("http://", "https://")):
                raise InputError(f"{args.address!r} is no address.", "Give one such as https://example.org/v1/sparql .")
            peers[args.name] = args.address
        about = orjson.dumps({**registry.about, "peers": peers}, option=orjson.OPT_INDENT_2)
        write_aside(registry.folder / "registry.json", about + b"\n")
    return 0


def export(args: argparse.Namespace) -> int:
    """Write everything with its history into a folder."""
    from chordae.registry.transfer import export

    with Registry.open(args.registry) as registry:
        export(registry, Path(args.folder))
    return 0


def backup(args: argparse.Namespace) -> int:
    """Write a backup."""
    from chordae.registry.backup import back_up

    with Registry.open(args.registry) as registry:
        about = back_up(registry, Path(args.folder))
    write_data(f"{about['lines']} lines, the last one {about['last']}\n", None)
    return 0


def merge(args: argparse.Namespace) -> int:
    """Add an export of another registry; 1 if there are conflicts."""
    from chordae.registry.stores import open_store
    from chordae.registry.transfer import merge

    with Registry.open(args.registry, write=True) as registry:
        done = merge(registry, Path(args.folder))
        with open_store(registry):
            pass
    write_data(f"{done.added} lines added, {done.known} were here.\n", None)
    for one in done.conflicts:
        write_data(f"conflict: {one}\n", None)
    return 1 if done.conflicts else 0


def restore(args: argparse.Namespace) -> int:
    """Make a registry from a backup."""
    from chordae.registry.backup import restore

    restore(Path(args.folder), Path(args.registry))
    return verify(args)


def resolve(args: argparse.Namespace) -> int:
    """Choose the current version of a collection."""
    from chordae.registry.stores import open_store
    from chordae.registry.transfer import resolve

    with Registry.open(args.registry, write=True) as registry:
        resolve(registry, args.collection, args.deposit, args.by)
        with open_store(registry):
            pass
    return 0


def verify(args: argparse.Namespace) -> int:
    """Compare everything with its digests; 1 if anything is not as it was."""
    from chordae.registry.stores import open_store
    from chordae.registry.verify import verify

    with Registry.open(args.registry, write=True) as registry, open_store(registry) as store:
        faults = verify(registry, store)
        last = registry.ledger.last()
    for one in faults:
        write_data(f"{one}\n", None)
    if not faults:
        write_data(f"{last.number if last else 0} lines, deposits, graphs: all as they were written.\n", None)
    return 1 if faults else 0


def convert(args: argparse.Namespace) -> int:
    """Bring the ledger of an older version up."""
    from chordae.registry.convert import convert

    write_data(f"The ledger had version {convert(Path(args.registry))}.\n", None)
    return 0


def _adopt(args: argparse.Namespace) -> int:
    from chordae.registry.transfer import adopt

    adopt(Path(args.folder), Path(args.registry))
    return verify(args)


globals()["import"] = _adopt  # the word is one of Python's


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
