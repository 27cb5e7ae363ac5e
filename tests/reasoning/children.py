"""Runs a piece of a test in a process of its own, since a fault of the C engine would end the whole test run."""

from __future__ import annotations

import ctypes
import faulthandler
import os
import pickle
import signal
from collections.abc import Callable
from typing import Any


def in_child(work: Callable[[], Any], *, seconds: int = 60) -> Any:
    """What the work returns in a forked child; a signal or an exception there comes back as a text."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        _work(work, writing, seconds)
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        sent = pipe.read()
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        return f"ended by {signal.Signals(os.WTERMSIG(status)).name}"
    return pickle.loads(sent)


def fill_memory_with_garbage() -> None:
    """Makes malloc and free overwrite what they hand out and take back, so that a read of either cannot pass unseen."""
    m_perturb = -6  # glibc's malloc.h
    ctypes.CDLL(None).mallopt(m_perturb, 0xAA)


def _work(work: Callable[[], Any], writing: int, seconds: int) -> None:
    faulthandler.disable()  # an end by a signal is an expected answer here, not worth a page of stack
    signal.alarm(seconds)
    try:
        result = work()
    except BaseException as fault:
        result = f"{type(fault).__name__}: {fault}"
    with os.fdopen(writing, "wb") as pipe:
        pickle.dump(result, pipe)
    os._exit(0)
