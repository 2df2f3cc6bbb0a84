"""Hand a deposit in to a registry over HTTP: packed, uploaded in pieces, and waited for.

The token stands in the environment, ``CHORDAE_TOKEN``: what stands on a command line is seen by others.
"""

from __future__ import annotations

import os
import tempfile
import time
import urllib.error
import urllib.parse
import urllib.request
from pathlib import Path
from typing import Any

import orjson

from chordae.errors import InputError
from chordae.registry.package import digest_file, pack

__all__ = ["PIECE", "TOKEN", "hand_in"]

TOKEN = "CHORDAE_TOKEN"  # noqa: S105 - the name of a variable, no token
PIECE = 4 * 1024 * 1024
_TRIES = 5


def hand_in(deposit: Path, address: str, follows: str | None = None, *, wait: float = 0.5) -> bytes:
    """Hand a deposit in, and return the report.

    Raises
    ------
    InputError
        The service cannot be reached or does not take it; what was uploaded stays there, so that trying again goes on.
    """
    base = address.rstrip("/")
    with tempfile.TemporaryDirectory() as folder:
        archive = Path(folder) / "deposit.zip"
        pack(deposit, archive)
        digest = digest_file(archive)
        _upload(archive, digest, base)
    query = {"upload": digest, **({"follows": follows} if follows else {})}
    told = orjson.loads(_send("POST", f"{base}/v1/submissions?{urllib.parse.urlencode(query)}", b"")[0])
    while told["state"] in ("waiting", "judging"):
        time.sleep(wait)
        told = orjson.loads(_send("GET", f"{base}/v1/submissions/{told['ticket']}")[0])
    if not told["deposit"]:
        reason: dict[str, Any] = told.get("reason") or {}
        raise InputError(str(reason.get("message", "It was refused.")), str(reason.get("hint", "")))
    return _send("GET", f"{base}/v1/deposits/{told['deposit']}/report")[0]


def _upload(archive: Path, digest: str, base: str) -> None:
    address = f"{base}/v1/uploads/{digest}"
    size = archive.stat().st_size
    tries = 0
    while True:
        at = int(_send("HEAD", address)[1].get("upload-offset", "0"))
        if at >= size:
            return
        try:
            with archive.open("rb") as stream:
                stream.seek(at)
                while piece := stream.read(PIECE):
                    _send("PUT", f"{address}?offset={at}", piece)
                    at += len(piece)
        except InputError:
            tries += 1
            if tries >= _TRIES:
                raise
            time.sleep(0.2 * 2**tries)


def _send(method: str, address: str, data: bytes | None = None) -> tuple[bytes, dict[str, str]]:
    headers = {"Authorization": f"Bearer {os.environ.get(TOKEN, '')}", "Content-Type": "application/octet-stream"}
    if not address.startswith(("http://", "https://")):
        raise InputError(f"{address!r} is no address of a registry.")
    request = urllib.request.Request(address, data, headers, method=method)  # noqa: S310 - checked above
    for _ in range(_TRIES):
        try:
            with urllib.request.urlopen(request, timeout=120) as answer:  # noqa: S310 - checked above
                return answer.read(), {key.lower(): value for key, value in answer.headers.items()}
        except urllib.error.HTTPError as error:
            if error.code == 429:
                time.sleep(min(30, int(error.headers.get("Retry-After") or 1)))
                continue
            raise _told(error) from None
        except OSError as error:
            raise InputError(f"The registry {address.partition('/v1')[0]} cannot be reached: {error}.") from None
    raise InputError("The registry is too busy.", "Try again later; what was uploaded stays there.")


def _told(error: urllib.error.HTTPError) -> InputError:
    try:
        found = orjson.loads(error.read(10_000))
        return InputError(str(found["problem"]), str(found["remedy"]))
    except (orjson.JSONDecodeError, KeyError, TypeError):
        said = {401: "The token is not one that holds.", 403: "The token is not for this.", 413: "It is too large."}
        return InputError(said.get(error.code, f"The registry answered {error.code}."))
