"""The cheapest repair against a search through every repair of small lists; cultivars, areas and fits are made up."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from itertools import chain, combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.integer_program import Found, Program
from service.compute.list_repair import Choice, Costs, Line, NoRepair, Repair, Room, Task, repair

COSTS = Costs(keep=0, rootstock=1, replace=2, add=3, drop=5)
NAMES = ("a", "b", "c", "d", "e")
FREE = Room()
Picked = tuple[tuple[Choice | None, ...], tuple[Choice, ...]]


def way(key: str, *cultivars: str, **given_: object) -> Choice:
    """A way that fits, needs no partner and takes 100 sq ft, unless told otherwise."""
    known = {"change": "keep", "fits": True, "area_sq_ft": 100.0, "fit": 70.0, "needed": {}, "serving": {}}
    return Choice(key=key, cultivars=cultivars or (key,), **(known | given_))  # type: ignore[arg-type]


def shy(key: str, *partners: str, needs: int = 1, **given_: object) -> Choice:
    """A way whose cultivar needs partners."""
    return way(key, needed={key: needs}, serving={key: frozenset(partners)}, **given_)


@st.composite
def tasks(draw: st.DrawFn) -> Task:
    """Up to three lines with up to three ways each, the first maybe twice, up to three additions, and scarce ground."""
    alone = draw(st.sets(st.sampled_from(NAMES)))
    needed = {name: 0 if name in alone else draw(st.integers(1, 2)) for name in NAMES}
    others = st.sets(st.sampled_from((*NAMES, "near")), max_size=3).map(frozenset)
    serving = {name: draw(others) for name in NAMES}

    def drawn(key: str, change: str) -> Choice:
        grown = tuple(draw(st.lists(st.sampled_from(NAMES), min_size=1, max_size=2, unique=True)))
        return way(
            key,
            *grown,
            change=change,
            fits=draw(st.sampled_from((True, True, False))),
            area_sq_ft=draw(st.sampled_from((None, 36.0, 100.0, 225.0))),
            fit=float(draw(st.integers(0, 100))),
            needed={name: needed[name] for name in grown},
            serving={name: serving[name] for name in grown},
        )

    changes = ("keep", "rootstock", "replace")
    lines = tuple(
        Line(number, draw(st.integers(1, 3)), tuple(drawn(one, one) for one in changes[: draw(st.integers(1, 3))]))
        for number in range(1, draw(st.integers(1, 3)) + 1)
    )
    if draw(st.booleans()):
        lines += (replace(lines[0], line=9),)
    additions = tuple(replace(drawn(name, "keep"), cultivars=(name,)) for name in NAMES[: draw(st.integers(0, 3))])
    standing = draw(st.sampled_from(({}, {"near": True}, {"near": False}, {"a": False})))
    room = Room(draw(st.sampled_from((None, 90.0, 300.0, 600.0))), draw(st.sampled_from((None, 1, 3))))
    return Task(lines, additions, standing, frozenset(alone), room)


def every(task: Task) -> Iterator[Picked]:
    """Every way to have the lines, one kept at least, with every set of additions."""
    added = chain.from_iterable(combinations(task.additions, size) for size in range(len(task.additions) + 1))
    kept = product(*((*line.choices, None) for line in task.lines))
    return ((lines, more) for lines, more in product(list(kept), list(added)) if any(lines))


def allowed(task: Task, picked: Picked) -> bool:
    lines, more = picked
    planted = [(choice, line.trees) for choice, line in zip(lines, task.lines, strict=True) if choice]
    planted += [(choice, 1) for choice in more]
    grown = {name for choice, _ in planted for name in choice.cultivars}
    here = {name: name in task.crops_alone for name in grown} | dict(task.standing)
    area = sum((choice.area_sq_ft or 0) * trees for choice, trees in planted)
    return (
        all(choice.fits for choice, _ in planted)
        and (task.room.area_sq_ft is None or area <= task.room.area_sq_ft)
        and (task.room.max_trees is None or sum(trees for _, trees in planted) <= task.room.max_trees)
        and all(served(choice, name, here) for choice, _ in planted for name in choice.cultivars)
    )


def served(choice: Choice, name: str, here: dict[str, bool]) -> bool:
    needed = choice.needed.get(name, 0)
    partners = [here[one] for one in choice.serving.get(name, ()) if one in here and one != name]
    return sum(needed if alone else 1 for alone in partners) >= needed


def weighed(task: Task, picked: Picked, costs: Costs) -> tuple[float, float]:
    """The cost of a repair, and how badly it suits."""
    lines, more = picked
    pairs = list(zip(lines, task.lines, strict=True))
    cost = sum((costs.of(choice.change) if choice else costs.drop) * line.trees for choice, line in pairs)
    suits = sum(choice.fit * line.trees for choice, line in pairs if choice) + sum(choice.fit for choice in more)
    return cost + costs.add * len(more), -suits


def picked_by(task: Task, found: Repair) -> Picked:
    by_line = {line.line: {choice.key: choice for choice in line.choices} for line in task.lines}
    lines = tuple(by_line[one.line][one.key] if one.key else None for one in found.lines)
    return lines, tuple(choice for choice in task.additions if choice.key in found.added)


@given(tasks(), st.sampled_from((COSTS, Costs(keep=0, rootstock=0.5, replace=4, add=6, drop=3))))
def test_no_repair_is_cheaper_or_as_cheap_and_better_suited(task: Task, costs: Costs) -> None:
    found = repair(task, costs)
    best = min((weighed(task, one, costs) for one in every(task) if allowed(task, one)), default=None)
    if isinstance(found, NoRepair):
        assert best is None
        return
    picked = picked_by(task, found)
    assert allowed(task, picked)
    assert weighed(task, picked, costs) == best
    assert (found.cost, found.proven) == (best[0], True)
    for change, choice in zip(found.lines, picked[0], strict=True):
        assert change.change == (choice.change if choice else "drop")


@given(tasks())
def test_the_reason_for_no_repair_is_the_first_thing_that_is_in_the_way(task: Task) -> None:
    found = repair(task, COSTS)
    anywhere = any(allowed(replace(task, room=FREE), one) for one in every(task))
    if not any(choice.fits for line in task.lines for choice in line.choices):
        assert found == NoRepair("no_choice_fits")
    elif not anywhere:
        assert found == NoRepair("no_pollen")
    elif not any(allowed(task, one) for one in every(task)):
        assert found == NoRepair("no_room")
    else:
        assert isinstance(found, Repair)


@given(tasks())
def test_more_room_never_makes_a_repair_dearer(task: Task) -> None:
    before, after = repair(task, COSTS), repair(replace(task, room=FREE), COSTS)
    if isinstance(before, Repair):
        assert isinstance(after, Repair)
        assert after.cost <= before.cost


def only(*choices: Choice, **given_: object) -> Task:
    """A list of one tree for each way given."""
    lines = tuple(Line(number, 1, (choice,)) for number, choice in enumerate(choices, 1))
    return Task(lines, **given_)  # type: ignore[arg-type]


def told(task: Task) -> tuple[list[str], tuple[str, ...]]:
    found = repair(task, COSTS)
    assert isinstance(found, Repair)
    return [change.change for change in found.lines], found.added


def test_a_list_that_passes_stays_as_it_is() -> None:
    found = repair(only(shy("a", "b"), shy("b", "a")), COSTS)
    assert isinstance(found, Repair)
    assert ([change.change for change in found.lines], found.cost) == (["keep", "keep"], 0)


def test_a_partner_is_added_where_that_is_cheaper_than_dropping() -> None:
    assert told(only(shy("a", "b"), additions=(shy("b", "a"),))) == (["keep"], ("b",))


def test_an_addition_that_lacks_a_partner_itself_brings_one_along() -> None:
    additions = (shy("b", "c"), way("c"))
    assert told(only(shy("a", "b"), way("x"), additions=additions, crops_alone=frozenset("cx")))[1] == ()
    many = Task((Line(1, 4, (shy("a", "b"),)),), additions=additions, crops_alone=frozenset("c"))
    assert told(many) == (["keep"], ("b", "c"))


def test_a_tree_of_two_cultivars_serves_itself() -> None:
    both = way("ab", "a", "b", needed={"a": 1, "b": 1}, serving={"a": frozenset("b"), "b": frozenset("a")})
    assert told(only(both)) == (["keep"], ())


def test_one_that_needs_two_partners_is_content_with_one_that_crops_alone() -> None:
    task = only(shy("a", "b", needs=2), way("b"))
    assert told(replace(task, crops_alone=frozenset("b"))) == (["keep", "keep"], ())
    assert told(task) == (["drop", "keep"], ())


def test_a_standing_tree_serves_the_list() -> None:
    assert told(only(shy("a", "b"), standing={"b": False})) == (["keep"], ())


def test_of_lines_that_are_alike_the_last_are_changed() -> None:
    listed, smaller = way("k", "a"), way("r", "a", change="rootstock", area_sq_ft=50.0)
    task = Task(tuple(Line(number, 1, (listed, smaller)) for number in range(4)), room=Room(area_sq_ft=300.0))
    assert told(task) == (["keep", "keep", "rootstock", "rootstock"], ())


def test_a_line_goes_as_a_whole() -> None:
    task = Task((Line(1, 3, (way("a"),)), Line(2, 1, (way("b"),))), room=Room(area_sq_ft=250.0))
    assert told(task) == (["drop", "keep"], ())


def test_a_tree_of_unknown_area_takes_no_room() -> None:
    assert told(only(way("a"), way("b", area_sq_ft=None), room=Room(area_sq_ft=100.0))) == (["keep", "keep"], ())


def test_an_empty_list_has_nothing_that_fits() -> None:
    assert repair(Task(()), COSTS) == NoRepair("no_choice_fits")


def test_a_search_that_is_cut_short_says_that_its_repair_is_not_proven(monkeypatch: pytest.MonkeyPatch) -> None:
    search = Program.best_found

    def cut_short(program: Program, *, nodes: int) -> Found | None:
        found = search(program, nodes=nodes)
        return found and replace(found, proven=False)

    monkeypatch.setattr(Program, "best_found", cut_short)
    found = repair(only(shy("a", "b"), additions=(shy("b", "a"),)), COSTS)
    assert isinstance(found, Repair)
    assert not found.proven


def crowded(lines: int) -> Task:
    """A list on a third of the ground that it asks for."""
    sizes = [float(37 + 11 * (number * number % 29)) for number in range(lines)]
    ways = [way(f"c{number}", area_sq_ft=size) for number, size in enumerate(sizes)]
    return only(*ways, room=Room(area_sq_ft=sum(sizes) / 3))


def test_threads_do_not_disturb_one_another() -> None:
    lists = [crowded(lines) for lines in (5, 7, 9)]
    alone = [repair(task, COSTS) for task in lists]
    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(lambda task: repair(task, COSTS), lists * 4)) == alone * 4


def test_lines_without_trees_and_lines_or_ways_of_one_name_are_refused() -> None:
    with pytest.raises(ValueError, match="without trees"):
        Line(1, 0, ())
    with pytest.raises(ValueError, match="same key"):
        Line(1, 1, (way("a"), way("a")))
    with pytest.raises(ValueError, match="same number"):
        Task((Line(1, 1, (way("a"),)), Line(1, 1, (way("b"),))))


def test_a_change_never_earns_anything() -> None:
    with pytest.raises(ValueError):
        Costs(keep=-1, rootstock=1, replace=2, add=3, drop=5)
