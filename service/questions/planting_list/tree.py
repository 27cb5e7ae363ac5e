"""A cultivar on the root that a list asks for, at the place: what the variety question says of it, kept for all lines.

What other trees do for its pollen is told by the list and not here: the list itself brings partners, so sentences on
"the trees that stand there" and their points are left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from service.compute.spacing import SizeLimits, size_class
from service.domain.checked_list import RootBasis
from service.domain.crop import TreeSize
from service.domain.planting_list import ReadLine
from service.questions.suggestion.here import VarietiesHere
from service.questions.suggestion.order import FULL_FIT
from service.questions.suggestion.planting import partners_needed
from service.questions.suggestion.question import Candidate, RootChoice
from service.questions.suggestion.roots import named_incompatible
from service.reasoning.conclusions import Conclusion
from service.reasoning.rule import Rule
from service.reasoning.vocabulary import Value

LINE_RULES = "planting-list.line"
_TREES_NEAR = frozenset({
    "pollination.best_standing", "pollination.partners_standing", "pollination.nearest_partner_ft",
    "pollination.bloom_gap_classes", "concluded.partner_distance", "concluded.partner_bloom",
    "concluded.pollination_verdict",
})  # fmt: skip
_AGAINST = ("forbid", "set_aside")
_VERDICTS: Mapping[str, str] = {
    "variety.chill": "chill_verdict",
    "variety.cold": "cold_verdict",
    "variety.frost": "frost_verdict",
    "variety.harvest": "harvest_verdict",
    "variety.height_means": "height_means",
    "variety.training": "training",
}
_STERILE = ("pollen_sterile",)
_KEPT = 8_000


@dataclass(frozen=True, slots=True)
class RootAsked:
    """What a line says of the root: an id, or how big the tree is to grow."""

    rootstock: str | None = None
    size: TreeSize | None = None

    @classmethod
    def of(cls, line: ReadLine) -> RootAsked:
        """What this line says."""
        return cls(
            None if line.rootstock is None else line.rootstock.rootstock, None if line.size is None else line.size.tree
        )


@dataclass(frozen=True, slots=True)
class TreeHere:
    """One cultivar on one root at the place; `facts` is what lines with this tree have in common."""

    candidate: Candidate
    basis: RootBasis
    incompatible: bool
    fit: int
    facts: Mapping[str, Value] = field(repr=False)

    @property
    def fits(self) -> bool:
        """Whether no rule sets it aside and it is not named as failing on its root."""
        return self.candidate.fits and not self.incompatible

    @property
    def conclusions(self) -> tuple[Conclusion, ...]:
        """What the variety question says of it and, where its root is set aside, of the root."""
        of_root = () if self.candidate.root.fits else self.candidate.root.judgement.conclusions
        against = tuple(one for one in of_root if one.outcome in _AGAINST)
        return (*against, *(one for one in self.candidate.judgement.conclusions if not told_by_the_list(one.rule)))


def told_by_the_list(rule: Rule) -> bool:
    """Whether a rule of the variety question speaks of the trees that stand near."""
    return not _TREES_NEAR.isdisjoint(rule.tested)


class TreesHere:
    """The trees of lists at one place: each cultivar on each root judged once, by `here`; `sweep` looks through many.

    `growing` are the cultivars that stand there already, None where nobody said.
    """

    def __init__(self, here: VarietiesHere, sweep: VarietiesHere, growing: frozenset[str] | None) -> None:
        self.here, self.known, self._sweep, self._growing = here, here.known, sweep, growing
        self._start = self.known.number("suggestion.fit.start")
        names = ("spacing.dwarf_below_percent", "spacing.semi_dwarf_below_percent")
        self._sizes = SizeLimits(*(self.known.number(name) for name in names))
        self._testable = self.known.rulebook.vocabulary.testable(LINE_RULES)
        self._judged_crops: set[tuple[int, str]] = set()
        self._trees: dict[tuple[str, RootAsked], TreeHere] = {}
        self._candidates: dict[str, Candidate] = {}

    def tree(self, cultivar: str, asked: RootAsked) -> TreeHere:
        """The cultivar on the root that is asked for, or else on the best one for the place."""
        tree = self._trees.get((cultivar, asked))
        if tree is None:
            if len(self._trees) >= _KEPT:
                self._trees.clear()  # a list of a million lines is no reason to hold as many trees
            tree = self._trees[cultivar, asked] = self._judged(cultivar, asked)
        return tree

    def candidate(self, cultivar: str) -> Candidate:
        """The cultivar on the best root for the place, as it is looked through among many."""
        found = self._candidates.get(cultivar)
        if found is None:
            known = self.known.cultivars[cultivar]
            self._judge_roots(self._sweep, known.crop.id)
            found = self._candidates[cultivar] = self._sweep.candidate(known)
        return found

    def _judge_roots(self, here: VarietiesHere, crop: str) -> None:
        if (id(here), crop) not in self._judged_crops:
            self._judged_crops.add((id(here), crop))
            here.judge_roots([crop])

    def _judged(self, cultivar: str, asked: RootAsked) -> TreeHere:
        known = self.known.cultivars[cultivar]
        self._judge_roots(self.here, known.crop.id)
        root, basis = self._root(cultivar, known.crop.id, asked)
        incompatible = named_incompatible(root.rootstock, cultivar)
        candidate = self.here.on(known, root, incompatible=incompatible)
        fit = self._fit(candidate)
        told = self._told(candidate, asked, basis) | {"line.root_incompatible": incompatible, "variety.fit": fit}
        lasting = next(one.facts for one in self.known.roots[known.crop.id] if one.rootstock is root.rootstock)
        facts = {**lasting, **candidate.facts, **told}
        here = {name: value for name, value in facts.items() if name in self._testable and value is not None}
        return TreeHere(candidate, basis, incompatible, fit, here)

    def _root(self, cultivar: str, crop: str, asked: RootAsked) -> tuple[RootChoice, RootBasis]:
        ranked = self.here.roots.ranked(crop)
        if asked.rootstock is not None:
            listed = [one for one in ranked if one.rootstock is not None and one.rootstock.id == asked.rootstock]
            if listed:
                return listed[0], "listed"
        if asked.size is not None:
            sized = list(self._of_size(ranked, asked.size))
            bearing = [one for one in sized if not named_incompatible(one.rootstock, cultivar)]
            if bearing or sized:
                return (bearing or sized)[0], "size_word"
        best, _ = self.here.roots.best(crop, cultivar)
        return best, "none" if best.rootstock is None else "best_here"

    def _of_size(self, ranked: Iterable[RootChoice], size: TreeSize) -> Iterable[RootChoice]:
        return (
            one for one in ranked if one.rootstock is not None and size_class(one.rootstock, self._sizes) == size
        )

    def _fit(self, candidate: Candidate) -> int:
        """The fit without the points for and against what stands near."""
        judgement = candidate.judgement
        near = sum(rule.points for rule in judgement.rules if told_by_the_list(rule))
        return max(0, min(FULL_FIT, round(self._start + judgement.points - near)))

    def _told(self, candidate: Candidate, asked: RootAsked, basis: RootBasis) -> dict[str, Value | None]:
        """What the variety question comes to, as facts for the rules on lines."""
        concluded, root = candidate.judgement.concluded, candidate.root
        crop, cultivar = candidate.crop, candidate.cultivar
        rules = [*root.judgement.rules, *(one for one in candidate.judgement.rules if not told_by_the_list(one))]
        better = self.here.roots.best(crop.id, cultivar.id)[0]
        grown = None if root.rootstock is None else size_class(root.rootstock, self._sizes)
        return {
            "line.cultivar": cultivar.denomination,
            "line.cultivar_id": cultivar.id,
            "line.crop": crop.id,
            "line.crop_kind": crop.kind,
            "line.crop_wished": candidate.facts.get("wish.crop_named"),
            "line.already_there": None if self._growing is None else cultivar.id in self._growing,
            "line.root_basis": basis,
            "line.root_fits": root.fits,
            "line.better_root": _name_of(better) if better.fits and not root.fits else None,
            "line.size_without_root": None if asked.size is None or basis == "none" else _no_root(basis, asked),
            "line.size_against_root": grown != asked.size if basis == "listed" and asked.size and grown else None,
            **{fact: concluded.get(name) for fact, name in _VERDICTS.items()},
            "variety.root_fit": root.judgement.concluded.get("root_fit"),
            "variety.fits": candidate.fits,
            "variety.set_asides": sum(rule.outcome in _AGAINST for rule in rules),
            "variety.cautions": sum(rule.outcome == "caution" for rule in rules),
            "variety.own_figures": candidate.facts.get("cultivar.own_figures"),
            "variety.recalled_share": candidate.facts.get("cultivar.recalled_share"),
            "pollen.partners_needed": partners_needed(candidate),
            "pollen.gives_none": _gives_none(candidate),
        }


def _no_root(basis: RootBasis, asked: RootAsked) -> bool:
    """Whether the crop has roots in the catalogue, but none that grows to the size asked for."""
    return basis == "best_here" and asked.rootstock is None


def _gives_none(candidate: Candidate) -> bool:
    triploid = bool(candidate.facts.get("pollination.triploid"))
    return triploid or candidate.facts.get("pollination.self_fertility") in _STERILE


def _name_of(choice: RootChoice) -> str | None:
    return None if choice.rootstock is None else choice.rootstock.name
