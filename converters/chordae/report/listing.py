"""From issues to a list of them: text for the terminal, JSON, Turtle, or a small HTML page.

::

    0012
      !! tricuspid valve: typed as tricuspid, but ... (R-AV-13)            hearts.xlsx [Hearts] G14
         Look again at the cords, or type the valve otherwise.
    2 violations, 1 warning, 0 for the record.

The Turtle is a SHACL validation report (sh:ValidationReport); every node has an IRI.
"""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Sequence

from chordae.errors import FormatError
from chordae.issues import Issue, sort_issues
from chordae.report.markup import Html, table, tag, text
from chordae.report.words import caution

__all__ = ["REPORTS", "count_line", "list_issues"]

REPORTS = ("text", "json", "ttl", "html")
_SIGNS = {"violation": "!!", "warning": " !", "info": "  "}
_SHACL = {"violation": "sh:Violation", "warning": "sh:Warning", "info": "sh:Info"}
_BASE = "https://w3id.org/chordae/"
_PREFIXES = (
    "@prefix sh: <http://www.w3.org/ns/shacl#> .\n"
    "@prefix dcterms: <http://purl.org/dc/terms/> .\n"
    "@prefix rule: <https://w3id.org/chordae/rule/> .\n"
)


def list_issues(issues: Iterable[Issue], format: str = "text") -> str:
    """Return the issues, sorted, in one of ``REPORTS``; the text ends with a newline.

    Raises
    ------
    FormatError
        There is no such format.
    """
    found = sort_issues(issues)
    if format == "text":
        return _text(found)
    if format == "json":
        lines = ",\n".join(json.dumps(one.to_json(), ensure_ascii=False) for one in found)
        return f"[\n{lines}\n]\n" if lines else "[]\n"
    if format == "ttl":
        return _turtle(found)
    if format == "html":
        return _html(found)
    raise FormatError(f"There is no report format {format!r}.", f"Use one of: {', '.join(REPORTS)}.")


def count_line(issues: Iterable[Issue]) -> str:
    """Return one line with the number of issues by severity.

    Examples
    --------
    >>> count_line([])
    'No issues.'
    """
    counts = Counter(one.severity for one in issues)
    if not counts:
        return "No issues."
    words = {"violation": "violation", "warning": "warning"}
    parts = [f"{counts[one]} {words[one]}{'' if counts[one] == 1 else 's'}" for one in ("violation", "warning")]
    return f"{', '.join(parts)}, {counts['info']} for the record."


def _text(issues: Sequence[Issue]) -> str:
    lines: list[str] = []
    last: str | None = None
    for one in issues:
        name = one.record or "(files)"
        if name != last:
            lines.append(name)
            last = name
        place = f"  [{one.location}]" if str(one.location) else ""
        lines.append(f"  {_SIGNS[one.severity]} {one.message} ({one.rule}){place}")
        if one.hint and one.severity != "info":
            lines.append(f"     {one.hint}")
    return "\n".join([*lines, count_line(issues)]) + "\n"


def _turtle(issues: Sequence[Issue]) -> str:
    """Write a validation report; the focus node is the record, the shape the rule."""
    results: list[tuple[str, str]] = []
    for one in issues:
        key = json.dumps(one.to_json(), sort_keys=True, ensure_ascii=False)
        iri = f"{_BASE}result/{hashlib.sha256(key.encode()).hexdigest()[:24]}"
        lines = [
            f"<{iri}> a sh:ValidationResult",
            f"sh:resultSeverity {_SHACL[one.severity]}",
            f"sh:sourceShape rule:{one.rule}",
            f"sh:resultMessage {_literal(one.message)}@en",
        ]
        if one.record is not None:
            lines.append(f"dcterms:subject {_literal(one.record)}")
        if one.value is not None:
            lines.append(f"sh:value {_literal(one.value)}")
        if one.hint:
            lines.append(f"dcterms:description {_literal(one.hint)}@en")
        if str(one.location):
            lines.append(f"dcterms:source {_literal(str(one.location))}")
        results.append((iri, " ;\n    ".join(lines) + " .\n"))
    conforms = "false" if any(one.severity == "violation" for one in issues) else "true"
    digest = hashlib.sha256("".join(iri for iri, _ in results).encode()).hexdigest()[:24]
    head = f"<{_BASE}report/{digest}> a sh:ValidationReport ;\n    sh:conforms {conforms}"
    iris = sorted({iri for iri, _ in results})
    if iris:
        head += " ;\n    sh:result " + ",\n        ".join(f"<{iri}>" for iri in iris)
    return _PREFIXES + "\n" + head + " .\n\n" + "\n".join(dict(sorted(results)).values())


def _html(issues: Sequence[Issue]) -> str:
    rows = [
        [
            text("confirmed" if one.confirmed else one.severity),
            text(one.record or ""),
            tag("div", tag("p", text(one.message)), tag("p", text(one.hint))),
            text(one.rule),
            text(one.location),
        ]
        for one in issues
    ]
    heads = ["Severity", "Record", "What was found, and what to do", "Rule", "Place"]
    body = table(heads, rows, caption="Issues, record by record") if rows else tag("p", text("No issues."))
    return (
        "<!doctype html>\n"
        + tag(
            "html",
            tag("head", tag("meta", charset="utf-8"), tag("title", text("Issues")), tag("style", Html(_STYLE))),
            tag("body", tag("h1", text("Issues")), tag("p", text(count_line(issues))), body, tag("p", text(caution()))),
            lang="en",
        )
        + "\n"
    )


_STYLE = (
    "body{font:1rem/1.5 system-ui,sans-serif;max-width:70rem;margin:2rem auto;padding:0 1rem}"
    "table{border-collapse:collapse;width:100%}td,th{border-top:1px solid #8886;padding:.4rem;text-align:left;"
    "vertical-align:top}p{margin:0}"
)


def _literal(words: str) -> str:
    return json.dumps(words, ensure_ascii=False)
