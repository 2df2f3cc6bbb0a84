"""What holds for every test: no network, and no test fails because the machine is busy."""

from __future__ import annotations

import socket
from typing import Any, NoReturn

import pytest
from hypothesis import settings

settings.register_profile("chordae", deadline=None)
settings.load_profile("chordae")


@pytest.fixture(autouse=True)
def no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Refuse every connection: nothing in chordae may need the network when it runs."""

    def refuse(self: socket.socket, address: Any) -> NoReturn:
        raise AssertionError(f"a test tried to connect to {address!r}")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket.socket, "connect_ex", refuse)
