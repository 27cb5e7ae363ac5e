"""Runs what CI runs: style, import contracts, types, tests. All run; if any fails, the status is 1."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
BIN = Path(sys.executable).parent


def steps(for_pytest: list[str]) -> list[tuple[str, list[str]]]:
    """Name and command of each step."""
    return [
        ("style", [str(BIN / "ruff"), "check"]),
        ("import contracts", [str(BIN / "lint-imports"), "--no-cache"]),
        ("types", [sys.executable, "-m", "mypy"]),
        ("tests", [sys.executable, "-m", "pytest", *(for_pytest or ["-n", "auto"])]),
    ]


def main() -> int:
    """Run every step and say which failed."""
    failed = []
    for name, command in steps(sys.argv[1:]):
        print(f"--- {name}", flush=True)
        if subprocess.run(command, cwd=TOP, check=False).returncode:
            failed.append(name)
    print("--- all is well" if not failed else "--- failed: " + ", ".join(failed))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
