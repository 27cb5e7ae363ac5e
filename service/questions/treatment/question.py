"""What is asked about a treatment, and what comes back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from service.domain.disorder import Disorder
from service.domain.label import LabelRecord, LabelSite
from service.domain.label_use import Offered, Use
from service.domain.treatment import Treatment
from service.reasoning.conclusions import Judgement
from service.reasoning.rule import Rule
from service.reasoning.vocabulary import Value

Facts = dict[str, Value]


@dataclass(frozen=True, slots=True)
class TreatmentQuestion:
    """A use, the products asked about, and the shelf that they are told apart from."""

    use: Use
    offered: tuple[Offered, ...]
    shelf: tuple[LabelRecord, ...] = ()


@dataclass(frozen=True, slots=True)
class Waiting:
    """A rule that forbids, that nothing known speaks against, and that waits for facts nobody knows.

    `left_to_user`: all of them are seen to by the person who sprays, so that it stands as a condition.
    """

    rule: Rule
    facts: tuple[str, ...]
    left_to_user: bool


@dataclass(frozen=True, slots=True)
class Dates:
    """The days that follow from a label and the log; None where the label or the log gives none.

    `opens_again` is set only where a gap or a count keeps the product back until then.
    """

    earliest_harvest: date | None = None
    last_use_before_harvest: date | None = None
    opens_again: date | None = None


@dataclass(frozen=True, slots=True)
class JudgedProduct:
    """One product under the directions that suit the use best, and what the rules say of it.

    `direction` None: no printed entry is read as this crop.
    """

    offered: Offered
    direction: LabelSite | None
    facts: Facts
    judgement: Judgement
    waiting: tuple[Waiting, ...]
    dates: Dates
    groups: tuple[str, ...]
    barred: bool

    @property
    def verdict(self) -> str:
        """`forbidden` outranks `caution`, and that `allowed`; whoever waits for a fact is never `allowed`."""
        if self.barred or self.judgement.forbidden or self.judgement.set_aside:
            return "forbidden"
        minds = any(rule.outcome in ("caution", "mark_down") for rule in self.judgement.rules)
        return "caution" if minds or any(not one.left_to_user for one in self.waiting) else "allowed"


@dataclass(frozen=True, slots=True)
class TreatmentAnswer:
    """What the case asks for, what can be done, and each product with its verdict; the mildest verdict first."""

    question: TreatmentQuestion
    disorder: Disorder | None
    treatment: Treatment | None
    need: Judgement
    need_waiting: tuple[Waiting, ...]
    products: tuple[JudgedProduct, ...]
    judgement: Judgement
    facts: Mapping[str, Value]
    not_judged: tuple[str, ...]
