"""The same question and rulebook give the same bytes in every run, process, hash seed and order of reading."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tests.reasoning.one_run import hash_of_all

SCRIPT = Path(__file__).with_name("one_run.py")


def in_a_process_of_its_own(matcher: str, *, hash_seed: int, order: int) -> str:
    environment = {**os.environ, "PYTHONHASHSEED": str(hash_seed)}
    command = [sys.executable, str(SCRIPT), matcher, str(order)]
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=True).stdout.strip()


def test_the_same_bytes_in_every_process_hash_seed_and_order_of_reading() -> None:
    here = hash_of_all("plain", 0)
    there = {
        in_a_process_of_its_own(matcher, hash_seed=number, order=number)
        for matcher in ("plain", "engine")
        for number in (1, 2, 3)
    }
    assert there == {here}


def test_the_same_bytes_run_after_run() -> None:
    assert hash_of_all("engine", 0) == hash_of_all("engine", 1) == hash_of_all("plain", 2)
