"""One function over many slices: in this process, on the processors of this machine, or on a scheduler's workers.

::

    Spread("")                            here, one after another
    Spread("local") Spread("local:4")     Dask workers on this machine, one a processor, or four
    Spread("tcp://10.0.0.5:8786")         a Dask scheduler; its workers see the same files under the same names

Results come in the order of the slices. A slice whose worker dies is given to another one; one that was finished in an
earlier run of the same plan is not done again.
"""

from __future__ import annotations

import contextlib
import os
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import orjson

from chordae import files
from chordae.errors import FormatError, InputError, MissingExtra
from chordae.parts.plan import Slice
from chordae.progress import track

__all__ = ["Spread", "Work"]

Work = Callable[[Slice, Path, dict[str, Any]], dict[str, Any]]
"""Works on a slice, writes into a new folder, and returns counts as plain data."""
_RETRIES = 5
_LOOKING = 5.0
"""Seconds of waiting for a slice before the workers are counted."""
_ALONE = 120.0
"""Seconds for which a cluster may be without any worker."""
_DONE = "done.json"


@dataclass(frozen=True, slots=True)
class Spread:
    """Where work is done; see the module."""

    cluster: str = ""

    def run(
        self, work: Work, slices: Sequence[Slice], folder: Path, digest: str, options: dict[str, Any], say: str
    ) -> Iterator[tuple[Path, dict[str, Any]]]:
        """Yield the folder and the counts of each slice, in order.

        Parameters
        ----------
        work
            A function of a module, so that other processes find it.
        slices
            The plan.
        folder
            Work folder, seen by all workers.
        digest
            Of the plan and everything else that decides the results; what an earlier run with the same digest
            finished is taken over.
        options
            Passed to the function; plain data.
        say
            Words of the progress bar.
        """
        folder.mkdir(parents=True, exist_ok=True)
        done = {one.number: found for one in slices if (found := _done(folder, one, digest)) is not None}
        waiting = [one for one in slices if one.number not in done]
        with contextlib.ExitStack() as stack:
            fresh = self._fresh(work, waiting, folder, digest, options, stack)
            for one in track(slices, say, len(slices)):
                yield _place(folder, one), done.pop(one.number) if one.number in done else next(fresh)

    def _fresh(
        self,
        work: Work,
        slices: Sequence[Slice],
        folder: Path,
        digest: str,
        options: dict[str, Any],
        stack: contextlib.ExitStack,
    ) -> Iterator[dict[str, Any]]:
        arguments = (str(folder.resolve()), digest, options)
        if not self.cluster or not slices:
            return (_one(work, one, *arguments) for one in slices)
        client = stack.enter_context(_client(self.cluster))
        futures = client.map(
            _one,
            [work] * len(slices),
            slices,
            *([value] * len(slices) for value in arguments),
            retries=_RETRIES,
            pure=False,
            batch_size=500,
        )
        return _in_order(client, futures)


def _in_order(client: Any, futures: list[Any]) -> Iterator[dict[str, Any]]:
    try:
        for number, future in enumerate(futures):
            yield _result(client, future)
            futures[number] = None  # the scheduler forgets what was handed over
    except Exception as error:
        with contextlib.suppress(Exception):
            client.cancel([one for one in futures if one is not None])
        if type(error).__module__.startswith("distributed"):
            raise InputError(
                f"The cluster gave up: {' '.join(str(error).split())[:200]}.",
                "What was finished stays in the work folder; run the same command again to go on.",
            ) from None
        raise


def _result(client: Any, future: Any) -> dict[str, Any]:
    """Wait for a slice as long as there is a worker; without any for ``_ALONE`` seconds, give up."""
    begun = time.monotonic()
    while True:
        try:
            found: dict[str, Any] = future.result(timeout=_LOOKING)
            return found
        except TimeoutError:
            if future.status == "error":  # the work itself told so
                raise
        if client.ncores():
            begun = time.monotonic()
        elif time.monotonic() - begun > _ALONE:
            raise InputError(
                f"The cluster has had no worker for {_ALONE:g} seconds.",
                "Start workers; what was finished stays in the work folder: run the same command again to go on.",
            )


def _one(work: Work, one: Slice, folder: str, digest: str, options: dict[str, Any]) -> dict[str, Any]:
    """Work on one slice, wherever this runs; its folder takes its name when it is complete."""
    place = _place(Path(folder), one)
    with files.folder_aside(place, replace=True) as aside:
        found = work(one, aside, options)
        (aside / _DONE).write_bytes(orjson.dumps({"digest": digest, "found": found}))
    return found


def _place(folder: Path, one: Slice) -> Path:
    return folder / f"{one.number:07d}"


def _done(folder: Path, one: Slice, digest: str) -> dict[str, Any] | None:
    with contextlib.suppress(OSError, ValueError, KeyError, TypeError):
        told = orjson.loads((_place(folder, one) / _DONE).read_bytes())
        if told["digest"] == digest:
            found: dict[str, Any] = told["found"]
            return found
    return None


@contextlib.contextmanager
def _client(cluster: str) -> Iterator[Any]:
    try:
        import distributed
    except ImportError:
        raise MissingExtra("cluster", "working on a cluster") from None
    make_client: Any = distributed.Client
    make_cluster: Any = distributed.LocalCluster
    if cluster == "local" or cluster.startswith("local:"):
        number = cluster.partition(":")[2] or str(os.cpu_count() or 1)
        if not number.isdecimal() or not 0 < int(number) <= 1024:
            raise FormatError(f"{cluster!r} names no number of workers.", "Write local or, for example, local:4.")
        with (
            make_cluster(
                n_workers=int(number), threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=40
            ) as local,
            make_client(local) as client,
        ):
            yield client
        return
    if "://" not in cluster:
        raise FormatError(f"{cluster!r} is no cluster.", "Use local, local:N or an address such as tcp://HOST:8786 .")
    try:
        client = make_client(cluster, timeout="20s")
    except (OSError, ValueError) as error:
        raise InputError(f"The scheduler {cluster} cannot be reached: {error}.", "Look at its address.") from None
    with client:
        yield client
