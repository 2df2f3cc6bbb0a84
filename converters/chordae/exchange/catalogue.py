"""From what the user names (a folder, a table, a document) to what one exchange reads.

::

    examples/veyhaven/
        collection.yaml      name, base_iri, custodian, licence ..., and if wanted catalogue, sheet, encoding
        catalogue.xlsx       or the only table of the folder
        columns.tsv          the crosswalk
        values.tsv

A table may stand elsewhere than its crosswalk and its collection file. A document of records (YAML, JSON,
NDJSON) needs no crosswalk.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from chordae.errors import InputError
from chordae.files import MAX_CELL, inside, read_input
from chordae.intake.document import document_format
from chordae.intake.encoding import decode
from chordae.intake.source import COLUMNS, VALUES, find_crosswalk
from chordae.intake.table import is_table
from chordae.intake.yaml_text import find_records
from chordae.issues import issue
from chordae.rdf.emit import check_base

__all__ = ["COLLECTION", "Catalogue", "find_catalogue"]

COLLECTION = "collection.yaml"
_READING = ("catalogue", "sheet", "encoding")
_ABOUT = ("id", "name", "base_iri", "custodian", "licence", "school", "note")


@dataclass(frozen=True, slots=True)
class Catalogue:
    """What one exchange reads. ``crosswalk`` is columns.tsv and, where there is one, values.tsv.

    ``collection`` holds what is said of the collection, as text.
    """

    path: Path
    crosswalk: tuple[Path, ...] = ()
    collection: Mapping[str, Any] = field(default_factory=dict)
    collection_file: Path | None = None
    sheet: str | None = None
    encoding: str | None = None

    @property
    def base(self) -> str | None:
        """IRI under which the records stand; ``None`` for the default one."""
        found = self.collection.get("base_iri")
        return None if found is None else str(found)

    @property
    def is_document(self) -> bool:
        """Whether records are read as they are, without a crosswalk."""
        return document_format(self.path) is not None


def find_catalogue(
    path: Path,
    *,
    crosswalk: Path | None = None,
    collection: Path | None = None,
    sheet: str | None = None,
    encoding: str | None = None,
    base: str | None = None,
) -> Catalogue:
    """Find the catalogue, the crosswalk and what is said of the collection.

    Parameters
    ----------
    path
        A folder, a table or a document.
    crosswalk
        Folder with columns.tsv and values.tsv; by default the folder of the catalogue.
    collection
        A collection file; by default collection.yaml in that folder, if there is one.
    sheet, encoding, base
        Override what the collection file says.

    Raises
    ------
    InputError
        Something is missing, or there are several tables and none is named.
    FormatError
        The base IRI is not one.
    """
    folder = path if path.is_dir() else path.parent
    about, about_file = _about(collection, folder)
    catalogue = _catalogue(path, about) if path.is_dir() else path
    if not catalogue.is_file():
        raise InputError(f"There is no file {catalogue}.", "Look at the name and the folder.")
    if base is not None:
        about = {**about, "base_iri": base}
    check_base(about.get("base_iri"))
    found = () if document_format(catalogue) is not None else find_crosswalk(crosswalk or folder)
    said = {key: value for key, value in about.items() if key not in _READING}
    return Catalogue(
        catalogue,
        tuple(Path(one) for one in found if one),
        said,
        about_file,
        sheet or about.get("sheet"),
        encoding or about.get("encoding"),
    )


def _about(given: Path | None, folder: Path) -> tuple[dict[str, Any], Path | None]:
    """Read the collection file; a fault in it stops the work, because it would stand in every record."""
    path = given or folder / COLLECTION
    if given is None and not path.is_file():
        return {}, None
    text, _ = decode(read_input(path), path.name)
    found = list(find_records(text))
    keys = (*_ABOUT, *_READING)
    for fault in (one for item in found for one in item.faults):
        told = issue(fault.rule, value=fault.value, **fault.fields)
        raise InputError(f"{path}, line {fault.mark[0]}: {told.message}", told.hint)
    if len(found) != 1 or not isinstance(found[0].value, dict):
        raise InputError(f"{path} should hold one mapping of keys with values.", f"Use the keys {', '.join(keys)}.")
    about = found[0].value
    for key, value in about.items():
        if key not in keys:
            raise InputError(f"{path}: {key!r} is no key of a collection file.", f"Use the keys {', '.join(keys)}.")
        if not isinstance(value, str) or not all(one.isprintable() or one == "\n" for one in value):
            raise InputError(f"{path}: {key!r} should be plain text.", "Put the value in quotes.")
        if len(value) > MAX_CELL:
            raise InputError(f"{path}: {key!r} is longer than {MAX_CELL} characters.", "It stands in every record.")
    return about, path


def _catalogue(folder: Path, about: Mapping[str, Any]) -> Path:
    if named := about.get("catalogue"):
        return inside(folder, str(named))
    tables = sorted(
        one for one in folder.iterdir() if one.is_file() and one.name not in (COLUMNS, VALUES) and is_table(one)
    )
    usual = [one for one in tables if one.stem == "catalogue"]
    found = usual or tables
    if len(found) == 1:
        return found[0]
    if not found:
        raise InputError(f"There is no table in {folder}.", "A table ends in .xlsx, .csv or .tsv.")
    raise InputError(
        f"There are several tables in {folder}: {', '.join(one.name for one in found)}.",
        f'Name one in {COLLECTION} (catalogue: "{found[0].name}"), or give its path.',
    )
