"""Judges the lines of lists at one place, one by one: a list of any length can be led past, in little memory.

    checker = LineChecker(place, rulebook=rulebook, matcher=matcher)
    for line in lines:
        checked = checker.check(line)

Lines that say the same come to the same, so what was judged is kept. What the list as a whole adds to a line (pollen,
room) is brought by whoever looks at the whole list.
"""

from __future__ import annotations

from collections.abc import Hashable
from copy import copy
from typing import Protocol

from service.domain.planting_list import ReadLine, ReadName
from service.questions.planting_list.line_facts import Open, line_facts, within
from service.questions.planting_list.question import CheckedLine, CheckedName, ListPlace
from service.questions.planting_list.repeats import Repeated, Repetition
from service.questions.planting_list.stock import Shelf
from service.questions.planting_list.substitutes import Substitutes
from service.questions.planting_list.tree import LINE_RULES, RootAsked, TreeHere, TreesHere
from service.questions.suggestion import Candidate
from service.questions.suggestion.cases import growing_there
from service.questions.suggestion.here import VarietiesHere
from service.questions.suggestion.prepared import prepare
from service.questions.suggestion.question import SuggestionQuestion
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_KEPT = 8_000
_NO_TREE: dict[str, Value] = {}


class WholeList(Protocol):
    """What the list as a whole adds to the facts of one name of a line."""

    def facts(self, line: ReadLine, tree: TreeHere) -> Open:
        """Pollen and room for this tree of this line."""
        ...


class LineChecker:
    """Judges lines at one place; `sweeping` judges what is looked through for substitutes and additions."""

    def __init__(
        self, place: ListPlace, *, rulebook: Rulebook, matcher: Matcher, sweeping: Matcher | None = None
    ) -> None:
        known = prepare(rulebook)
        question = SuggestionQuestion(place.site, wishes=place.wishes, climate=place.climate)
        existing = place.existing_trees
        self.place, self.known = place, known
        self.here = VarietiesHere(question, known, matcher)
        sweep = self.here if sweeping is None else VarietiesHere(question, known, sweeping)
        self.trees = TreesHere(self.here, sweep, None if existing is None else growing_there(existing))
        self._testable = rulebook.vocabulary.testable(LINE_RULES)
        here = {name: value for name, value in self.here.place.facts.items() if name in self._testable}
        self._judge = matcher.sharing(LINE_RULES, here)
        self._place_facts = frozenset(here)
        self._lasting: dict[int, tuple[TreeHere, dict[str, Value]]] = {}
        self._begin()

    def _begin(self) -> None:
        """What belongs to one list and not to the place."""
        self.shelf = None if self.place.stock is None else Shelf(self.place.stock)
        self.substitutes = Substitutes(self.trees, self.shelf)
        self._repetition = Repetition()
        self._names: dict[Hashable, CheckedName] = {}

    def anew(self) -> LineChecker:
        """A checker for another list at the same place; the trees that were judged are kept."""
        other = copy(self)
        other._begin()
        return other

    def check(self, line: ReadLine) -> CheckedLine:
        """The line judged by itself; lines come in the order of the list, each once."""
        return self.checked(line, self.repeated(line))

    def repeated(self, line: ReadLine) -> Repeated:
        """Whether the line repeats one that came before; for a line that is not judged here but was before."""
        return self._repetition.note(line)

    def checked(self, line: ReadLine, repeated: Repeated, whole: WholeList | None = None) -> CheckedLine:
        """The line judged with what the whole list adds to it."""
        names = line.names or (None,)
        if whole is None:
            judged = tuple(self._kept(line, name, repeated) for name in names)
        else:
            judged = tuple(self._judged(line, name, repeated, whole) for name in names)
        return CheckedLine(line, judged, repeats=repeated.line)

    def tree(self, line: ReadLine, name: ReadName) -> TreeHere | None:
        """The tree that a name of a line means; None where nobody knows."""
        return None if name.cultivar is None else self.trees.tree(name.cultivar, RootAsked.of(line))

    def _kept(self, line: ReadLine, name: ReadName | None, repeated: Repeated) -> CheckedName:
        if name is None:
            return self._judged(line, name, repeated, None)
        asked = (name, line.quantity, line.rootstock, line.size, line.marks, len(line.names), repeated.word)
        judged = self._names.get(asked)
        if judged is None:
            if len(self._names) >= _KEPT:
                self._names.clear()
            judged = self._names[asked] = self._judged(line, name, repeated, None)
        return judged

    def _judged(
        self, line: ReadLine, name: ReadName | None, repeated: Repeated, whole: WholeList | None
    ) -> CheckedName:
        catalogue = self.known.rulebook.catalogue
        own = line_facts(line, name, repeated.word, catalogue=catalogue)
        tree = None if name is None else self.tree(line, name)
        substitutes = self._add_tree(own, line, tree) if tree is not None else ()
        if tree is not None and whole is not None:
            own |= whole.facts(line, tree)
        lasting = _NO_TREE if tree is None else self._facts_of(tree)
        judgement = self._judge(lasting, within(own, self._testable))
        short = own.get("stock.short_by")
        return CheckedName(name, tree, judgement, substitutes, short if isinstance(short, int) else None)

    def _add_tree(self, own: Open, line: ReadLine, tree: TreeHere) -> tuple[Candidate, ...]:
        """Stock and substitutes; what the tree brings itself lasts and is not repeated here."""
        cultivar = tree.candidate.cultivar.id
        short: Value | None = None
        if self.shelf is not None:
            own |= self.shelf.facts(cultivar, RootAsked.of(line), line.trees)
            short = own["stock.short_by"]
        if tree.fits and not short:
            return ()
        found = self.substitutes.of(cultivar)
        if found:
            own["line.substitute"] = found[0].cultivar.denomination
            own["line.substitute_fit"] = found[0].fit
        return found

    def _facts_of(self, tree: TreeHere) -> dict[str, Value]:
        """The lasting facts of a tree without those of the place, which all trees share."""
        found = self._lasting.get(id(tree))
        if found is None:
            if len(self._lasting) >= _KEPT:
                self._lasting.clear()
            facts = {name: value for name, value in tree.facts.items() if name not in self._place_facts}
            found = self._lasting[id(tree)] = tree, facts  # with the tree, so that no other gets its number
        return found[1]
