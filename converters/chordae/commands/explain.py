"""``chordae explain``: what a word, a term, an outside code or a rule means.

::

    chordae explain L-TGA                what it may mean, what it never implies, what to ask
    chordae explain "tricuspid valve"    labels of both schools, definition, source, codes
    chordae explain HP:0001719           the terms that a code of an open vocabulary was mapped to
    chordae explain R-AV-13 I-DOC-02     rules
    chordae explain - < words.txt        the same for each line of standard input
    chordae explain --rule-book FILE     all rules of morphology, with hearts to see them by, as one HTML page

The exit code is 0 if everything was known, else 1 (with ``--fail-on never`` 0). An explanation is written as text, JSON
or HTML; there is none in Turtle, because questions and reasons are sentences (``write --vocabulary --to skos`` has
the terms).
"""

from __future__ import annotations

import argparse
import re
import textwrap
from typing import TYPE_CHECKING, Any

from chordae.commands.options import REPORTS, words_of, write_data
from chordae.errors import FormatError, InputError
from chordae.issues import unfilled

if TYPE_CHECKING:
    from chordae.issues import Rule as ReadingRule
    from chordae.vocabulary.explain import Lookup

__all__ = ["add_parser", "run"]

_RULE = re.compile(r"[RSI]-[A-Z]+(-[0-9]{2}[A-Z]?)?", re.IGNORECASE)


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command."""
    parser = subparsers.add_parser(
        "explain",
        help="what a word, a term, a code or a rule means",
        description="Say what a word means in either school, what it never implies and what to ask; or what a term, "
        "a code of an open vocabulary, or a rule means. Exit code 1 if something is not known.",
    )
    parser.add_argument(
        "word", metavar="WORD", nargs="*",
        help="word, term, code or rule; quote what holds spaces; - for standard input, one a line",
    )  # fmt: skip
    parser.add_argument("--rule-book", "--book", metavar="FILE", help="write all rules as one HTML page to FILE")
    parser.add_argument(
        "--report", "--to", choices=REPORTS, default="text",
        help="form of the answer (default: text); there is none in Turtle",
    )  # fmt: skip
    parser.add_argument("--out", metavar="FILE", help="file to write (default: standard output)")
    parser.add_argument(
        "--fail-on", choices=("violation", "warning", "info", "never"), default="violation",
        help="never: exit with 0 also where something is not known (default: with 1)",
    )  # fmt: skip


def run(args: argparse.Namespace) -> int:
    """Explain every word in turn."""
    if args.report == "ttl":
        raise FormatError(
            "An explanation is sentences, and is not written as Turtle.",
            "The terms with their codes are: chordae write --vocabulary --to skos. Rules: schema/shapes/.",
        )
    if args.rule_book:
        from chordae.files import write_aside
        from chordae.shapes.rulebook import rule_book

        write_aside(args.rule_book, rule_book())
        if not args.word:
            return 0
    words = words_of(args.word)
    if not words:
        raise InputError("Nothing is asked.", "Give a word, a term, a code or a rule, or --rule-book FILE.")
    answers = [_answer(word) for word in words]
    if args.report == "json":
        import json

        text = json.dumps([answer[2] for answer in answers], ensure_ascii=False, indent=2) + "\n"
    elif args.report == "html":
        from chordae.report.explained import make_page

        text = make_page(answer[1] for answer in answers)
    else:
        text = "\n\n".join(answer[1] for answer in answers) + "\n"
    write_data(text, args.out)
    return 0 if args.fail_on == "never" or all(answer[0] for answer in answers) else 1


def _answer(word: str) -> tuple[bool, str, dict[str, Any]]:
    """Whether the word is known, the text, and the same as data."""
    if _RULE.fullmatch(word.strip()) and (found := _rule(word.strip().upper())) is not None:
        return True, *found
    from chordae.vocabulary.explain import explain_word, look_up

    known = look_up(word)
    return known.known, explain_word(word), _lookup_data(known)


def _rule(rule_id: str) -> tuple[str, dict[str, Any]] | None:
    if rule_id.startswith("R-"):
        from chordae.shapes.explain import explain_rule, rule_facts
        from chordae.shapes.load import load_rules
        from chordae.shapes.set_rules import load_set_rules

        known = rule_id in load_rules().rules or rule_id in load_set_rules()
        return (explain_rule(rule_id), rule_facts(rule_id)) if known else None
    from chordae.issues import rules

    reading = rules().get(rule_id)
    return None if reading is None else _reading(reading)


def _reading(rule: ReadingRule) -> tuple[str, dict[str, Any]]:
    lines = [f"{rule.id} ({rule.severity}): {rule.label}"]
    lines += _field("Says", unfilled(rule.message))
    lines += _field("Do", unfilled(rule.hint))
    lines += _field("Source", _source(rule.source) if rule.source else "")
    data = {
        "rule": rule.id,
        "severity": rule.severity,
        "label": rule.label,
        "message": rule.message,
        "hint": rule.hint,
        "sources": [rule.source] if rule.source else [],
    }
    return "\n".join(lines), data


def _lookup_data(found: Lookup) -> dict[str, Any]:
    from chordae.vocabulary.codes import code_data, codes_data

    return {
        "word": found.text,
        "known": found.known,
        "code": code_data(found.code) if found.code else None,
        "false_friends": [
            {
                "word": friend.word,
                "context": friend.context,
                "meanings": [{"term": one.term, "school": one.school, "gloss": one.gloss} for one in friend.meanings],
                "never_implies": list(friend.never_implies),
                "ask": friend.ask,
                "source": friend.source,
            }
            for friend in found.friends
        ],
        "terms": [
            {
                "term": term.slug,
                "iri": term.iri,
                "european": term.european,
                "north_american": term.north_american,
                "plain": term.plain,
                "definition": term.definition,
                "source": term.source,
                **codes_data(term.slug),
            }
            for term in found.terms
        ],
        "nearest": [term.slug for term in found.nearest],
    }


def _source(key: str) -> str:
    from chordae.terms import vocabulary

    source = vocabulary().source(key)
    return key.replace("_", " ") if source is None else f"{key}: {source.citation} ({source.status})"


def _field(name: str, text: str) -> list[str]:
    if not text:
        return []
    return textwrap.wrap(f"{name}: {text}", 100, initial_indent="  ", subsequent_indent="    ")
