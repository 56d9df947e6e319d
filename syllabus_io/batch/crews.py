"""Who does the work: processes of this machine, or an existing cluster. Both are executors of the standard library's
kind (``concurrent.futures.Executor``), and both survive the loss of a worker."""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import re
import signal
import threading
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from types import TracebackType
from typing import TYPE_CHECKING, Protocol

from syllabus_io.batch.carry_out import carry_out
from syllabus_io.batch.records import BatchSettings, Work, WorkResult
from syllabus_io.errors import BadSetting

if TYPE_CHECKING:
    from distributed import Client

__all__ = ["ClusterCrew", "Crew", "LocalCrew", "bound_process", "processor_count"]

LONGEST_SECONDS = 900
MOST_BYTES = 4_000_000_000
"""Computing time of one piece of work and address space of a worker: a student of ten courses takes a twentieth."""
_CONNECT_SECONDS = 15
_ADDRESS = re.compile(r"(?:(?:tcp|tls|wss?)://)?(?:\[[0-9a-fA-F:]+\]|[\w.-]+):\d{1,5}")
_EXAMPLE = "check the address, for example tcp://10.0.0.5:8786"
_INSTALL = "install it with: pip install 'syllabus-io[cluster]'"


def processor_count() -> int:
    """How many processors this process may use."""
    affinity = getattr(os, "sched_getaffinity", None)
    return len(affinity(0)) if affinity else os.cpu_count() or 1


class Crew(Protocol):
    """Does pieces of work. Use as a context manager: leaving it ends all workers."""

    width: int
    """How many pieces of work are done at the same time."""

    def __enter__(self) -> Crew: ...

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None: ...

    def submit(self, work: Work) -> Future[WorkResult]:
        """Hands out a piece of work. Raises BrokenExecutor when a worker is lost, and all that was handed out."""

    def renew(self) -> None:
        """Starts again after that."""


class LocalCrew:
    """Processes of this machine. They end with this process, however it ends."""

    def __init__(self, settings: BatchSettings, workers: int) -> None:
        self.width = workers
        self._settings = settings
        self._executor: Executor | None = None

    def __enter__(self) -> LocalCrew:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._executor is None:
            return
        if kind is not None:
            # what is being done is done again by the next run: nobody who stops a batch waits for a minute
            for process in multiprocessing.active_children():
                process.terminate()
        self._executor.shutdown(wait=True, cancel_futures=True)

    def submit(self, work: Work) -> Future[WorkResult]:
        """Hands out a piece of work."""
        if self._executor is None:
            # fresh processes: this one has threads, and a copy of it could wait for ever for a lock one of them held
            context = multiprocessing.get_context("spawn")
            self._executor = ProcessPoolExecutor(self.width, context, initializer=_begin)
        return self._executor.submit(_carry_out, work, self._settings)

    def renew(self) -> None:
        """Starts new processes; what is left of the old ones is ended."""
        if self._executor is not None:
            self._executor.shutdown(wait=True, cancel_futures=True)
            self._executor = None


def _begin() -> None:
    """Prepares a worker: the parent alone is stopped by the keyboard, and no worker outlives it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True, name="end with parent").start()


def _carry_out(work: Work, settings: BatchSettings) -> WorkResult:
    """Does a piece of work within limits: one that goes beyond them costs itself alone, as if its worker were lost."""
    bound_process(LONGEST_SECONDS, MOST_BYTES)
    return carry_out(work, settings)


def bound_process(seconds: int, most_bytes: int) -> None:
    """Bounds the computing time of this process from now on, and its address space, where the system can."""
    try:
        import resource
    except ImportError:
        return
    used = resource.getrusage(resource.RUSAGE_SELF)
    wanted = ((resource.RLIMIT_CPU, int(used.ru_utime + used.ru_stime) + 1 + seconds), (resource.RLIMIT_AS, most_bytes))
    for kind, amount in wanted:
        hard = resource.getrlimit(kind)[1]
        with contextlib.suppress(OSError, ValueError):  # some systems know a limit by name and do not take it
            resource.setrlimit(kind, (amount if hard == resource.RLIM_INFINITY else min(amount, hard), hard))


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


class ClusterCrew:
    """The workers of a cluster that runs already, through the executor of ``dask.distributed``.

    They must see the folders under the same names and have this program. A piece of work whose worker is lost is given
    to another; the scheduler gives it up when it has cost several workers.
    """

    def __init__(self, settings: BatchSettings, address: str) -> None:
        self._settings = settings
        self._client = _connect(address)
        try:
            self._check_versions(address)
            threads = self._client.nthreads()
            if not threads:
                raise BadSetting("--cluster", f"{address} has no workers", "start some and try again")
        except BaseException:
            self._client.close()
            raise
        self.width = sum(threads.values())
        self._executor: Executor = self._client.get_executor(pure=False)

    def __enter__(self) -> ClusterCrew:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        with contextlib.suppress(OSError, TimeoutError):
            self._executor.shutdown(wait=False)
            self._client.close()

    def submit(self, work: Work) -> Future[WorkResult]:
        """Hands out a piece of work."""
        return self._executor.submit(carry_out, work, self._settings)

    def renew(self) -> None:
        """Nothing to do: the scheduler replaces lost workers itself."""

    def _check_versions(self, address: str) -> None:
        from syllabus_io import __version__

        try:
            found = self._client.run(_version)
        except Exception as error:  # whatever a worker without this program raises
            raise BadSetting(
                "--cluster", f"the workers of {address} do not have this program ({type(error).__name__})", _ON_WORKERS
            ) from None
        if others := {version for version in found.values() if version != __version__}:
            raise BadSetting("--cluster", f"workers have version {', '.join(sorted(others))} of it", _ON_WORKERS)


_ON_WORKERS = "install the same version of syllabus-io on every worker"


def _version() -> str:
    from syllabus_io import __version__

    return __version__


def _connect(address: str) -> Client:
    try:
        from distributed import Client
    except ImportError:
        raise BadSetting("--cluster", "needs the library dask.distributed", _INSTALL) from None
    if not _ADDRESS.fullmatch(address):
        raise BadSetting("--cluster", f"{address!r} is no address of a scheduler", _EXAMPLE)
    try:
        return Client(address, timeout=_CONNECT_SECONDS, set_as_default=False)
    except (OSError, TimeoutError) as error:
        fault = f"no cluster answers at {address!r} ({type(error).__name__})"
        raise BadSetting("--cluster", fault, _EXAMPLE) from None
