"""Imports run one way through the house, and the pure rooms stay pure; the contracts stand in pyproject.toml."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from service.settings import CHECKOUT


def test_the_import_contracts_hold() -> None:
    tool = Path(sys.executable).parent / "lint-imports"
    ran = subprocess.run([str(tool), "--no-cache"], cwd=CHECKOUT, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr


def test_a_pure_room_loads_neither_the_web_nor_the_database() -> None:
    look = (
        "import sys, service.reasoning.rulebook, service.compute, service.present.sentences;"
        "print(sorted({'flask', 'marshmallow', 'sqlalchemy'} & set(sys.modules)))"
    )
    ran = subprocess.run([sys.executable, "-c", look], cwd=CHECKOUT, capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
