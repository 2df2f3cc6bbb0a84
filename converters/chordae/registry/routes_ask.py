"""Asking over HTTP: health, profile, collections, ready questions, and SPARQL that only reads.

References
----------
W3C SPARQL 1.1 Protocol, section 2.1 (query by GET, by URL-encoded POST, by POST directly).
"""

from __future__ import annotations

import shutil
from typing import Annotated, Any, Literal
from urllib.parse import parse_qs

from fastapi import APIRouter, Query, Request, Response
from fastapi import Path as Part
from starlette.concurrency import run_in_threadpool

from chordae import resources
from chordae.registry.answer import KINDS, Answer
from chordae.registry.answers import ANYONE, CollectionAnswer, HealthAnswer, QuestionAnswer, problems
from chordae.registry.guard import Problem
from chordae.registry.query_form import LONGEST
from chordae.registry.questions import Question, questions
from chordae.registry.who import Asking, service_of

__all__ = ["router"]

router = APIRouter(tags=["asking"])
_RESULTS: dict[int | str, dict[str, Any]] = {
    200: {"content": {kind: {"schema": {"type": "string"}} for kind in KINDS.values()}, "description": "The answer."}
}
_RESULTS[200]["content"][KINDS["json"]] = {"schema": {"type": "object"}}
_BODY: dict[str, Any] = {
    **ANYONE,
    "requestBody": {
        "required": True,
        "content": {
            "application/sparql-query": {"schema": {"type": "string", "maxLength": LONGEST}},
            "application/x-www-form-urlencoded": {
                "schema": {
                    "type": "object",
                    "required": ["query"],
                    "properties": {"query": {"type": "string", "maxLength": LONGEST}},
                }
            },
        },
    },
}
_Kind = Annotated[Literal["json", "csv"] | None, Query(description="Form of rows; also chosen by Accept.")]


@router.get("/health", responses=problems(503))
def health(request: Request) -> HealthAnswer:
    """Tell whether the registry works, and whether its store has every line of the ledger."""
    service = service_of(request)
    last = service.registry.ledger.last()
    lines, store = last.number if last else 0, int(service.store.said("mark") or 0)
    accepted = [one.number for one in service.registry.ledger.entries(store) if one.accepted]
    return HealthAnswer(
        status="behind" if accepted else "ok",
        version=resources.VERSION,
        lines=lines,
        store=store,
        free_bytes=shutil.disk_usage(service.registry.folder).free,
    )


@router.get("/v1/profile", responses={200: {"content": {"application/yaml": {"schema": {}}}}, **problems()})
def profile(request: Request) -> Response:
    """Return what this registry asks of a deposit, for ``chordae registry check --profile``."""
    return Response(service_of(request).registry.profile.text, media_type="application/yaml")


@router.get("/v1/collections", responses=problems())
def collections(request: Request) -> list[CollectionAnswer]:
    """List the collections with their current versions."""
    return [
        CollectionAnswer(
            id=one.collection,
            name=str(one.body.get("name") or ""),
            custodian=str(one.body.get("custodian") or ""),
            licence=str(one.body.get("licence") or ""),
            records=int(one.body["counts"]["records"]),
            deposit=one.deposit,
            at=str(one.body["at"]),
        )
        for one in service_of(request).registry.ledger.heads()
    ]


@router.get("/v1/questions", responses=problems())
def list_questions() -> list[QuestionAnswer]:
    """List the ready questions."""
    return [_told(one) for one in questions().values()]


@router.get(
    "/v1/questions/{name}",
    responses={**_RESULTS, **problems(400, 401, 404)},
    response_class=Response,
    openapi_extra=ANYONE,
)
def ask_question(
    name: Annotated[str, Part(max_length=100)], request: Request, token: Asking, kind: _Kind = None
) -> Response:
    """Ask a ready question; its parameters are those of the query string."""
    if name not in questions():
        raise Problem(404, f"There is no question {name!r}.", "See /v1/questions .")
    service = service_of(request)
    values = {key: value for key, value in request.query_params.items() if key != "kind"}
    found = service.asker.question(name, values, _kind(request, kind), service.settings.seconds)
    return _answer(found)


@router.get("/v1/sparql", responses={**_RESULTS, **problems(400, 401)}, response_class=Response, openapi_extra=ANYONE)
def sparql_get(
    request: Request,
    token: Asking,
    query: Annotated[str, Query(min_length=1, max_length=LONGEST)],
    kind: _Kind = None,
) -> Response:
    """Carry out a query that only reads."""
    return _sparql(request, query, kind)


@router.post(
    "/v1/sparql", openapi_extra=_BODY, responses={**_RESULTS, **problems(400, 401, 411, 415)}, response_class=Response
)
async def sparql_post(request: Request, token: Asking, kind: _Kind = None) -> Response:
    """Carry out a query that only reads, sent as the body or in a form."""
    media = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    body = await request.body()
    try:
        text = body.decode("utf-8")
    except UnicodeDecodeError:
        raise Problem(400, "The query is not UTF-8.", "Send it as UTF-8.") from None
    if media == "application/x-www-form-urlencoded":
        form = parse_qs(text)
        if len(form.get("query", ())) != 1 or "update" in form:
            raise Problem(400, "One query was expected.", "Send it as query=... ; there is no update.")
        text = form["query"][0]
    elif media != "application/sparql-query":
        raise Problem(415, f"{media or 'Nothing'} is no form of a query.", "Send application/sparql-query.")
    return await run_in_threadpool(_sparql, request, text, kind)


def _sparql(request: Request, text: str, kind: str | None) -> Response:
    service = service_of(request)
    settings = service.settings
    return _answer(
        service.asker.ask(text, _kind(request, kind), rows=settings.rows, size=10 << 20, seconds=settings.seconds)
    )


def _kind(request: Request, kind: str | None) -> str:
    return kind or ("csv" if "text/csv" in request.headers.get("accept", "") else "json")


def _answer(found: Answer) -> Response:
    headers = {"X-Rows": str(found.rows), **({"X-Cut": "true"} if found.cut else {})}
    return Response(found.data, media_type=found.kind, headers=headers)


def _told(one: Question) -> QuestionAnswer:
    return QuestionAnswer(
        name=one.name,
        title=one.title,
        asks=one.say,
        parameters=[
            {"name": each.name, "kind": each.kind, "asks": each.say, "default": each.default} for each in one.parameters
        ],
    )
