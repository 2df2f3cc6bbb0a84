"""Releases of outside terms: read from OBO Graph JSON, OBO, or a table as in ``mappings/outside``; written as a table.

A table written here can be named to ``chordae check --mappings --drift``.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from chordae.errors import FormatError, VocabularyError
from chordae.formats.obograph import read_obograph
from chordae.formats.settings import Settings
from chordae.issues import Issue, Location, issue
from chordae.vocabulary.outside import Release, parse_obo, read_table, write_table

__all__ = ["read", "write"]


def write(items: Iterable[Release], settings: Settings) -> Iterator[bytes]:
    """Yield the table of one release.

    Raises
    ------
    FormatError
        There are several releases.
    """
    releases = list(items)
    if len(releases) != 1:
        raise FormatError(f"A table holds one release, and there are {len(releases)}.")
    yield write_table(releases[0]).encode()


def read(data: bytes, name: str, format: str, source: str = "") -> tuple[list[Release], list[Issue]]:
    """Read the release of a file; an empty list, with an issue, if there is none.

    ``source`` is the prefix of the ids to keep; by default the one that most terms have.
    """
    if format == "obograph":
        release, issues = read_obograph(data, name, source)
        return ([release] if release.terms else []), issues
    try:
        release = parse_obo(data, name, source) if format == "obo" else read_table(data.decode("utf-8-sig"), name)
        return [release], []
    except (UnicodeDecodeError, VocabularyError, ValueError) as error:
        problem = error.message if isinstance(error, VocabularyError) else "it is not UTF-8 text"
        return [], [issue("I-OUT-05", location=Location(name), problem=problem.rstrip("."))]
