"""Handing in over HTTP: upload, submission, state, report, deposit, list.

::

    PUT  /v1/uploads/{digest}?offset=0    bytes           pieces of an archive; HEAD tells how much has come
    POST /v1/submissions?upload={digest}                  or the archive itself as the body
    GET  /v1/submissions/{ticket}                         waiting, judging, accepted, ..., refused
    GET  /v1/deposits/{digest}  .../report  .../archive
"""

from __future__ import annotations

import hashlib
import tempfile
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request, Response
from fastapi import Path as Part
from starlette.background import BackgroundTask
from starlette.concurrency import run_in_threadpool
from starlette.responses import FileResponse

from chordae.registry.answers import ANYONE, DIGEST, LineAnswer, StateAnswer, line_answer, problems
from chordae.registry.entry import Entry
from chordae.registry.guard import Problem
from chordae.registry.made import REPORT
from chordae.registry.package import pack
from chordae.registry.service import Service
from chordae.registry.tokens import Token
from chordae.registry.who import Asking, Handing, Reading, service_of

__all__ = ["router"]

router = APIRouter(prefix="/v1", tags=["handing in"])
_Digest = Annotated[str, Part(pattern=DIGEST, description="SHA-256, 64 hexadecimal digits.")]
_OCTETS: dict[str, Any] = {
    "requestBody": {"content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}}}
}
_BINARY = {"schema": {"type": "string", "format": "binary"}}
_ARCHIVE: dict[str, Any] = {
    "requestBody": {"content": {"application/zip": _BINARY, "application/octet-stream": _BINARY}}
}
_OFFSET = {"Upload-Offset": {"schema": {"type": "integer"}, "description": "How many bytes have come."}}


@router.head("/uploads/{digest}", status_code=204, responses={204: {"headers": _OFFSET}, **problems(401, 403)})
def upload_size(digest: _Digest, token: Handing, request: Request) -> Response:
    """Tell how many bytes of an upload have come; 0 if none."""
    return Response(status_code=204, headers={"Upload-Offset": str(service_of(request).uploads.size(token.id, digest))})


@router.put(
    "/uploads/{digest}",
    status_code=204,
    openapi_extra=_OCTETS,
    responses={204: {"headers": _OFFSET}, **problems(400, 401, 403, 409)},
)
async def upload(
    digest: _Digest,
    token: Handing,
    request: Request,
    offset: Annotated[int, Query(ge=0, le=1 << 50, description="Where the bytes begin.")] = 0,
) -> Response:
    """Add bytes to an upload; go on where it was broken off."""
    size = await service_of(request).uploads.add(token.id, digest, offset, request.stream())
    return Response(status_code=204, headers={"Upload-Offset": str(size)})


@router.post("/submissions", status_code=202, openapi_extra=_ARCHIVE, responses=problems(400, 401, 403))
async def hand_in(
    token: Handing,
    request: Request,
    upload: Annotated[str | None, Query(pattern=DIGEST, description="An upload that is complete.")] = None,
    follows: Annotated[
        str | None, Query(pattern=r"^([0-9a-f]{64}|none)$", description="The version it is made from.")
    ] = None,
) -> StateAnswer:
    """Hand a deposit in: the archive as the body, or an upload; the same archive twice is one."""
    service = service_of(request)
    if upload is not None:
        path, digest = await run_in_threadpool(service.uploads.finish, token.id, upload), upload
    else:
        path, digest = await _receive(service, request.stream())
    told = {"token": token.id, "collection": token.collection, "agent": token.note or token.id}
    if follows is not None:
        told["follows"] = follows
    known = service.desk.state(digest)
    if known is not None and not _sees(token, known):
        path.unlink()
        raise Problem(403, "This archive was handed in for another collection.", "Hand in your own.")
    ticket = await run_in_threadpool(service.desk.take, path, digest, told)
    return _state(service, ticket)


@router.get("/submissions/{ticket}", responses=problems(401, 403, 404))
def state(ticket: _Digest, token: Handing, request: Request) -> StateAnswer:
    """Tell what became of what was handed in."""
    service = service_of(request)
    known = service.desk.state(ticket)
    if known is None or not _sees(token, known):
        raise Problem(404, "There is nothing under this ticket.", "Look at the ticket again.")
    return _state(service, ticket)


@router.get("/deposits", responses=problems(401), openapi_extra=ANYONE)
def deposits(
    request: Request,
    token: Asking,
    after: Annotated[int, Query(ge=0, le=1 << 62)] = 0,
    limit: Annotated[int, Query(ge=1, le=1000)] = 100,
    collection: Annotated[str | None, Query(max_length=128)] = None,
) -> list[LineAnswer]:
    """List what was accepted, in order; to its owner also what was refused."""
    ledger = service_of(request).registry.ledger
    heads = {one.number for one in ledger.heads()}
    found: list[LineAnswer] = []
    while len(found) < limit:
        page = ledger.entries(after, 500, collection)
        found += [line_answer(one, one.number in heads) for one in page if _shown(one, token)]
        if len(page) < 500:
            break
        after = page[-1].number
    return found[:limit]


@router.get("/deposits/{digest}", responses=problems(401, 404), openapi_extra=ANYONE)
def deposit(digest: _Digest, token: Asking, request: Request) -> LineAnswer:
    """Tell what was decided of a deposit."""
    entry = _entry(request, digest, token)
    head = service_of(request).registry.ledger.head(entry.collection)
    return line_answer(entry, head is not None and head.number == entry.number)


@router.get("/deposits/{digest}/report", responses=problems(401, 403, 404))
def report(digest: _Digest, token: Reading, request: Request) -> dict[str, Any]:
    """Return the report on a deposit to its owner: the same that ``chordae registry check`` gives at home."""
    import orjson

    entry = _entry(request, digest, token, own=True)
    found: dict[str, Any] = orjson.loads((service_of(request).registry.made(entry.number) / REPORT).read_bytes())
    return found


@router.get(
    "/deposits/{digest}/archive",
    response_class=FileResponse,
    responses={200: {"content": {"application/zip": {}}}, **problems(401, 403, 404)},
)
def archive(digest: _Digest, token: Reading, request: Request) -> FileResponse:
    """Return a deposit to its owner as it was handed in, as a ZIP file."""
    entry = _entry(request, digest, token, own=True)
    registry = service_of(request).registry
    with tempfile.NamedTemporaryFile(prefix="out.", suffix=".zip", dir=registry.incoming, delete=False) as stream:
        path = Path(stream.name)
    pack(registry.deposit(entry.deposit), path)
    return FileResponse(
        path, media_type="application/zip", filename=f"{digest[:12]}.zip", background=BackgroundTask(path.unlink)
    )


def _entry(request: Request, digest: str, token: Token | None, *, own: bool = False) -> Entry:
    """Return the decision on a deposit, if it may be shown; what may not is told as if it were not there."""
    entries = service_of(request).registry.ledger.of_deposit(digest)
    shown = [
        one for one in entries if _shown(one, token) and (not own or (token and token.may("read", one.collection)))
    ]
    if not shown:
        raise Problem(404, "There is no such deposit.", "Look at its digest again.")
    return next((one for one in reversed(shown) if one.accepted), shown[-1])


def _shown(entry: Entry, token: Token | None) -> bool:
    return entry.kind == "submission" and (
        entry.accepted or (token is not None and token.may("read", entry.collection))
    )


def _sees(token: Token, known: dict[str, Any]) -> bool:
    return token.collection == "*" or token.collection == known.get("collection")


def _state(service: Service, ticket: str) -> StateAnswer:
    known = service.desk.state(ticket) or {}
    fields = ("ticket", "state", "at", "deposit", "line", "again", "reason")
    return StateAnswer(**{key: known[key] for key in fields if key in known})


async def _receive(service: Service, pieces: AsyncIterator[bytes]) -> tuple[Path, str]:
    """Write the body of a request to a file, and take its digest."""
    digest, size = hashlib.sha256(), 0
    with tempfile.NamedTemporaryFile(prefix="in.", dir=service.registry.incoming, delete=False) as stream:
        path = Path(stream.name)
        try:
            async for piece in pieces:
                size += len(piece)
                if size > service.settings.upload:
                    raise Problem(413, f"A deposit of more than {service.settings.upload:,} bytes is not taken.")
                digest.update(piece)
                stream.write(piece)
            if not size:
                raise Problem(400, "Nothing was handed in.", "Send the ZIP of a deposit, or name an upload.")
        except BaseException:
            path.unlink(missing_ok=True)
            raise
    return path, digest.hexdigest()
