"""The recipes in DEVELOPERS.md: each ends in a command that proves it, and the command works."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from service.settings import CHECKOUT

RECIPES = re.split(r"^### ", (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]


def proof(recipe: str) -> str:
    """The last indented line of a recipe."""
    own = recipe.split("\n## ", maxsplit=1)[0]
    return [line.strip() for line in own.splitlines() if line.startswith("    ")][-1]


def test_there_are_five_recipes() -> None:
    assert [recipe.splitlines()[0].split()[0] for recipe in RECIPES] == ["Add"] * 5


@pytest.mark.parametrize("recipe", RECIPES, ids=[recipe.splitlines()[0] for recipe in RECIPES])
def test_the_command_that_proves_a_recipe_works(recipe: str) -> None:
    command = shlex.split(proof(recipe))
    assert command[0].startswith(".venv/bin/")
    command[0] = str(Path(sys.executable).parent / Path(command[0]).name)
    alone = {name: value for name, value in os.environ.items() if not name.startswith("PYTEST_XDIST")}
    ran = subprocess.run(command, cwd=CHECKOUT, env=alone, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout[-3000:] + ran.stderr[-3000:]
