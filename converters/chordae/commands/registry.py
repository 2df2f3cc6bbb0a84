"""``chordae registry``: make, serve and keep a shared registry, and hand deposits in to one.

Each action is a function of :mod:`chordae.commands.registry_using` or :mod:`chordae.commands.registry_keeping`.
"""

from __future__ import annotations

import argparse

from chordae.commands.options import add_fail_on

__all__ = ["add_parser", "run"]

_PYTHON = {"import": "adopt", "list": "list_lines"}
"""Functions of actions whose names are words of Python."""


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command with its actions."""
    parser = subparsers.add_parser(
        "registry",
        help="keep a shared registry of deposits, or hand one in",
        description="A registry takes deposits in whole, or refuses them with reasons; nothing is ever lost.",
    )
    actions = parser.add_subparsers(dest="action", metavar="ACTION", required=True)
    _handing_in(actions)
    _asking(actions)
    _keeping(actions)


def run(args: argparse.Namespace) -> int:
    """Carry out one action."""
    from chordae.commands import registry_keeping, registry_using

    name = _PYTHON.get(args.action, args.action)
    return int(getattr(registry_using if hasattr(registry_using, name) else registry_keeping, name)(args))


_Actions = argparse._SubParsersAction


def _add(actions: _Actions[argparse.ArgumentParser], name: str, say: str) -> argparse.ArgumentParser:
    return actions.add_parser(name, help=say, description=say[:1].upper() + say[1:] + ".")


def _handing_in(actions: _Actions[argparse.ArgumentParser]) -> None:
    check = _add(actions, "check", "judge a deposit at home as a registry would")
    check.add_argument("deposit", metavar="DEPOSIT")
    check.add_argument("--profile", metavar="FILE", help="profile of the registry (default: the one of a new registry)")
    check.add_argument("--report", choices=("text", "json"), default="text", help="form of the report (default: text)")
    add_fail_on(check)
    pack = _add(actions, "pack", "pack a deposit into the ZIP file that is handed in")
    pack.add_argument("deposit", metavar="DEPOSIT")
    pack.add_argument("out", metavar="FILE.zip")
    submit = _add(actions, "submit", "hand a deposit in")
    submit.add_argument("deposit", metavar="DEPOSIT")
    submit.add_argument("--to", required=True, metavar="REGISTRY", help="folder of a registry, or address of a service")
    submit.add_argument("--by", default="", metavar="NAME", help="who hands it in")
    submit.add_argument("--follows", metavar="DIGEST", help="the version it is made from; none for a first one")
    submit.add_argument("--report", choices=("text", "json"), default="text", help="form of the report (default: text)")
    add_fail_on(submit)


def _asking(actions: _Actions[argparse.ArgumentParser]) -> None:
    listing = _add(actions, "list", "list the lines of the ledger")
    listing.add_argument("registry", metavar="REGISTRY")
    listing.add_argument("--collection", metavar="ID")
    report = _add(actions, "report", "show the report on a deposit")
    report.add_argument("registry", metavar="REGISTRY")
    report.add_argument("deposit", metavar="DIGEST")
    _add(actions, "questions", "list the ready questions")
    ask = _add(actions, "ask", "ask a ready question, or a query that only reads")
    ask.add_argument("registry", metavar="REGISTRY")
    ask.add_argument("question", metavar="QUESTION", nargs="?", help="name of a ready question")
    ask.add_argument("values", metavar="NAME=VALUE", nargs="*")
    ask.add_argument("--query", metavar="FILE", help="a SPARQL file instead; - for standard input")
    ask.add_argument("--to", choices=("csv", "json"), default="csv", help="form of the answer (default: csv)")
    ask.add_argument("--seconds", type=float, default=60, help="time limit (default: 60)")


def _keeping(actions: _Actions[argparse.ArgumentParser]) -> None:
    create = _add(actions, "create", "make an empty registry")
    create.add_argument("registry", metavar="FOLDER")
    create.add_argument("--name", required=True)
    create.add_argument("--base", required=True, metavar="IRI", help="IRI under which it names its versions")
    serve = _add(actions, "serve", "serve a registry over HTTP")
    serve.add_argument("registry", metavar="REGISTRY")
    serve.add_argument("--host", default="127.0.0.1", help="address (default: 127.0.0.1, this machine alone)")
    serve.add_argument("--port", type=int, default=8471, help="port (default: 8471)")
    serve.add_argument("--seconds", type=float, default=10, help="time limit of a query (default: 10)")
    serve.add_argument("--rate", type=float, default=10, help="requests a second of one client (default: 10)")
    serve.add_argument("--workers", type=int, default=2, help="queries at a time (default: 2)")
    token = _add(actions, "token", "make, list or revoke the tokens of a registry")
    token.add_argument("registry", metavar="REGISTRY")
    group = token.add_mutually_exclusive_group(required=True)
    group.add_argument("--make", metavar="COLLECTION", help="identifier of a collection; * for all")
    group.add_argument("--list", action="store_true")
    group.add_argument("--revoke", metavar="ID")
    token.add_argument("--scopes", default="submit,read", help="submit, read or both (default: both)")
    token.add_argument("--days", type=int, default=90, help="how long it holds (default: 90)")
    token.add_argument("--note", default="", help="whose it is")
    peer = _add(actions, "peer", "let queries ask another registry")
    peer.add_argument("registry", metavar="REGISTRY")
    peer.add_argument("name", metavar="NAME")
    peer.add_argument("address", metavar="URL", nargs="?", help="address of its queries; none to take it out")
    for name, say, where in (
        ("export", "write everything with its history into a folder", "OUT"),
        ("backup", "write a backup, also while the registry is served", "OUT"),
        ("merge", "add an export of another registry", "EXPORT"),
    ):
        action = _add(actions, name, say)
        action.add_argument("registry", metavar="REGISTRY")
        action.add_argument("folder", metavar=where)
    for name, say, where in (
        ("import", "make a registry from an export", "EXPORT"),
        ("restore", "make a registry from a backup", "BACKUP"),
    ):
        action = _add(actions, name, say)
        action.add_argument("folder", metavar=where)
        action.add_argument("registry", metavar="FOLDER")
    resolve = _add(actions, "resolve", "choose the current version of a collection")
    resolve.add_argument("registry", metavar="REGISTRY")
    resolve.add_argument("collection", metavar="COLLECTION")
    resolve.add_argument("deposit", metavar="DIGEST")
    resolve.add_argument("--by", default="", metavar="NAME")
    verify = _add(actions, "verify", "compare everything with its digests, and the store with the ledger")
    verify.add_argument("registry", metavar="REGISTRY")
    convert = _add(actions, "convert", "bring the ledger of an older version up")
    convert.add_argument("registry", metavar="REGISTRY")
