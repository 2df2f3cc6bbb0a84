"""What an exchange was made with: versions and SHA-256 digests of schema, rules, vocabulary and mappings.

::

    {"chordae": {"version"},
     "schema" | "rules" | "vocabulary" | "mappings" | "criteria": {"version", "sha256"},
     "engine": {"shacl": "0.3.4", ...}}

A digest of a folder is taken over the names and digests of its files, so that any change shows.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from importlib.metadata import PackageNotFoundError, version
from typing import Any

from chordae import resources
from chordae.errors import ResourceError

__all__ = ["ENGINES", "PIECES", "versions"]

PIECES: Mapping[str, str] = {
    "rules": "schema/shapes",
    "vocabulary": "schema/vocabulary",
    "criteria": "schema/criteria.yaml",
    "mappings": "mappings",
}
"""What is told apart by its digest -> the file or folder it stands in; the schema is the YAML files."""

ENGINES = ("shacl", "pyshacl", "pyoxigraph", "jsonschema-rs")
"""Packages whose version may change what is found or written."""


def versions() -> dict[str, Any]:
    """Return the versions of everything that decides what an exchange says; the same on every machine."""
    found: dict[str, Any] = {
        "chordae": {"version": resources.VERSION},
        "schema": {"version": resources.VERSION, "sha256": _schema_digest()},
    }
    for piece, name in PIECES.items():
        try:
            found[piece] = {"version": resources.VERSION, "sha256": resources.digest(name)}
        except ResourceError:
            found[piece] = {"version": resources.VERSION, "sha256": None}
    found["engine"] = {name: _installed(name) for name in ENGINES}
    return found


def _schema_digest() -> str:
    whole = hashlib.sha256()
    for entry in sorted(resources.find("schema").iterdir(), key=lambda one: one.name):
        if entry.is_file() and entry.name.endswith(".yaml"):
            whole.update(f"{entry.name}\t{hashlib.sha256(entry.read_bytes()).hexdigest()}\n".encode())
    return whole.hexdigest()


def _installed(name: str) -> str | None:
    try:
        return version(name)
    except PackageNotFoundError:
        return None
