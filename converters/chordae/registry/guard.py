"""What stands before every request: limits, security headers, the audit line, and an answer without a traceback.

::

    client -> limit of rate -> limit of size -> route -> headers -> audit
"""

from __future__ import annotations

import re
import secrets
import time
from collections.abc import Awaitable, Callable

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException

from chordae.errors import ChordaeError
from chordae.registry.audit import Audit
from chordae.registry.limits import Buckets
from chordae.registry.query_pool import QueryTooLong
from chordae.registry.settings import Settings
from chordae.registry.uploads import UploadElsewhere

__all__ = ["Problem", "guard", "problem"]

_HEADERS = {
    "Content-Security-Policy": "default-src 'none'; style-src 'self'; form-action 'self'; base-uri 'none'; "
    "frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}
_STATUS: dict[type[ChordaeError], int] = {QueryTooLong: 408, UploadElsewhere: 409}
_LARGE = ("/v1/submissions", "/v1/uploads/")


class Problem(HTTPException):
    """A request that is not carried out: what was found, and what to do."""

    def __init__(self, status: int, message: str, hint: str = "", headers: dict[str, str] | None = None) -> None:
        super().__init__(status, message, headers)
        self.hint = hint


def problem(status: int, message: str, hint: str = "", headers: dict[str, str] | None = None) -> JSONResponse:
    """Return a problem as every route answers it."""
    return JSONResponse({"problem": message, "remedy": hint}, status, headers)


def guard(app: FastAPI, settings: Settings, audit: Audit) -> None:
    """Put the guards before every route of an application."""
    buckets = Buckets(settings.rate, settings.burst)

    @app.middleware("http")
    async def each(request: Request, call: Callable[[Request], Awaitable[Response]]) -> Response:
        begun = time.monotonic()
        client = request.client.host if request.client else "unknown"
        request.state.id = secrets.token_hex(8)
        request.state.token = ""
        wait = buckets.take(client)
        if wait:
            headers = {"Retry-After": str(int(wait) + 1)}
            response: Response = problem(429, "There were too many requests.", "Wait and ask again.", headers)
        elif (refused := _too_large(request, settings)) is not None:
            response = refused
        else:
            try:
                response = await call(request)
            except Exception as error:
                audit.write(event="error", request=request.state.id, error=f"{type(error).__name__}: {error}"[:500])
                response = problem(500, "The registry could not do this.", f"Tell its keeper: {request.state.id}")
        for name, value in _HEADERS.items():
            response.headers.setdefault(name, value)
        response.headers["X-Request-Id"] = request.state.id
        audit.write(
            event="request",
            request=request.state.id,
            client=client,
            token=request.state.token,
            method=request.method,
            path=request.url.path[:300],
            status=response.status_code,
            seconds=round(time.monotonic() - begun, 4),
            bytes=int(response.headers.get("content-length") or 0),
        )
        return response

    @app.exception_handler(HTTPException)
    async def refused(request: Request, error: HTTPException) -> Response:
        headers = dict(error.headers or {})
        if error.status_code == 405:
            headers["Allow"] = ", ".join(_methods(app, request.url.path)) or headers.get("Allow", "GET")
        return problem(error.status_code, str(error.detail), getattr(error, "hint", ""), headers)

    @app.exception_handler(RequestValidationError)
    async def invalid(request: Request, error: RequestValidationError) -> Response:
        first = error.errors()[0]
        where = ".".join(str(one) for one in first.get("loc", ())[1:])
        return problem(422, f"{where or 'The request'}: {first.get('msg')}.", "See /v1/openapi.json .")

    @app.exception_handler(ChordaeError)
    async def stopped(request: Request, error: ChordaeError) -> Response:
        status = next((code for kind, code in _STATUS.items() if isinstance(error, kind)), 400)
        return problem(status, error.message, error.hint)


def _methods(app: FastAPI, path: str) -> list[str]:
    """Return what may be done with a path, by the OpenAPI document."""
    return sorted(
        method.upper()
        for template, methods in app.openapi()["paths"].items()
        if re.fullmatch(re.sub(r"\{\w+\}", "[^/]+", template), path)
        for method in methods
    )


def _too_large(request: Request, settings: Settings) -> Response | None:
    said = request.headers.get("content-length")
    large = request.url.path.startswith(_LARGE)
    limit = settings.upload if large else settings.body
    if said is not None and (not said.isdecimal() or int(said) > limit):
        return problem(413, f"A request of more than {limit:,} bytes is not taken.", "Send less.")
    if said is None and not large and request.method in ("POST", "PUT", "PATCH"):
        return problem(411, "The length of the request is not said.", "Send Content-Length.")
    return None
