"""Actions of ``chordae registry`` for its keeper; each takes the options and returns the exit code."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

import orjson

from chordae.commands.options import write_data
from chordae.errors import InputError, MissingExtra
from chordae.registry.place import Registry

__all__ = [
    "adopt",
    "backup",
    "convert",
    "create",
    "export",
    "merge",
    "peer",
    "resolve",
    "restore",
    "serve",
    "token",
    "verify",
]


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


def adopt(args: argparse.Namespace) -> int:
    """Make a registry from an export."""
    from chordae.registry.transfer import adopt

    adopt(Path(args.folder), Path(args.registry))
    return verify(args)
