"""From the counts of an exchange to the README.txt of its deposit, and to what bag-info.txt says."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from typing import Any

from chordae.issues import counted
from chordae.rdf.emit import DEFAULT_BASE
from chordae.report.words import caution, texts

__all__ = ["bag_info", "make_readme"]

_NOT_STATED = "not stated; ask the custodian before passing anything on"


def make_readme(counts: Mapping[str, Any], with_source: bool = True) -> str:
    """Return the text, 78 columns wide: caution, terms, what each file is.

    Parameters
    ----------
    counts
        :meth:`chordae.report.summary.Summary.to_json`.
    with_source
        Whether the deposit holds the catalogue itself.
    """
    collection = counts["collection"]
    name = str(collection.get("name") or "Collection without a name")
    fields = (
        ("Collection", name),
        ("Custodian", collection.get("custodian") or "not stated"),
        ("Licence", collection.get("licence") or _NOT_STATED),
        (
            "Consent",
            "recorded for each specimen (specimen.consent, specimen.consent_scope); "
            f"{counts['consent']['recorded']} of {counts['records']} descriptions record it",
        ),
        ("Record IRIs", collection.get("base_iri") or DEFAULT_BASE),
        ("Note", collection.get("note") or ""),
    )
    found = counts["issues"]
    blocks = [
        name + "\n" + "=" * min(len(name), 78),
        _fill(caution()),
        "\n".join(_field(label, str(value)) for label, value in fields if value),
        _fill(
            f"{counted(counts['rows'], 'row')} of the catalogue gave {counted(counts['records'], 'description')} of "
            f"{counted(counts['hearts'], 'heart')}; {counted(counts['refused'], 'row was', 'rows were')} refused. "
            f"{counted(found['violation'], 'violation')}, {counted(found['warning'], 'warning')} and "
            f"{counted(found['info'], 'note')} for the record stand in the report."
        ),
        _fill(f"{texts()['states']} {texts()['apart']}"),
        "Files\n-----\n" + "\n".join(_field(one["name"], one["say"], 26) for one in _files(with_source)),
        _fill(
            'To see whether every file is as it was deposited: "chordae check" with the name of this folder, or, '
            "without chordae, sha256sum -c manifest-sha256.txt."
        ),
    ]
    return "\n\n".join(blocks) + "\n"


def bag_info(collection: Mapping[str, Any], counts: Mapping[str, Any]) -> dict[str, str]:
    """Return the fields of bag-info.txt (RFC 8493, section 2.2.2); empty ones are left out when it is written."""
    described = f"{counted(counts['records'], 'description')} of {counted(counts['hearts'], 'heart')}"
    return {
        "Source-Organization": str(collection.get("custodian") or ""),
        "External-Identifier": str(collection.get("id") or ""),
        "External-Description": f"{described}. {caution()}",
        "Licence": str(collection.get("licence") or _NOT_STATED),
    }


def _files(with_source: bool) -> list[Mapping[str, str]]:
    return [one for one in texts()["files"] if with_source or one["name"] != "data/source/"]


def _field(label: str, value: str, width: int = 13) -> str:
    first = f"{label + ':':<{width}}" if width < 20 else f"{label:<{width}}"
    return textwrap.fill(" ".join(value.split()), 78, initial_indent=first, subsequent_indent=" " * width)


def _fill(words: str) -> str:
    return textwrap.fill(" ".join(words.split()), 78)
