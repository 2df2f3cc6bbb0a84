"""What the mapping sets say of a term, and of an outside code: texts and data for ``chordae explain``.

::

    find_code("hp:0001719"), find_code("Q20.1"), find_code("http://purl.obolibrary.org/obo/HP_0001719")
        HP:0001719, ICD10CM:Q20.1, HP:0001719
    codes_text("septomarginal_trabeculation")    codes, codes that must never be used, searches in vain; reviewed or not
    code_text("HP:0001719")                      what the code is to terms of ours
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from chordae import mapping
from chordae.identifiers import contract, prefixes
from chordae.mapping import Code
from chordae.terms import vocabulary
from chordae.vocabulary.lines import bullet

__all__ = ["code_data", "code_text", "codes_data", "codes_text", "find_code"]

_MATCH = {"exact": "same", "close": "close", "broad": "wider", "narrow": "narrower", "related": "related"}
_IS = {
    "same": "the same as",
    "close": "close to",
    "wider": "wider than",
    "narrower": "narrower than",
    "related": "related to",
}
_BARE = ("ICD10CM", "icd11.code")
_UNSIGNED = "reviewed: no, no morphologist has signed"


def find_code(text: str) -> str:
    """Return the outside code that a text names, if a mapping set names it too; an empty text if not.

    Capitals of the prefix do not matter, addresses are understood, and codes of ICD go without a prefix.
    """
    known = {name.casefold(): name for name in prefixes()}
    words = contract(text) if text.startswith("http") else text
    prefix, colon, local = words.replace("_", ":", 1).partition(":")
    guesses = [f"{known[prefix.casefold()]}:{local}"] if colon and prefix.casefold() in known else []
    guesses += [f"{source}:{text.upper()}" for source in _BARE if not colon]
    return next((one for one in guesses if mapping.rows_for(one) or mapping.never_rows_for(one)), "")


def code_text(curie: str) -> list[str]:
    """Return the lines that say what an outside code is to terms of ours."""
    rows, never = mapping.rows_for(curie), mapping.never_rows_for(curie)
    first = (rows or never)[0][1]
    release = f" [{first.release}]" if first.release else ""
    signed = all(code.reviewed for _, code in rows + never)
    lines = [f"{curie} {first.label}{release}", f"  To our terms it is ({'reviewed: yes' if signed else _UNSIGNED})"]
    for slug, code in rows:
        lines += bullet(f"{_IS[_match(code)]}: {vocabulary()[slug].european}{_why(code)}{_signed(code, signed)}")
    for slug, code in never:
        lines += bullet(f"never to be used for: {vocabulary()[slug].european}{_why(code)}{_signed(code, signed)}")
    return lines


def codes_text(slug: str) -> list[str]:
    """Return the lines about the codes of a term; none if no set speaks of it."""
    codes, never, searched = mapping.codes_for(slug), mapping.never_for(slug), mapping.searched_for(slug)
    lines: list[str] = []
    if codes:
        signed = all(code.reviewed for code in codes)
        lines.append(f"  Codes in open vocabularies (reviewed: {'yes' if signed else 'no'})")
        lines += _codes(codes, signed)
    if never:
        signed = all(code.reviewed for code in never)
        lines.append(f"  Looks right and must never be used (reviewed: {'yes' if signed else 'no'})")
        for code in never:
            lines += bullet(f"{code.curie} {code.label}{_why(code)}{_signed(code, signed)}")
    if searched:
        lines.append("  Looked for in vain")
        for one in searched:
            lines += bullet(f"{_source(one.source)} [{one.release}]: {one.comment}")
    return lines


def code_data(curie: str) -> dict[str, Any]:
    """Return what an outside code is to terms of ours as data: ``matches`` and ``never``, each with its term."""
    rows, never = mapping.rows_for(curie), mapping.never_rows_for(curie)
    return {
        "code": curie,
        "matches": [{"term": slug, **_data(code)} for slug, code in rows],
        "never": [{"term": slug, **_data(code)} for slug, code in never],
    }


def codes_data(slug: str) -> dict[str, list[dict[str, Any]]]:
    """Return the same as data: ``codes``, ``never`` and ``searched``."""
    return {
        "codes": [_data(code) for code in mapping.codes_for(slug)],
        "never": [_data(code) for code in mapping.never_for(slug)],
        "searched": [
            {"source": _source(one.source), "release": one.release, "comment": one.comment}
            for one in mapping.searched_for(slug)
        ],
    }


def _codes(codes: Sequence[Code], signed: bool) -> Iterator[str]:
    for code in codes:
        release = f" [{code.release}]" if code.release else ""
        yield from bullet(f"{_match(code)}: {code.curie} {code.label}{release}{_why(code)}{_signed(code, signed)}")


def _data(code: Code) -> dict[str, Any]:
    return {
        "code": code.curie,
        "label": code.label,
        "match": _match(code),
        "release": code.release,
        "reviewed": code.reviewed,
        "comment": code.comment,
    }


def _match(code: Code) -> str:
    return "same" if code.same else _MATCH[code.predicate]


def _why(code: Code) -> str:
    # That a match is the same is reason enough; why it is kept at close is of use to other programs only.
    return f" - {code.comment.removeprefix('Never this one: ')}" if code.comment and not code.same else ""


def _signed(code: Code, all_signed: bool) -> str:
    return " (reviewed)" if code.reviewed and not all_signed else ""


def _source(file: str) -> str:
    titles = {str(one["file"]): str(one["title"]) for one in mapping.sets()}
    return titles.get(file, file).removeprefix("chordae terms and ")
