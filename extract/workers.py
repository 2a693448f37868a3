"""The same function over many tasks: here, in processes of this machine, or on a cluster.

Results come in the order of the tasks, so that what is made of them is the same everywhere.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

from extract.errors import FileProblem, PartsaloudError

if TYPE_CHECKING:
    from multiprocessing.context import BaseContext

PATIENCE = "10s"  # for a cluster to answer

Task = TypeVar("Task")
Result = TypeVar("Result")


def cores() -> int:
    """The cores that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def spread(
    work: Callable[[Task], Result],
    tasks: Sequence[Task],
    *,
    jobs: int | None = None,
    cluster: str | None = None,
) -> Iterator[Result]:
    """`work` of every task, in `jobs` processes (None: one a core) or on a Dask cluster.

    `work` is a function of a module; tasks and results are pickled. PartsaloudError if workers die
    or the cluster cannot be reached.
    """
    jobs = min(jobs or cores(), len(tasks))
    if cluster:
        return _on_cluster(work, tasks, cluster)
    return map(work, tasks) if jobs <= 1 else _in_processes(work, tasks, jobs)


def _in_processes(
    work: Callable[[Task], Result], tasks: Sequence[Task], jobs: int
) -> Iterator[Result]:
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool

    with ProcessPoolExecutor(jobs, mp_context=_context()) as pool:
        try:
            yield from pool.map(work, tasks)
        except BrokenProcessPool:
            raise PartsaloudError(
                "a process that read files was ended from outside, for want of memory perhaps; "
                "try fewer of them with --jobs"
            ) from None


def _context() -> BaseContext:
    """Fresh processes: a fork would copy threads of libraries in the middle of their work."""
    import multiprocessing

    methods = multiprocessing.get_all_start_methods()
    return multiprocessing.get_context("forkserver" if "forkserver" in methods else "spawn")


def _on_cluster(
    work: Callable[[Task], Result], tasks: Sequence[Task], address: str
) -> Iterator[Result]:
    """Reaches the cluster at once, so that one that does not answer is told before work begins."""
    try:
        from distributed import Client
    except ImportError:
        hint = "install partsaloud[cluster]"
        raise FileProblem(address, "a cluster needs a library that is not here", hint) from None
    try:
        client: Any = Client(address, timeout=PATIENCE, set_as_default=False)  # type: ignore[no-untyped-call]
    except (OSError, ValueError) as error:
        what = f"no cluster answers there ({error})"
        raise FileProblem(address, what, "name the address of its scheduler") from None
    return _gathered(client, work, tasks, address)


def _gathered(
    client: Any, work: Callable[[Task], Result], tasks: Sequence[Task], address: str
) -> Iterator[Result]:
    with client:
        try:
            found = client.gather(client.map(work, tasks, pure=False))
        except Exception as error:  # whatever a cluster may die of
            raise PartsaloudError(f"{address}: the cluster lost the work ({error})") from None
        yield from found
