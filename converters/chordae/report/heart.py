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

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from chordae.issues import SEVERITIES, Issue
from chordae.record import Record
from chordae.report.derived import conclusions, holes, identities, malformations, undetermined
from chordae.report.drawing import draw
from chordae.report.markup import Html, join, tag, text
from chordae.report.named import make_chain
from chordae.report.recorded import recorded_list
from chordae.report.words import part_words, sentence, term_words, value_words

__all__ = ["Heart", "heart_section", "issue_item", "mark"]

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
    left = [_said(record, derived), conclusions(record, derived)]
    chain = make_chain(record, derived)
    drawing = draw(chain, f"heart {heart.id}", lambda identity: sentence(term_words(identity)))
    notes = [f"The sides of the {_ROWS[row]} are not recorded." for row in chain.unknown]
    figure = [tag("figure", Html(drawing), tag("figcaption", text(" ".join(notes))))] if drawing else []
    body = tag("div", tag("div", *left), tag("div", *figure), class_="heart-body")
    rest = [
        _issues(heart.issues),
        malformations(record, derived),
        holes(derived),
        identities(derived),
        undetermined(derived),
        recorded_list(record),
    ]
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
        mark(one.severity, "confirmed" if one.confirmed else one.severity),
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


def _issues(issues: Sequence[Issue]) -> Html:
    if not issues:
        return text("")
    return join([tag("h4", text("Issues")), tag("ul", *(issue_item(one) for one in issues), class_="rules")])


def _mapping(value: object) -> Mapping[str, Any]:
    return value if isinstance(value, Mapping) else {}
