"""From what was stated and what was derived of one heart to the tables that hold the two against each other.

::

    Conclusion                   Observer stated        Derived                                   verdict
    Ventriculoarterial c.       concordant             discordant                                contradicts
    Ventricular topology         right-hand topology    - (nothing tells; taken over as stated)   cannot be judged

A value that derivation took over from the observer is never shown as derived.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from chordae.record import Record
from chordae.report.markup import Html, join, table, tag, text
from chordae.report.words import (
    CONCLUSIONS,
    basis_words,
    code_words,
    derived_key,
    derived_value,
    feature_words,
    part_words,
    sentence,
    subject_words,
    term_words,
    value_words,
)

__all__ = ["conclusions", "holes", "identities", "malformations", "undetermined"]

_VERDICTS: Mapping[str, tuple[str, str]] = {
    "agrees": ("same", ""),
    "contradicts": ("differ", "contradicts what was stated"),
    "more_specific": ("near", "what was stated is narrower"),
    "less_specific": ("near", "what was stated is wider"),
    "cannot_be_judged": ("", ""),
}
_HOLE = ("borders", "geography", "commitment")


def conclusions(record: Record, derived: Mapping[str, Any]) -> Html:
    """Return the table of the four conclusions and the notation; empty if there is nothing of either kind."""
    stated = record.get("stated") or {}
    verdicts = _verdicts(derived)
    rows = []
    for slot, words in (*CONCLUSIONS.items(), ("notation", "notation")):
        said = stated.get(slot)
        cell = _notation(derived) if slot == "notation" else _derived(derived, slot)
        if said is None and not cell:
            continue
        told = _against(verdicts.get(slot), cell or _dash())
        rows.append((text(sentence(words)), _value(slot, said), told))
    if not rows:
        return text("")
    return table(("Conclusion", "Observer stated", "Derived"), rows, caption="Conclusions")


def _derived(derived: Mapping[str, Any], slot: str) -> Html:
    value, origin = derived_value(derived, slot)
    if value is None:
        return text("")
    if origin == "stated":
        return join([_dash(), tag("span", text("no feature tells; taken over as stated"), class_="sub")])
    words = text(value_words(slot, value))
    premises = (derived.get("premises") or {}).get(derived_key(slot)) or ()
    ground = "; ".join(basis_words(str(one)) for one in premises)
    head = "expected from other conclusions, not seen" if origin == "inferred" else ""
    under = ": ".join(one for one in (head, ground) if one)
    return join([words, tag("span", text(under), class_="sub")]) if under else words


def _notation(derived: Mapping[str, Any]) -> Html:
    written = derived.get("notation")
    if not written:
        return text("")
    lost = [f"{one.get('why')}" for one in derived.get("notation_lost") or () if isinstance(one, Mapping)]
    note = tag("span", text("It does not say: " + "; ".join(lost)), class_="sub") if lost else text("")
    return join([tag("span", text(written), class_="notation"), note])


def _against(row: Mapping[str, Any] | None, cell: Html) -> Html:
    kind, words = _VERDICTS.get(str((row or {}).get("verdict")), ("", ""))
    if not kind:
        return cell
    note = tag("span", text(words), class_="sub") if words else text("")
    return tag("span", cell, note, class_=kind)


def _verdicts(derived: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    return {str(one.get("what")): one for one in derived.get("stated_against_derived") or ()}


def _value(slot: str, value: object) -> Html:
    if value is None or value == "":
        return _dash()
    if slot == "notation":
        return tag("span", text(value), class_="notation")
    return text(value_words(slot, value))


def _dash() -> Html:
    return tag("span", text("–"), class_="sub dash")


def malformations(record: Record, derived: Mapping[str, Any]) -> Html:
    """Return the malformations stated, and those derived, each of these with premises and codes."""
    stated = (record.get("stated") or {}).get("diagnoses") or ()
    found = [one for one in derived.get("diagnoses") or () if isinstance(one, Mapping)]
    pieces = []
    if stated:
        judged = {one.get("stated"): one for one in derived.get("stated_against_derived") or ()}
        named = [tag("li", _against(judged.get(one), text(term_words(str(one))))) for one in stated]
        pieces.append(
            tag("div", tag("h4", text("Malformations stated by the observer")), tag("ul", *named, class_="plain"))
        )
    if found:
        named = [_malformation(one) for one in found]
        pieces.append(tag("div", tag("h4", text("Malformations derived")), tag("ul", *named, class_="plain")))
    return tag("div", *pieces, class_="pair") if pieces else text("")


def _malformation(one: Mapping[str, Any]) -> Html:
    codes = ", ".join(_codes(one.get("codes") or ()))
    ground = "; ".join(basis_words(str(premise)) for premise in one.get("premises") or ())
    return tag(
        "li",
        text(one.get("label") or term_words(str(one.get("term")))),
        tag("span", text(f"because: {ground}"), class_="sub") if ground else text(""),
        tag("span", tag("code", text(codes)), class_="sub") if codes else text(""),
    )


def _codes(codes: Any) -> Iterator[str]:
    for one in codes:
        if isinstance(one, Mapping):
            match = one.get("match") or one.get("predicate")
            name = code_words(str(one.get("code") or one.get("curie")))
            yield f"{name} ({match})" if match and match != "exact" else name
        else:
            yield code_words(str(one))


def identities(derived: Mapping[str, Any]) -> Html:
    """Return the table of the identities: what the observer named each part, what its features make it, and why."""
    rows = [
        (
            text(sentence(part_words(str(one.get("part"))))),
            text(sentence(term_words(str(one["stated"])))) if one.get("stated") else _dash(),
            text(sentence(term_words(str(one["identity"])))) if one.get("identity") else _dash(),
            text(str(one.get("confidence") or "").replace("undetermined", "not determined")),
            _ground(one),
        )
        for one in derived.get("identities") or ()
    ]
    head = ("Part", "Observer named it", "By its features", "How firmly", "On the ground of")
    return table(head, rows, caption="Identities") if rows else text("")


def _ground(one: Mapping[str, Any]) -> Html:
    own = f"{one.get('part')}."
    told = [basis_words(str(each).removeprefix(own)) for each in one.get("basis") or ()]
    against = [basis_words(str(each)) for each in one.get("against") or ()]
    unseen = [str(each) for each in one.get("not_seen") or ()]
    would = [tag("li", text(each)) for each in one.get("would_change") or ()]
    return join(
        [
            text("; ".join(told)),
            tag("span", text("against it: " + "; ".join(against)), class_="sub") if against else text(""),
            tag("span", text("not seen: " + "; ".join(unseen)), class_="sub") if unseen else text(""),
            tag("details", tag("summary", text("What would decide it")), tag("ul", *would, class_="plain"))
            if would
            else text(""),
        ]
    )


def holes(derived: Mapping[str, Any]) -> Html:
    """Return what each hole between the ventricles is, with what is expected of the conduction axis."""
    items = []
    for one in derived.get("septal_defects") or ():
        told = [f"{feature_words(key)} {value_words(key, one[key])}" for key in _HOLE if one.get(key)]
        conduction = one.get("conduction") or {}
        expected = f"{conduction['say']} (expected from the borders, not seen)" if conduction.get("say") else ""
        said = text(f"{sentence(part_words(str(one.get('part'))))}: {', '.join(told) or 'nothing is recorded of it'}")
        items.append(tag("li", said, tag("span", text(expected), class_="sub") if expected else text("")))
    if not items:
        return text("")
    return join([tag("h4", text("Holes between the ventricles")), tag("ul", *items, class_="plain")])


def undetermined(derived: Mapping[str, Any]) -> Html:
    """Return what could not be determined, and why; the identities stand in their own table."""
    rows = [
        tag("li", tag("b", text(sentence(subject_words(str(one.get("what")))))), text(": "), text(one.get("why")))
        for one in derived.get("undetermined") or ()
        if not str(one.get("what")).endswith(".identity")
    ]
    if not rows:
        return text("")
    return join([tag("h4", text("Could not be determined")), tag("ul", *rows, class_="plain")])
