"""Files and functions stay small enough to be read in one sitting. What is over is printed with its size."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest

from service.settings import CHECKOUT

LONGEST_FILE, USUAL_FILE = 300, 100
LONGEST_FUNCTION, USUAL_FUNCTION = 40, 10
ARGUMENTS, BY_PLACE = 4, 3
FILES = sorted((CHECKOUT / "service").rglob("*.py"))
FORBIDDEN = {"utils", "util", "helpers", "helper", "manager", "base", "common", "misc"}
Function = ast.FunctionDef | ast.AsyncFunctionDef


def lines(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def shown(path: Path) -> str:
    return str(path.relative_to(CHECKOUT))


def functions() -> Iterator[tuple[str, Function, bool]]:
    for path in FILES:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        methods = {id(one) for node in ast.walk(tree) if isinstance(node, ast.ClassDef) for one in node.body}
        for node in ast.walk(tree):
            if isinstance(node, Function):
                yield f"{shown(path)}:{node.lineno} {node.name}", node, id(node) in methods


def length(node: Function) -> int:
    return (node.end_lineno or node.lineno) - node.lineno + 1


def test_no_file_is_too_long() -> None:
    assert {shown(path): lines(path) for path in FILES if lines(path) > LONGEST_FILE} == {}


def test_most_files_are_short() -> None:
    assert median(lines(path) for path in FILES if path.name != "__init__.py") <= USUAL_FILE


def test_no_function_is_too_long() -> None:
    assert {name: length(node) for name, node, _ in functions() if length(node) > LONGEST_FUNCTION} == {}


def test_most_functions_are_short() -> None:
    assert median(length(node) for _, node, _ in functions()) <= USUAL_FUNCTION


def test_few_arguments_and_most_of_them_by_name() -> None:
    over = {}
    for name, node, method in functions():
        positional = len(node.args.posonlyargs) + len(node.args.args) - method
        count = positional + len(node.args.kwonlyargs)
        if count > ARGUMENTS and not is_of_the_libraries(node):
            over[name] = f"{count} arguments"
        elif positional > BY_PLACE and not node.name.startswith("_") and not is_of_the_libraries(node):
            over[name] = f"{positional} arguments by place"
    assert over == {}


def is_of_the_libraries(node: Function) -> bool:
    """A method that a library calls takes the arguments that the library gives; it overrides and says `**kwargs`."""
    return node.args.kwarg is not None or any("click" in ast.dump(one) for one in node.decorator_list)


@pytest.mark.parametrize("path", FILES, ids=shown)
def test_everything_public_has_a_sentence(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    named = [node for node in tree.body if isinstance(node, (ast.ClassDef, Function))]
    public = [node for node in named if not node.name.startswith("_")]
    classes = [node for node in public if isinstance(node, ast.ClassDef)]
    public += [one for node in classes for one in node.body if isinstance(one, Function)]
    silent = [node.name for node in public if not node.name.startswith("_") and not ast.get_docstring(node)]
    assert silent == []
    assert ast.get_docstring(tree) or not tree.body


def test_no_module_has_a_name_that_says_nothing() -> None:
    assert [shown(path) for path in FILES if path.stem in FORBIDDEN] == []
