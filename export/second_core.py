"""A second process that makes some of the outputs while the first makes the others.

It is forked as soon as what both need is loaded; it then loads what it alone needs while the first reads the call and
the plan, and is handed the one run.
"""

from __future__ import annotations

import os
import pickle
import signal
import sys
import warnings
from contextlib import suppress
from importlib import import_module
from multiprocessing import get_context
from multiprocessing.connection import Connection
from threading import Thread

from export.outputs import OUTPUTS, made
from framing.run import Run

SHARE = ("anchor-plan.dxf", "anchor-plan.pdf", "wall-marks.pdf", "wall-marks.html", "schedule.csv", "run.json")
"""What the second process makes: with the loading of its libraries about half of the whole."""


class SecondCore:
    """The waiting process; `None` stands for it where a process cannot be forked safely or has no core of its own."""

    def __init__(self) -> None:
        context = get_context("fork")
        self._ours, theirs = context.Pipe()
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", DeprecationWarning)  # forking beside numpy's idle threads: no lock is held
            self._process = context.Process(target=_serve, args=(theirs, self._ours), daemon=True)
            held = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})  # the first answers the keyboard
            self._process.start()
            signal.pthread_sigmask(signal.SIG_SETMASK, held)
        theirs.close()

    def render(self, run: Run) -> dict[str, bytes]:
        """Every output of a run by file name, in the order of `OUTPUTS`, made by both processes.

        By the first alone where the second was ended from outside, for want of memory perhaps.

        Raises
        ------
        Exception
            Whatever making one of them raised, in either process.
        """
        handed = Thread(target=self._hand, args=(pickle.dumps(run, pickle.HIGHEST_PROTOCOL),), daemon=True)
        handed.start()  # the second may still be loading, and the pipe holds less than a run
        here = {name: made(name, run) for name in OUTPUTS if name not in SHARE}
        try:
            there = pickle.loads(self._ours.recv_bytes())
        except (EOFError, OSError):  # it is gone
            there = {name: made(name, run) for name in SHARE}
        if isinstance(there, Exception):
            raise there
        return {name: (here | there)[name] for name in OUTPUTS}

    def _hand(self, run: bytes) -> None:
        with suppress(OSError):  # it is gone
            self._ours.send_bytes(run)

    def stop(self) -> None:
        """End the waiting process; to be called whatever happened."""
        self._process.terminate()
        self._process.join()
        self._ours.close()


def second_core() -> SecondCore | None:
    """A second process where the system can fork one safely (Linux) and has a core for it."""
    return SecondCore() if sys.platform == "linux" and (os.cpu_count() or 1) > 1 else None


def _serve(pipe: Connection, others: Connection) -> None:
    others.close()  # so that the pipe ends with the first process, however that ends
    with suppress(Exception):  # it comes again, and is told, when the output is made
        for name in SHARE:
            import_module(OUTPUTS[name].partition(":")[0])
    try:
        run = pickle.loads(pipe.recv_bytes())
    except EOFError:
        return
    try:
        answer: dict[str, bytes] | Exception = {name: made(name, run) for name in SHARE}
    except Exception as told:
        answer = told
    pipe.send_bytes(pickle.dumps(answer, pickle.HIGHEST_PROTOCOL))
