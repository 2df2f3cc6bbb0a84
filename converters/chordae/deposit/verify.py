"""From a deposit folder to the issues that its package has: every file is as it was deposited, or is named.

Nothing in the folder is trusted: links are not followed, paths that lead out are not opened, special files
are not read, and nothing is fetched. The rules of morphology are no matter of this module: ``chordae check``
runs them over :func:`records_file` afterwards.

References
----------
RFC 8493, section 3 (complete and valid bags) and section 5 (security considerations).
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import bagit
import orjson

from chordae import files
from chordae.deposit.seal import ALGORITHM, quiet_bagit
from chordae.deposit.versions import versions
from chordae.errors import InputError
from chordae.issues import Issue, Location, issue, shown, sort_issues

__all__ = ["RECORDS", "VERSIONS", "is_deposit", "records_file", "verify"]

RECORDS = "data/records.ndjson"
VERSIONS = "data/versions.json"
_REPORT = "data/report.json"
_LISTS = (f"manifest-{ALGORITHM}.txt", f"tagmanifest-{ALGORITHM}.txt")
_MAX_LIST = 64 * 1024 * 1024


def is_deposit(path: str | os.PathLike[str]) -> bool:
    """Say whether a path is a folder that looks like a deposit, sound or not."""
    folder = Path(path)
    return (folder / "bagit.txt").is_file() and (folder / "data").is_dir()


def records_file(path: str | os.PathLike[str]) -> Path:
    """Return the file of a deposit that holds its records, one JSON object a line.

    Raises
    ------
    InputError
        The file is missing, or is a link.
    """
    found = Path(path) / RECORDS
    if found.is_symlink() or found.parent.is_symlink() or not found.is_file():
        raise InputError(f"The deposit {path} holds no file {RECORDS}.", "Ask for the deposit again.")
    return found


def verify(path: str | os.PathLike[str]) -> list[Issue]:
    """Look at every file of a deposit.

    Parameters
    ----------
    path
        A folder written by ``chordae exchange``; it is only read.

    Returns
    -------
    list[Issue]
        Sorted; empty if the deposit is as it was written, by the same versions as here.
    """
    folder = Path(path)
    for name in ("bagit.txt", "data"):
        if not (folder / name).exists():
            return [issue("I-DEP-01", location=Location(str(folder)), name=str(folder), what=name)]
    plain, found = _walk(folder)
    found += [_about("I-DEP-08", folder, name) for name in _LISTS if name not in plain]
    if "fetch.txt" in plain:
        found.append(_about("I-DEP-09", folder, "fetch.txt"))
    if any(one.rule == "I-DEP-06" for one in found):
        return sort_issues(found)  # what lies behind a link is not read, so no list can be compared
    try:
        with quiet_bagit():
            found += _compare(folder, plain)
    except (bagit.BagError, OSError, ValueError, LookupError) as error:
        found.append(issue("I-DEP-02", location=Location(str(folder)), problem=_reason(error)))
    found += _contents(folder, plain)
    return sort_issues(found)


def _compare(folder: Path, plain: dict[str, Path]) -> Iterator[Issue]:
    """Yield what differs between the lists of digests and the files."""
    for name in _LISTS:
        if name in plain and plain[name].stat().st_size > _MAX_LIST:
            raise bagit.BagError(f"{name} is longer than {_MAX_LIST // 1024 // 1024} MB")
    if out := [_about("I-DEP-07", folder, shown(name)) for name in _leading_out(plain)]:
        yield from out
        return
    bag = bagit.Bag(str(folder))
    found: list[Issue] = []
    for name, digests in bag.entries.items():
        if name not in plain:
            found.append(_about("I-DEP-04", folder, name))
        elif digests.get(ALGORITHM, "").lower() != _sha256(plain[name]):
            found.append(_about("I-DEP-03", folder, name, found=plain[name].stat().st_size))
    told = {*bag.entries, _LISTS[1], "fetch.txt"}  # the last has an issue of its own
    found += [
        _about("I-DEP-05", folder, name)
        for name in plain
        if name not in told and _LISTS[not name.startswith("data/")] in plain
    ]
    if not found:
        bag.validate()  # the library's own verdict has the last word
    yield from found


def _leading_out(plain: dict[str, Path]) -> Iterator[str]:
    """Yield the listed paths that lie outside; the library lets one into a folder beside it pass."""
    for name in _LISTS:
        if name not in plain:
            continue
        for line in plain[name].read_text(encoding="utf-8", errors="replace").splitlines():
            listed = line.strip().partition(" ")[2].strip().lstrip("*")
            # No link is in the folder, or nothing would be compared; so the words of the path tell.
            if files.leads_out(listed):
                yield listed


def _contents(folder: Path, plain: dict[str, Path]) -> Iterator[Issue]:
    """Yield what is wrong with the records as a whole, and where other versions wrote the deposit."""
    yield from (
        _about("I-DEP-04", folder, name) for name in (RECORDS, VERSIONS, _REPORT) if name not in plain
    )
    counted = _json(plain.get(_REPORT)).get("records")
    if RECORDS in plain and isinstance(counted, int):
        with plain[RECORDS].open("rb") as stream:
            there = sum(1 for line in stream if line.strip())
        if there != counted:
            yield _about("I-DEP-11", folder, RECORDS, value=there, expected=counted)
    here = versions()
    for what, then in _json(plain.get(VERSIONS)).items():
        now = here.get(what)
        if not isinstance(then, dict) or not isinstance(now, dict) or "sha256" not in now or then == now:
            continue
        yield _about("I-DEP-10", folder, VERSIONS, value=_told(then), found=_told(now), what=what)


def _walk(folder: Path) -> tuple[dict[str, Path], list[Issue]]:
    """Return the plain files by their path inside the folder, sorted, and an issue for all else."""
    plain: dict[str, Path] = {}
    found = []
    for top, folders, names in os.walk(folder, followlinks=False):
        for name in [*names, *folders]:
            one = Path(top) / name
            inner = one.relative_to(folder).as_posix()
            if one.is_symlink() or not (one.is_file() or one.is_dir()):
                found.append(_about("I-DEP-06", folder, inner))
            elif one.is_file():
                plain[inner] = one
    return dict(sorted(plain.items())), found


def _about(rule: str, folder: Path, name: str, *, value: object = None, **fields: Any) -> Issue:
    place = Location(f"{folder.name or folder}/{name}")
    return issue(rule, location=place, value=name if value is None else value, **fields)


def _sha256(path: Path) -> str:
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, ALGORITHM).hexdigest()


def _json(path: Path | None) -> dict[str, Any]:
    if path is None or path.stat().st_size > _MAX_LIST:
        return {}
    try:
        found = orjson.loads(path.read_bytes())
    except orjson.JSONDecodeError:
        return {}
    return found if isinstance(found, dict) else {}


def _told(one: dict[str, Any]) -> str:
    return f"{one.get('version')} ({str(one.get('sha256'))[:12]})"


def _reason(error: Exception) -> str:
    return (" ".join(str(error).split()) or type(error).__name__).rstrip(".")[:200]
