"""The solver behind the choices of trees, on small programs whose answers can be counted."""

from __future__ import annotations

import random
from itertools import product

from service.compute.integer_program import Found, Program


def knapsack(weights: list[int], room: int) -> Program:
    """As much weight as goes in."""
    program = Program()
    program.row({program.variable(weight): float(weight) for weight in weights}, high=room)
    return program


def best_by_hand(weights: list[int], room: int) -> int:
    every = product((0, 1), repeat=len(weights))
    loads = (sum(weight * taken for weight, taken in zip(weights, one, strict=True)) for one in every)
    return max(load for load in loads if load <= room)


def reached(weights: list[int], values: object) -> int:
    return round(sum(weight * share for weight, share in zip(weights, values, strict=True)))  # type: ignore[call-overload]


def test_both_ways_to_solve_reach_the_greatest_value() -> None:
    weights = [31, 27, 22, 19, 14, 9, 8]
    for room in range(5, 131, 7):
        small, large = knapsack(weights, room).best(), knapsack(weights, room).best_found(nodes=500)
        assert small is not None
        assert large is not None
        assert reached(weights, small) == reached(weights, large.values) == best_by_hand(weights, room)
        assert large.proven


def test_rows_that_nothing_satisfies_have_no_answer() -> None:
    program = Program()
    program.row({program.variable(1.0): 1.0, program.variable(1.0): 1.0}, low=3.0)
    assert program.best() is None
    assert program.best_found(nodes=10) is None


def split(rows: int, items: int) -> Program:
    """Items to be split in halves that weigh the same in several ways at once, as nearly as can be: hard to prove."""
    dice, program = random.Random(7), Program()
    taken = [program.variable() for _ in range(items)]
    for _ in range(rows):
        weights = [float(dice.randint(1, 99)) for _ in taken]
        short, over = (program.variable(-1.0, upper=1e4, whole=False) for _ in range(2))
        half = sum(weights) // 2
        program.row(dict(zip(taken, weights, strict=True)) | {short: 1.0, over: -1.0}, low=half, high=half)
    return program


def test_a_search_cut_short_tells_what_it_has_and_that_it_is_not_proven() -> None:
    found = split(3, 24).best_found(nodes=2)
    assert isinstance(found, Found)
    assert not found.proven


def test_the_same_bound_finds_the_same() -> None:
    one, other = split(3, 24).best_found(nodes=5), split(3, 24).best_found(nodes=5)
    assert one is not None
    assert other is not None
    assert list(one.values) == list(other.values)
