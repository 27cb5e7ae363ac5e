"""The one way through a planting list: each line for itself, then the list as a whole, then what to change.

A list up to the limit `planting_list.list_wide.lines` is looked at as a whole. Of a longer one each line is judged by
itself, with the matcher that sweeps, and only its counts are judged together.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from service.domain.checked_list import Addition, HarvestChart, Sketch
from service.domain.planting_list import ReadLine, ReadList
from service.questions.planting_list.addition import smallest_addition
from service.questions.planting_list.gaps import not_judged
from service.questions.planting_list.harvest import harvest_chart
from service.questions.planting_list.line_facts import Open, within
from service.questions.planting_list.lines import LineChecker
from service.questions.planting_list.mending import Mending
from service.questions.planting_list.pollen import ListPollen
from service.questions.planting_list.question import CheckedLine, CheckedList, Mended, PlantingListQuestion
from service.questions.planting_list.reading import LIST_WIDE
from service.questions.planting_list.room import Planted, sketch
from service.questions.planting_list.tally import Tally
from service.questions.planting_list.tree import RootAsked, TreeHere
from service.questions.planting_list.whole import LIST_RULES, Looked, count_facts, whole_facts
from service.questions.suggestion import Judges
from service.reasoning.audit import audit
from service.reasoning.conclusions import Judgement
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook

_GOES_IN = ("fits", "caution")


def check_list(question: PlantingListQuestion, *, rulebook: Rulebook, judges: Judges) -> CheckedList:
    """Will this list work at this place?"""
    if len(question.read.lines) > rulebook.limits[LIST_WIDE].value:
        return _line_by_line(question, rulebook, judges.sweeping)
    checker = LineChecker(question.place, rulebook=rulebook, matcher=judges.asking, sweeping=judges.sweeping)
    checked = _Whole(question.read, checker, judges.asking).answer()
    for judgement in (checked.judgement, *(name.judgement for line in checked.lines for name in line.names)):
        audit.note(judgement)
    return checked


def judge_tally(read: ReadList, tally: Tally, checker: LineChecker, *, matcher: Matcher) -> Judgement:
    """What rules say of a long list by its counts; `read` need hold no lines, only what was skipped and left out."""
    facts = count_facts(read, tally, checker, whole=False)
    return matcher.judge(LIST_RULES, within(facts, checker.known.rulebook.vocabulary.testable(LIST_RULES)))


def _line_by_line(question: PlantingListQuestion, rulebook: Rulebook, matcher: Matcher) -> CheckedList:
    checker, tally = LineChecker(question.place, rulebook=rulebook, matcher=matcher), Tally()
    lines = tuple(checker.check(line) for line in question.read.lines)
    for line in lines:
        tally.add(line)
    judgement = judge_tally(question.read, tally, checker, matcher=matcher)
    return CheckedList(
        place=question.place,
        site=checker.here.place.site,
        site_facts=checker.here.place.facts,
        lines=lines,
        judgement=judgement,
        totals=tally.totals(len(question.read.skipped)),
        whole=False,
        skipped=question.read.skipped,
        sources=question.read.sources,
        limits_hit=question.read.limits_hit,
        order=in_order(lines),
        not_judged=not_judged(checker.here.place.facts, lines, judgement, rulebook=rulebook),
    )


def in_order(lines: Sequence[CheckedLine]) -> tuple[int, ...]:
    """The lines that go into the ground, by the turn that rules give them and then as they were written."""
    going = [line for line in lines if line.verdict in _GOES_IN]
    return tuple(line.line.line for line in sorted(going, key=lambda line: (line.turn, line.line.line)))


class _Whole:
    """A list that is looked at as a whole, on its way to its answer."""

    def __init__(self, read: ReadList, checker: LineChecker, matcher: Matcher) -> None:
        self.read, self.checker, self.matcher = read, checker, matcher
        self.place, self.known, self.rulebook = checker.place, checker.known, checker.known.rulebook
        self.planted = tuple(self._planted())
        self._note_what_is_asked()

    def answer(self, *, mend: bool = True) -> CheckedList:
        lines = self.lines
        tally = Tally()
        for line in lines:
            tally.add(line)
        mended = self._mended(lines) if mend else None
        looked = Looked(self.planted, self.pollen, self.sketch, self.harvest, self.addition, mended)
        judgement = self._judgement(tally, looked)
        here = self.checker.here.place
        return CheckedList(
            place=self.place,
            site=here.site,
            site_facts=here.facts,
            lines=lines,
            judgement=judgement,
            totals=tally.totals(len(self.read.skipped)),
            whole=True,
            skipped=self.read.skipped,
            sources=self.read.sources,
            limits_hit=self.read.limits_hit,
            sketch=self.sketch,
            harvest=self.harvest,
            addition=self.addition,
            mended=mended,
            order=in_order(lines),
            not_judged=not_judged(here.facts, lines, judgement, rulebook=self.rulebook),
        )

    def _planted(self) -> Iterator[Planted]:
        for line in self.read.lines:
            found = (self.checker.tree(line, name) for name in line.names)
            trees = tuple(tree for tree in found if tree is not None)
            if trees:
                yield Planted(line, trees)

    def _note_what_is_asked(self) -> None:
        if self.checker.shelf is not None:
            for one in self.planted:
                for cultivar in one.cultivars:
                    self.checker.shelf.asked_for(cultivar, RootAsked.of(one.line), one.count)

    @cached_property
    def pollen(self) -> ListPollen:
        """The pollen of the trees on the list."""
        trees = {tree.candidate.cultivar.id: tree for one in self.planted for tree in one.trees if one.count > 0}
        return ListPollen(trees.values(), self.place.existing_trees, self.known)

    @cached_property
    def sketch(self) -> Sketch | None:
        """Where the trees could stand."""
        site, standing = self.checker.here.place.site, self.place.existing_trees or ()
        return sketch(self.planted, site, standing=standing, known=self.known)

    @cached_property
    def harvest(self) -> HarvestChart | None:
        """When the trees are picked."""
        return harvest_chart(self.planted, southern=self.checker.here.place.site.southern)

    @cached_property
    def addition(self) -> Addition | None:
        """The fewest trees that give every tree its partner."""
        return smallest_addition(self.pollen, self.checker.trees, self.checker.shelf)

    @cached_property
    def lines(self) -> tuple[CheckedLine, ...]:
        """Every line judged."""
        whole = _WholeList(self.pollen, self.sketch)
        return tuple(
            self.checker.checked(line, self.checker.repeated(line), whole) for line in self.read.lines
        )

    def _mended(self, lines: Sequence[CheckedLine]) -> Mended | None:
        """A repair, where something keeps the list from passing and it is short enough to look for one."""
        bad = any(not one.fits for one in self.planted)
        no_room = self.sketch is not None and any(self.sketch.left_over.values())
        too_many = self._too_many()
        short_enough = bool(self.planted) and len(lines) <= self.known.number("planting_list.repair.lines")
        if not (bad or no_room or too_many or self.pollen.unserved) or not short_enough:
            return None
        return Mending(self.read, self.planted, self.pollen, self.addition, self.checker, self._recheck).mended()

    def _too_many(self) -> bool:
        wanted = self.place.wishes.max_trees
        return wanted is not None and sum(one.count for one in self.planted) > wanted

    def _recheck(self, read: ReadList) -> CheckedList:
        return _Whole(read, self.checker.anew(), self.matcher).answer(mend=False)

    def _judgement(self, tally: Tally, looked: Looked) -> Judgement:
        facts = count_facts(self.read, tally, self.checker, whole=True) | whole_facts(looked, self.checker)
        return self.matcher.judge(LIST_RULES, within(facts, self.rulebook.vocabulary.testable(LIST_RULES)))


@dataclass(frozen=True, slots=True)
class _WholeList:
    """What the whole list adds to its lines."""

    pollen: ListPollen
    sketch: Sketch | None

    def facts(self, line: ReadLine, tree: TreeHere) -> Open:
        if line.trees == 0:
            return {}
        on_tree = [name.cultivar for name in line.names if name.cultivar is not None]
        facts: Open = {**self.pollen.facts(tree.candidate.cultivar.id, on_tree)}
        if self.sketch is not None and "tree.spacing_ft" in tree.facts:
            left_over = self.sketch.left_over.get(line.line, 0)
            facts |= {"line.placed": line.trees - left_over, "line.not_placed": left_over}
        return facts
