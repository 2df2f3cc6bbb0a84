"""``chordae check --mappings``: the mapping sets against outside vocabularies, instead of records against rules.

::

    chordae check --mappings                              rows, ids and labels, coherence: against the pinned releases
    chordae check --mappings --against installed          the same against the installed ontology packages
    chordae check --mappings --set local.sssom.tsv        the rows of somebody's own set
    chordae check --mappings --drift HP pinned new.obo    what changed between two releases for the terms in use

A release is ``pinned``, ``installed``, a version that the package holds, a file in OBO or OBO Graph JSON, or a table as
in ``mappings/outside``. ``commands/check.py`` adds the options and hands over.
"""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from chordae.issues import Issue
    from chordae.vocabulary.outside import Release

__all__ = ["add_options", "run"]

_FILES = (".tsv", ".txt", ".json")


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add the options to the parser of ``check``."""
    group = parser.add_argument_group("mapping sets instead of records")
    group.add_argument("--mappings", action="store_true", help="check the mapping sets and their coherence")
    group.add_argument(
        "--against",
        choices=("pinned", "installed"),
        default="pinned",
        help="releases to check against: those the sets were judged by, or the installed packages (default: pinned)",
    )
    group.add_argument("--set", metavar="FILE", action="append", help="check the rows of this SSSOM file only")
    group.add_argument(
        "--drift",
        nargs=3,
        metavar=("SOURCE", "OLD", "NEW"),
        help="say what changed between two releases of UBERON, MONDO, HP, PATO ... for the terms in use",
    )
    group.add_argument(
        "--drift-to", choices=("text", "tsv", "json"), default="text", help="form of that report (default: text)"
    )


def run(args: argparse.Namespace) -> int:
    """Check, or report the drift; return the exit code."""
    from chordae.commands.options import finish, write_data

    if args.drift is not None:
        source, old, new = args.drift
        write_data(_drift(source, old, new, args.drift_to), None)
        return 0
    return finish(_sets(args.set) if args.set else _audit(args.against), args)


def _audit(against: str) -> list[Issue]:
    from chordae.vocabulary.audit import SOURCES, audit

    return audit({source: _release(source, against) for source in SOURCES})


def _sets(paths: list[str]) -> list[Issue]:
    from chordae.formats.opening import open_path
    from chordae.formats.table import FORMATS, format_of_name
    from chordae.terms import vocabulary
    from chordae.vocabulary.lint import lint_mappings

    found: list[Issue] = []
    for path in paths:
        named = format_of_name(path)
        form = named if named is not None and named.holds == "mappings" else FORMATS["sssom"]
        sets, issues = open_path(path, form)
        found += issues
        for mappings in sets:
            found += lint_mappings(mappings, vocabulary())
    return found


def _drift(source: str, old: str, new: str, form: str) -> str:
    from chordae.errors import VocabularyError
    from chordae.vocabulary.audit import SOURCES, used_codes
    from chordae.vocabulary.drift import drift_report, format_drift, headline

    if source not in SOURCES:
        raise VocabularyError(f"No set of ours maps to '{source[:40]}'.", "Use one of " + ", ".join(SOURCES) + ".")
    before, after, used = _release(source, old), _release(source, new), used_codes()
    entries = drift_report(before, after, used)
    return format_drift(entries, form, headline(before, after, used, entries))


def _release(source: str, name: str) -> Release:
    from chordae.vocabulary.outside import pinned, read_obo
    from chordae.vocabulary.packages import SOURCES, installed

    if name == "pinned" or (name == "installed" and source not in SOURCES):
        return pinned(source)
    if name.endswith(".obo"):
        return read_obo(name, source)
    if Path(name).suffix in _FILES or Path(name).is_file():
        return _file(name, source)
    return installed(source, None if name == "installed" else name)


def _file(name: str, source: str) -> Release:
    from chordae.errors import InputError
    from chordae.files import read_input
    from chordae.formats.releases import read

    found, issues = read(read_input(name), name, "obograph" if name.endswith(".json") else "outside-table", source)
    if not found:
        raise InputError(issues[0].message, issues[0].hint)
    release: Release = found[0]
    return release
