"""From the YAML files of the vocabulary to the one compiled table that the package reads at run time.

::

    schema/vocabulary/<theme>.yaml     terms
    schema/vocabulary/kinds.yaml       kinds of terms
    schema/vocabulary/changes.yaml     what changed from version to version
    schema/false_friends.yaml          words of several meanings
    schema/sources.tsv                 keys of sources
        |  compile_vocabulary()
        v
    converters/chordae/_generated/terms.json     sorted, compact, UTF-8

``schema/generate.py`` calls it. The same bytes on every machine.
"""

from __future__ import annotations

import csv
import io
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import orjson
import yaml

SCHEMA = Path(__file__).resolve().parent
sys.path.insert(0, str(SCHEMA.parent / "converters"))

from chordae.errors import VocabularyError

__all__ = ["OUTPUT", "SCHEMA", "compile_vocabulary", "read_changes", "read_friends", "read_sources", "read_terms"]

OUTPUT = "converters/chordae/_generated/terms.json"
"""Name of the compiled table from the top of the repository."""

PHRASES = ("common practice", "from memory")
"""What may stand in the place of a source key."""

SCHOOLS = ("european", "north_american")
CHANGES = ("added", "relabelled", "redefined", "deprecated")

_REQUIRED = ("kind", "european", "north_american", "plain", "definition", "source", "since")
_TEXTS = (*_REQUIRED, "scope_note", "deprecated", "replaced_by")
_LISTS = ("synonyms", "broader", "part_of", "related")
_FRIEND = {"word", "also", "meanings", "never_implies", "context", "ask", "source", "rows"}
_NOT_THEMES = ("kinds.yaml", "changes.yaml")


def compile_vocabulary(folder: Path = SCHEMA) -> bytes:
    """Read and check the files of the vocabulary and return the bytes of the compiled table.

    Parameters
    ----------
    folder
        The ``schema`` folder.

    Raises
    ------
    VocabularyError
        A file is not as it must be; the message names file and term.
    """
    kinds = _load(folder / "vocabulary" / "kinds.yaml")
    sources = read_sources(folder)
    themes, terms = read_terms(folder)
    _check_links(terms, kinds["kinds"], sources)
    compiled = {
        "changes": read_changes(folder, terms),
        "friends": read_friends(folder, terms, sources),
        "kinds": kinds["kinds"],
        "sources": sources,
        "terms": terms,
        "themes": themes,
    }
    return orjson.dumps(compiled, option=orjson.OPT_SORT_KEYS | orjson.OPT_APPEND_NEWLINE)


def read_terms(folder: Path = SCHEMA) -> tuple[dict[str, dict[str, str]], dict[str, dict[str, Any]]]:
    """Return themes (title and description) and terms by slug; a term carries its theme and no empty value."""
    themes: dict[str, dict[str, str]] = {}
    terms: dict[str, dict[str, Any]] = {}
    for path in sorted((folder / "vocabulary").glob("*.yaml")):
        if path.name in _NOT_THEMES:
            continue
        found = _load(path)
        name = found["theme"]
        if name != path.stem:
            raise _wrong(path, f"theme '{name}' is not the name of the file")
        themes[name] = {"title": found["title"], "description": found["description"]}
        for slug, term in found["terms"].items():
            if slug in terms:
                raise _wrong(path, f"term '{slug}' is also in {terms[slug]['theme']}.yaml")
            terms[slug] = {"theme": name, **_read_term(path, slug, term)}
    return themes, terms


def read_friends(folder: Path, terms: Mapping[str, Any], sources: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Return the words of several meanings, sorted by word."""
    path = folder / "false_friends.yaml"
    friends: list[dict[str, Any]] = []
    for friend in _load(path)["friends"]:
        word = friend.get("word", "")
        odd = set(friend) - _FRIEND
        if not word or odd or not friend.get("ask"):
            raise _wrong(path, f"the word '{word}' lacks its question or has keys it should not: {sorted(odd)}")
        meanings = friend["meanings"]
        for meaning in meanings:
            if set(meaning) != {"term", "school", "gloss"} or meaning["school"] not in SCHOOLS:
                raise _wrong(path, f"a meaning of '{word}' must have term, school and gloss")
        named = [meaning["term"] for meaning in meanings] + list(friend["never_implies"])
        for slug in named:
            if slug not in terms:
                raise _wrong(path, f"'{word}' names the term '{slug}', which is not in the vocabulary")
        _check_source(path, word, friend["source"], sources)
        friends.append(friend)
    return sorted(friends, key=lambda one: (one["word"].casefold(), one["word"]))


def read_changes(folder: Path, terms: Mapping[str, Any]) -> list[dict[str, str]]:
    """Return the changes in the order of the file: version, slug, change, successor, note."""
    path = folder / "vocabulary" / "changes.yaml"
    changes: list[dict[str, str]] = []
    for entry in _load(path)["changes"] or []:
        slug, kind, successor = entry["slug"], entry["change"], entry.get("successor", "")
        if kind not in CHANGES:
            raise _wrong(path, f"'{slug}': '{kind}' is none of {', '.join(CHANGES)}")
        for name in filter(None, (slug, successor)):
            if name not in terms:
                raise _wrong(path, f"'{name}' is not in the vocabulary; nothing is ever deleted")
        if kind == "deprecated" and terms[slug].get("deprecated") != entry["version"]:
            raise _wrong(path, f"'{slug}' is not marked deprecated in version {entry['version']} in its own file")
        changes.append(
            {
                "version": entry["version"],
                "slug": slug,
                "change": kind,
                "successor": successor,
                "note": entry.get("note", ""),
            }
        )
    return changes


def read_sources(folder: Path = SCHEMA) -> dict[str, list[str]]:
    """Return citation, identifier, status and note of every source by its key."""
    text = (folder / "sources.tsv").read_text(encoding="utf-8")
    rows = csv.DictReader(io.StringIO(text), delimiter="\t", quoting=csv.QUOTE_NONE)
    return {row["key"]: [row["citation"], row["identifier"], row["status"], row["note"]] for row in rows}


def _read_term(path: Path, slug: str, term: Mapping[str, Any]) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for key in _TEXTS:
        value = term.get(key, "")
        if not isinstance(value, str) or (key in _REQUIRED and not value.strip()):
            raise _wrong(path, f"term '{slug}': '{key}' must be a text that is not empty")
        if value:
            made[key] = value
    for key in _LISTS:
        if values := _texts(path, slug, key, term.get(key, [])):
            made[key] = values
    for school, values in term.get("abbreviations", {}).items():
        if school not in SCHOOLS:
            raise _wrong(path, f"term '{slug}': '{school}' is no school")
        if texts := _texts(path, slug, "abbreviations", values):
            made.setdefault("abbreviations", {})[school] = texts
    if odd := set(term) - {*_TEXTS, *_LISTS, "abbreviations"}:
        raise _wrong(path, f"term '{slug}': nobody knows the keys {sorted(odd)}")
    return made


def _texts(path: Path, slug: str, key: str, values: Any) -> list[str]:
    if not isinstance(values, list) or not all(isinstance(one, str) and one for one in values):
        raise _wrong(path, f"term '{slug}': '{key}' must be a list of texts")
    return values


def _check_links(terms: Mapping[str, Any], kinds: Iterable[str], sources: Mapping[str, Any]) -> None:
    known = set(kinds)
    for slug, term in terms.items():
        path = SCHEMA / "vocabulary" / f"{term['theme']}.yaml"
        if term["kind"] not in known:
            raise _wrong(path, f"term '{slug}': the kind '{term['kind']}' is not in kinds.yaml")
        _check_source(path, slug, term["source"], sources)
        for other in (*_above(term), *term.get("related", ()), term.get("replaced_by", slug)):
            if other not in terms:
                raise _wrong(path, f"term '{slug}' points to '{other}', which is not in the vocabulary")
        if ("replaced_by" in term) and "deprecated" not in term:
            raise _wrong(path, f"term '{slug}' names a successor but is not marked deprecated")
    for slug, term in terms.items():
        _check_acyclic(SCHEMA / "vocabulary" / f"{term['theme']}.yaml", slug, terms)


def _check_acyclic(path: Path, slug: str, terms: Mapping[str, Any]) -> None:
    seen: set[str] = set()
    waiting = _above(terms[slug])
    while waiting:
        above = waiting.pop()
        if above == slug:
            raise _wrong(path, f"term '{slug}' is a kind or a part of itself")
        if above not in seen:
            seen.add(above)
            waiting.extend(_above(terms[above]))


def _above(term: Mapping[str, Any]) -> list[str]:
    return [*term.get("broader", ()), *term.get("part_of", ())]


def _check_source(path: Path, what: str, source: str, sources: Mapping[str, Any]) -> None:
    if source not in sources and source not in PHRASES:
        raise _wrong(path, f"'{what}': the source '{source}' is not in sources.tsv")


def _load(path: Path) -> dict[str, Any]:
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    try:
        found = yaml.load(path.read_text(encoding="utf-8"), Loader=loader)  # noqa: S506 - a safe loader, in C where built
    except (OSError, yaml.YAMLError) as error:
        raise _wrong(path, str(error)) from None
    if not isinstance(found, dict):
        raise _wrong(path, "it must be a mapping")
    return found


def _wrong(path: Path, what: str) -> VocabularyError:
    return VocabularyError(f"{path.name}: {what}.", "Correct the file and run: python schema/generate.py")


if __name__ == "__main__":
    (SCHEMA.parent / OUTPUT).write_bytes(compile_vocabulary())
