"""Who asks: from the ``Authorization`` header to a token that may do it, or a problem.

A token that is none, one that has ended and one that never was are told alike.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated

from fastapi import Depends, Request, Security
from fastapi.security import HTTPAuthorizationCredentials, HTTPBearer

from chordae.registry.guard import Problem
from chordae.registry.service import Service
from chordae.registry.tokens import Token

__all__ = ["Asking", "Handing", "Reading", "service_of"]

_BEARER = HTTPBearer(auto_error=False, description="A token of the registry: chordae_...")


def service_of(request: Request) -> Service:
    """Return the service that a request came to."""
    found: Service = request.app.state.service
    return found


def _token(
    request: Request, given: Annotated[HTTPAuthorizationCredentials | None, Security(_BEARER)] = None
) -> Token | None:
    if given is None:
        if request.headers.get("authorization"):
            raise Problem(401, "The token is not one that holds.", "Ask the registry for one.", _CHALLENGE)
        return None
    service = service_of(request)
    client = request.client.host if request.client else "unknown"
    found = service.tokens.find(given.credentials)
    if found is None:
        wait = service.logins.take(client)
        if wait:
            headers = {"Retry-After": str(int(wait) + 1)}
            raise Problem(429, "There were too many tokens that do not hold.", "Wait and ask again.", headers)
        raise Problem(401, "The token is not one that holds.", "Ask the registry for one.", _CHALLENGE)
    request.state.token = found.id
    return found


_CHALLENGE = {"WWW-Authenticate": "Bearer"}


def _needs(scope: str) -> Callable[[Token | None], Token]:
    def check(token: Annotated[Token | None, Depends(_token)]) -> Token:
        if token is None:
            raise Problem(401, "A token is needed for this.", "Ask the registry for one.", _CHALLENGE)
        if scope not in token.scopes:
            raise Problem(403, f"This token is not for {scope}.", "Ask the registry for one that is.")
        return token

    return check


Asking = Annotated[Token | None, Depends(_token)]
"""Anyone; with a token more is told."""
Handing = Annotated[Token, Depends(_needs("submit"))]
Reading = Annotated[Token, Depends(_needs("read"))]
