"""From one record, what was derived from it and its issues to its section of the page.

::

    0012            second reading, Reader B, 2026-05            1 violation  2 warnings
    in European words ...                    |  drawing of the chain
    in North American words ...              |
    notation stated / derived                |
    conclusions: stated | derived            identities with their ground
    diagnoses: stated | derived with premises and codes
    what could not be determined, and why    issues with place and remedy
    all that was recorded, part by part

What the observer stated and what was derived never share a cell.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from chordae.issues import SEVERITIES, Issue
from chordae.record import Record
from chordae.report.drawing import draw
from chordae.report.markup import Html, join, table, tag, text
from chordae.report.named import make_chain
from chordae.report.recorded import recorded_list
from chordae.report.words import basis_words, part_words, sentence, term_words, value_words

__all__ = ["CONCLUSION_ROWS", "Heart", "heart_section", "issue_item", "mark"]

CONCLUSION_ROWS = (
    ("Atrial arrangement", "atrial_arrangement", "arrangement"),
    ("Ventricular topology", "topology", "topology"),
    ("Atrioventricular connection", "av_connection", "av_connection"),
    ("Ventriculo-arterial connection", "va_connection", "va_connection"),
    ("Notation", "notation", "notation"),
)
"""Words, slot of the stated conclusion, key of the derived one."""

_SCHOOLS = (("european", "European words"), ("north_american", "North American words"))
_ROWS = ("atria", "ventricles", "trunks")


@dataclass(frozen=True, slots=True)
class Heart:
    """What one section shows: the full record, its derived object, and its issues in order."""

    record: Record
    derived: Mapping[str, Any]
    issues: Sequence[Issue]

    @property
    def id(self) -> str:
        """Identifier of the record."""
        return str(self.record.get("id"))

    @property
    def severities(self) -> list[str]:
        """The severities of its issues, worst first, each once."""
        found = {one.severity for one in self.issues}
        return [severity for severity in SEVERITIES if severity in found]


def heart_section(heart: Heart, others: Sequence[str] = ()) -> Html:
    """Return the ``<article>`` of one heart.

    Parameters
    ----------
    heart
        What is shown.
    others
        Ids of the other descriptions of the same specimen on the page.
    """
    record, derived = heart.record, heart.derived
    counts = [
        mark(severity, f"{count} {severity}{'s' if count != 1 and severity != 'info' else ''}")
        for severity in heart.severities
        if (count := sum(one.severity == severity for one in heart.issues))
    ]
    head = tag(
        "header",
        tag("div", tag("h3", text(heart.id)), tag("span", text(_about(record)), class_="sub"), *_others(others)),
        tag("div", join(counts, " ")),
    )
    left = [_said(record, derived), _conclusions(record, derived), _diagnoses(record, derived)]
    chain = make_chain(record, derived)
    drawing = draw(chain, f"heart {heart.id}", lambda identity: sentence(term_words(identity)))
    notes = [f"The sides of the {_ROWS[row]} are not recorded." for row in chain.unknown]
    figure = [tag("figure", Html(drawing), tag("figcaption", text(" ".join(notes))))] if drawing else []
    body = tag("div", tag("div", *left), tag("div", *figure), class_="heart-body")
    rest = [_identities(derived), _undetermined(derived), _issues(heart.issues), recorded_list(record)]
    has = " ".join([*heart.severities, *(["undetermined"] if derived.get("undetermined") else [])])
    return tag("article", head, body, *rest, class_="heart", id=f"heart-{heart.id}", data_has=has)


def mark(severity: str, words: str) -> Html:
    """Return a small label that tells a severity by word, sign and colour."""
    return tag("span", text(words), class_=f"mark {severity}")


def issue_item(one: Issue) -> Html:
    """Return the ``<li>`` of one issue: severity, rule, sentence, remedy, place."""
    place = [part_words(one.part) if one.part else "", str(one.location)]
    return tag(
        "li",
        mark(one.severity, one.severity),
        text(" "),
        tag("code", text(one.rule)),
        tag("p", text(one.message)),
        tag("p", text(one.hint), class_="to-do") if one.hint else text(""),
        tag("p", text(" · ".join(word for word in place if word)), class_="where"),
    )


def _others(others: Sequence[str]) -> list[Html]:
    if not others:
        return []
    links = join((tag("a", text(name), href=f"#heart-{name}") for name in others), ", ")
    return [tag("span", text("The same heart is described in "), links, class_="sub")]


def _about(record: Record) -> str:
    specimen, description = (_mapping(record.get(name)) for name in ("specimen", "description"))
    accession = specimen.get("accession")
    reading = f"{description['reader']} reading" if description.get("reader") else ""
    words = [
        f"catalogue number {accession}" if accession and accession != record.get("id") else "",
        reading,
        description.get("observer"),
        description.get("described_on"),
        value_words("school", description["school"]) if description.get("school") else "",
        value_words("material", specimen["material"]) if specimen.get("material") else "",
    ]
    return " · ".join(str(word) for word in words if word)


def _said(record: Record, derived: Mapping[str, Any]) -> Html:
    statement, stated = _mapping(derived.get("statement")), _mapping(record.get("stated"))
    rows = [(words, statement.get(school)) for school, words in _SCHOOLS]
    rows.append(("In the observer's words", stated.get("statement")))
    said = [tag("dt", text(words)) + tag("dd", text(value)) for words, value in rows if value]
    return tag("dl", *(Html(one) for one in said), class_="said")


def _conclusions(record: Record, derived: Mapping[str, Any]) -> Html:
    stated = _mapping(record.get("stated"))
    rows = []
    for words, slot, key in CONCLUSION_ROWS:
        said, found = stated.get(slot), derived.get(key)
        if said is None and found is None:
            continue
        told = "" if said is None or found is None else "same" if said == found else "differ"
        rows.append((text(words), _value(slot, said), tag("span", _value(slot, found), class_=told or None)))
    if not rows:
        return text("")
    return table(("Conclusion", "Observer stated", "Derived"), rows, caption="Conclusions")


def _value(slot: str, value: object) -> Html:
    if value is None or value == "":
        return tag("span", text("–"), class_="sub")
    if slot == "notation":
        return tag("span", text(value), class_="notation")
    return text(value_words(slot, value))


def _diagnoses(record: Record, derived: Mapping[str, Any]) -> Html:
    stated = _mapping(record.get("stated")).get("diagnoses") or ()
    found = [one for one in derived.get("diagnoses") or () if isinstance(one, Mapping)]
    pieces = []
    if stated:
        named = [tag("li", text(term_words(str(one)))) for one in stated]
        pieces += [tag("h4", text("Malformations stated by the observer")), tag("ul", *named, class_="plain")]
    if found:
        pieces += [
            tag("h4", text("Malformations derived")),
            tag("ul", *(_diagnosis(one) for one in found), class_="plain"),
        ]
    return join(pieces)


def _diagnosis(one: Mapping[str, Any]) -> Html:
    codes = ", ".join(_codes(one.get("codes") or ()))
    ground = "; ".join(basis_words(str(premise)) for premise in one.get("premises") or ())
    return tag(
        "li",
        text(one.get("label") or term_words(str(one.get("term")))),
        tag("span", text(f"because: {ground}"), class_="sub") if ground else text(""),
        tag("span", tag("code", text(codes)), class_="sub") if codes else text(""),
    )


def _codes(codes: Sequence[Any]) -> Iterator[str]:
    for one in codes:
        if isinstance(one, Mapping):
            yield " ".join(str(one[key]) for key in ("code", "match") if one.get(key))
        else:
            yield str(one)


def _identities(derived: Mapping[str, Any]) -> Html:
    rows = [
        (
            text(sentence(part_words(str(one.get("part"))))),
            text(sentence(term_words(str(one["identity"]))) if one.get("identity") else "–"),
            text(str(one.get("confidence") or "").replace("undetermined", "not determined")),
            join((text(basis_words(str(ground))) for ground in one.get("basis") or ()), "; "),
        )
        for one in derived.get("identities") or ()
    ]
    if not rows:
        return text("")
    return table(
        ("Part", "Identity", "How firmly", "On the ground of"), rows, caption="Identities derived from features"
    )


def _undetermined(derived: Mapping[str, Any]) -> Html:
    rows = [
        tag("li", tag("b", text(sentence(_what(str(one.get("what")))))), text(": "), text(one.get("why")))
        for one in derived.get("undetermined") or ()
    ]
    if not rows:
        return text("")
    return join([tag("h4", text("Could not be determined")), tag("ul", *rows, class_="plain")])


def _what(what: str) -> str:
    return part_words(what)


def _issues(issues: Sequence[Issue]) -> Html:
    if not issues:
        return text("")
    return join([tag("h4", text("Issues")), tag("ul", *(issue_item(one) for one in issues), class_="rules")])


def _mapping(value: object) -> Mapping[str, Any]:
    return value if isinstance(value, Mapping) else {}
