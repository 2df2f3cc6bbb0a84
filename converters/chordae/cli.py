"""The command line: from the words typed to one command, from what it raises to an exit code.

::

    chordae exchange | read | derive | check | write | match | compare | explain

    exit code 0     clean
              1     issues at or above --fail-on (default: violation)
              2     could not run
              130   interrupted (Ctrl-C, or a request to end)

Each command is a module of :mod:`chordae.commands` with ``add_parser(subparsers)`` and ``run(args) -> int``.
Its heavy imports stand inside ``run``, so that ``chordae --help`` starts at once.
"""

from __future__ import annotations

import argparse
import os
import signal
import sys
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from importlib import import_module
from importlib.util import find_spec
from types import FrameType

from chordae import __version__
from chordae.errors import ChordaeError, InputError

__all__ = ["COMMANDS", "main", "make_parser"]

COMMANDS = ("exchange", "read", "derive", "check", "write", "match", "compare", "explain", "registry")
"""Names of the commands in the order of the work; a command is offered when its module is there."""

_INTERRUPTED = 130
_CAUTION = (
    "chordae describes specimens for teaching, research and registries. It is not for diagnosis or for "
    "planning treatment, and defers to local codes on human remains, consent and data protection."
)


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    argv
        The words after ``chordae``; ``sys.argv`` if not given.

    Returns
    -------
    int
        0 clean, 1 issues at or above the threshold, 2 could not run, 130 interrupted.
    """
    try:
        parser = make_parser()
        try:
            args = parser.parse_args(argv)
        except SystemExit as stop:
            return stop.code if isinstance(stop.code, int) else 2
        if args.command is None:
            parser.print_help(sys.stderr)
            return 2
        return _guarded(args, sys.argv[1:] if argv is None else argv)
    except KeyboardInterrupt:
        _say("Interrupted; nothing half-written was left.")
        return _INTERRUPTED


def make_parser() -> argparse.ArgumentParser:
    """Build the parser with the commands whose modules are there."""
    parser = argparse.ArgumentParser(
        prog="chordae",
        description="Sequential segmental descriptions of malformed hearts: read, check, write, compare.",
        epilog=_CAUTION,
    )
    parser.add_argument("--version", action="version", version=f"chordae {__version__}")
    parser.add_argument("--debug", action="store_true", help="show where an internal error came from")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    for name in COMMANDS:
        module = f"chordae.commands.{name}"
        if find_spec(module) is not None:
            import_module(module).add_parser(commands)
    for command in commands.choices.values():
        hidden = argparse.SUPPRESS
        command.add_argument("--debug", action="store_true", default=hidden, help=hidden)
    return parser


def _guarded(args: argparse.Namespace, words: Sequence[str]) -> int:
    try:
        _check_text(words)
        with _ending_cleanly(args.command):
            code = import_module(f"chordae.commands.{args.command}").run(args)
            sys.stdout.flush()
        return int(code)
    except ChordaeError as error:
        _say(error.message, error.hint)
    except BrokenPipeError:
        # The reader of our output has gone: point stdout at nothing, or Python complains at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 2
    except OSError as error:
        _say(f"{error.filename or 'The system'}: {error.strerror or error}.", "Look at the name, rights and disk.")
    except MemoryError:
        _say("There is not enough memory for this.", "Split the input and read it piece by piece.")
    except Exception as error:
        if args.debug:
            raise
        _say(
            f"Internal error: {type(error).__name__}: {' '.join(str(error).split())[:200]}",
            "This is a fault of chordae; please report it with the output of the same command and --debug.",
        )
    return 2


def _check_text(words: Sequence[str]) -> None:
    """Refuse a word that is not text: it could not be written into any file, nor be told in an issue."""
    for word in words:
        if not word.isprintable() and any(sign == "\0" or "\ud800" <= sign <= "\udfff" for sign in word):
            shown = word.encode("utf-8", "backslashreplace").decode()
            raise InputError(f'"{shown}" is not text in UTF-8.', "Type it again; rename a file that is called so.")


@contextmanager
def _ending_cleanly(command: str) -> Iterator[None]:
    """Let a request to end (SIGTERM) end the work as Ctrl-C does; a service has its own way to end."""
    if command == "registry" or threading.current_thread() is not threading.main_thread():
        yield
        return

    def stop(number: int, frame: FrameType | None) -> None:
        raise KeyboardInterrupt

    before = signal.signal(signal.SIGTERM, stop)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def _say(message: str, hint: str = "") -> None:
    print(f"chordae: {message}" + (f"\n         {hint}" if hint else ""), file=sys.stderr)
