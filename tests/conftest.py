"""What holds for every test: no network, none fails because the machine is busy, and none waits without end."""

from __future__ import annotations

import signal
import socket
from collections.abc import Iterator
from types import FrameType
from typing import Any, NoReturn

import pytest
from hypothesis import settings

settings.register_profile("chordae", deadline=None)
settings.load_profile("chordae")

LONGEST = 600
"""Seconds after which a test is ended: many times what the slowest takes on a busy machine."""


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[Any]:
    """End a test that waits for something that does not come, so that a run ends and says where it stood."""

    def late(number: int, frame: FrameType | None) -> NoReturn:
        raise TimeoutError(f"{item.nodeid} was not done after {LONGEST} seconds")

    before = signal.signal(signal.SIGALRM, late)
    signal.alarm(LONGEST)
    try:
        return (yield)
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


@pytest.fixture(autouse=True)
def no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Refuse every connection: nothing in chordae may need the network when it runs."""

    def refuse(self: socket.socket, address: Any) -> NoReturn:
        raise AssertionError(f"a test tried to connect to {address!r}")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket.socket, "connect_ex", refuse)
