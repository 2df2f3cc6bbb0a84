"""``chordae check --confirm``: a document of records in, the same with one warning confirmed out.

::

    chordae check hearts.yaml --confirm R-TOPO-01 --record 0021 --by "Reader A" \\
        --reason "The septal surfaces were looked at again." --out hearts.yaml

    chordae check alder.yaml veyhaven.yaml --confirm R-SET-06 --record 0021 --other v7 --by "Reader A" --reason "..."

What a rule across records found is confirmed on one of the two records, in the first input; the other one may stand in
another input. The records are written as they were read, short or full; only the confirmation is added. Comments of a
YAML file are not kept. Nothing is written unless every record of the input could be read.
"""

from __future__ import annotations

import argparse
import datetime
from typing import TYPE_CHECKING

from chordae.errors import FormatError, InputError

if TYPE_CHECKING:
    from collections.abc import Callable

    from chordae.record import Record

__all__ = ["add_options", "check_options", "run"]

_NEEDED = ("record", "reason", "by")
_OPTIONS = {
    "record": ("ID", "id of the record"),
    "part": ("ID", "part of the record, if the rule speaks of several"),
    "other": ("ID", "id of the other record, if a rule across records speaks of several"),
    "reason": ("TEXT", "why the curator stands by the record"),
    "by": ("NAME", "person or role that confirms it"),
    "on": ("DAY", "day as 2026-05-04 (default: today)"),
    "out": ("FILE", "file to write, the records or without --confirm the issues (default: standard output)"),
}


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add the options of a confirmation."""
    group = parser.add_argument_group("confirming a warning")
    group.add_argument("--confirm", metavar="RULE", help="write the records with this warning of one record confirmed")
    for name, (metavar, words) in _OPTIONS.items():
        group.add_argument(f"--{name}", metavar=metavar, help=words)
    group.add_argument(
        "--evidence", metavar="ID", action="append", default=[], help="evidence in the record; may be given again"
    )


def check_options(args: argparse.Namespace) -> None:
    """See that the options of a confirmation stand beside ``--confirm``; without it ``--out`` is where issues go.

    Raises
    ------
    FormatError
        An option of a confirmation stands alone, or two files are named for the issues.
    """
    if args.confirm is not None:
        return
    for name in ("record", "part", "other", "reason", "by", "on", "evidence"):
        if getattr(args, name):
            raise FormatError(f"--{name} belongs to a confirmation.", "Name the rule with --confirm, or leave it out.")
    if args.out is not None:
        if args.report_to is not None:
            raise FormatError("--out and --report-to both name a file for the issues.", "Leave one of them out.")
        args.report_to = args.out


def run(args: argparse.Namespace) -> int:
    """Confirm; return 0.

    Raises
    ------
    InputError
        An option is missing, the record is not there, its rule did not warn, or the input could not be read whole.
    """
    from chordae.commands.options import write_data
    from chordae.intake.document_text import write_document
    from chordae.shapes.set_rules import load_set_rules

    missing = [f"--{name}" for name in _NEEDED if not (getattr(args, name) or "").strip()]
    if missing:
        raise InputError(f"A confirmation needs {', '.join(missing)}.", "Say which record, why, and who confirms it.")
    across = args.confirm in load_set_rules()
    if len(args.inputs) != 1 and not across:
        raise InputError("A confirmation is written into one document.", "Name one input.")
    if args.other is not None and not across:
        raise FormatError(
            f"{args.confirm} speaks of one record.", "--other is for rules across records (R-SET); leave it out."
        )
    records = _records(args)
    if not any(record.get("id") == args.record for record in records):
        raise InputError(f"There is no record {args.record!r} in the input.", "Look at its id.")
    confirmed = _confirmed_across(records, args) if across else _confirmed
    done = [confirmed(record, args) if record.get("id") == args.record else record for record in records]
    write_data(write_document(done, _form(args)), args.out)
    return 0


def _records(args: argparse.Namespace) -> list[Record]:
    from chordae.commands.inputs import each_input

    records: list[Record] = []
    for reading, issues in each_input(args, args.inputs[0]):
        if reading is not None:
            records.append(reading.record)
        elif broken := [one for one in issues if one.severity == "violation"]:
            place = f"{broken[0].location}: " if str(broken[0].location) else ""
            raise InputError(
                f"Not every record could be read, and would be lost. {place}{broken[0].message}", broken[0].hint
            )
    return records


def _confirmed(record: Record, args: argparse.Namespace) -> Record:
    from chordae.record import Reading
    from chordae.shapes.checker import Checker
    from chordae.shapes.waivers import confirm
    from chordae.shortform import expand_reading
    from chordae.soundness import make_sound

    sound, _ = make_sound(expand_reading(Reading(record))[0])
    return confirm(
        record,
        Checker(premises=True).check_one(sound).findings,
        args.confirm,
        part=args.part,
        reason=args.reason.strip(),
        by=args.by.strip(),
        on=_day(args.on),
        evidence=_evidence(sound.record, args.evidence),
    )


def _confirmed_across(
    records: list[Record], args: argparse.Namespace
) -> Callable[[Record, argparse.Namespace], Record]:
    """Return what adds the confirmation of a rule across records, which is looked for in all inputs."""
    from chordae.commands.inputs import each_full
    from chordae.record import Reading
    from chordae.shapes.across import Across
    from chordae.shapes.set_waivers import waivers_of
    from chordae.shapes.waivers import with_waivers
    from chordae.shortform import expand_reading
    from chordae.soundness import make_sound

    def sound(record: Record) -> Reading:
        return make_sound(expand_reading(Reading(record))[0])[0]

    with Across() as across:
        for record in records:
            across.add(sound(record))
        for path in args.inputs[1:]:
            for reading, _ in each_full(args, path):
                if reading is not None:
                    across.add(reading)
        found = list(across.findings())

    def confirmed(record: Record, args: argparse.Namespace) -> Record:
        evidence = _evidence(sound(record).record, args.evidence)
        made = waivers_of(
            found,
            args.confirm,
            args.record,
            other=args.other,
            reason=args.reason.strip(),
            by=args.by.strip(),
            on=_day(args.on),
            evidence=evidence,
        )
        return with_waivers(record, made)

    return confirmed


def _day(text: str | None) -> str:
    if text is None:
        return datetime.datetime.now(tz=datetime.UTC).astimezone().date().isoformat()
    try:
        day = datetime.date.fromisoformat(text)
    except ValueError:
        raise InputError(f"--on is {text!r}, which is no day.", "Write it as 2026-05-04.") from None
    return day.isoformat()


def _evidence(record: Record, wanted: list[str]) -> list[str]:
    known = [one.get("id") for one in record.get("evidence") or ()]
    for one in wanted:
        if one not in known:
            listed = ", ".join(str(name) for name in known) or "none"
            raise InputError(f"There is no evidence {one!r} in record {record.get('id')}.", f"It has: {listed}.")
    return wanted


def _form(args: argparse.Namespace) -> str:
    from chordae.intake.document import document_format

    found = args.format or document_format(args.inputs[0])
    return found if found in ("yaml", "json", "ndjson") else "yaml"
