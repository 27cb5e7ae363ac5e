"""The diagnosis question and its answer, as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from service.compute.evidence import Likelihoods, Split
from service.domain.climate import ClimateSummary
from service.domain.complaint import Complaint
from service.domain.disorder import Disorder, LookAlike
from service.domain.sick_tree import SickTree
from service.domain.sign import Sign
from service.domain.site import Site, StandingTree
from service.intake.complaint_words import Reading
from service.reasoning.conclusions import Judgement
from service.reasoning.vocabulary import Value

Facts = Mapping[str, Value]


@dataclass(frozen=True, slots=True)
class DiagnosisQuestion:
    """What is wrong with this tree?

    `complaint` is the id of a complaint that the customer agreed to; `words` are the customer's own, which are read and
    offered back. `suspected` are disorders (by id) that somebody has named. `existing_trees` is None where nobody said
    which other trees stand near.
    """

    tree: SickTree
    complaint: str | None = None
    words: str | None = None
    suspected: tuple[str, ...] = ()
    date: date | None = None
    site: Site = field(default_factory=Site)
    climate: ClimateSummary | None = None
    existing_trees: tuple[StandingTree, ...] | None = None
    state: str | None = None


@dataclass(frozen=True, slots=True)
class SignsFor:
    """The signs that were told, as one disorder sees them; each tuple in the order in which they were told."""

    typical_seen: tuple[str, ...]
    sometimes_seen: tuple[str, ...]
    against_seen: tuple[str, ...]
    typical_missing: tuple[str, ...]

    @property
    def speaking_for(self) -> tuple[str, ...]:
        """The signs seen that speak for it, the typical ones first."""
        return (*self.typical_seen, *self.sometimes_seen)


@dataclass(frozen=True, slots=True)
class JudgedDisorder:
    """A disorder with the signs that bear on it and what the rules on exclusion say of it for this tree."""

    disorder: Disorder
    signs: SignsFor
    facts: Facts
    judgement: Judgement

    @property
    def ruled_out(self) -> bool:
        """Whether it cannot be the cause: the crop is no host, or a rule sets it aside."""
        no_host = self.facts["disorder.host"] == "not_host"
        return no_host or self.judgement.set_aside or self.judgement.forbidden


@dataclass(frozen=True, slots=True)
class Suspect:
    """A disorder that may be the cause, with its likelihood and what the rules on suspects say of it."""

    cause: JudgedDisorder
    likelihood: float
    judgement: Judgement

    @property
    def disorder(self) -> Disorder:
        """The disorder."""
        return self.cause.disorder


@dataclass(frozen=True, slots=True)
class Leaning:
    """The likeliest cause after an answer; `disorder` is None where that is something that nobody listed."""

    disorder: str | None
    likelihood: float


@dataclass(frozen=True, slots=True)
class NextQuestion:
    """A sign worth asking for, with the cause that each answer would lean to."""

    sign: Sign
    split: Split
    if_yes: Leaning
    if_no: Leaning


@dataclass(frozen=True, slots=True)
class TellApart:
    """The two likeliest causes and what tells one from the other.

    `pair` is what is published of the two, as the first of them sees it; `signs` speak for one of them alone.
    """

    first: Disorder
    second: Disorder
    pair: LookAlike | None
    signs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DiagnosisAnswer:
    """The likely causes, those that are ruled out, what to ask next, and what the rules say of the whole."""

    question: DiagnosisQuestion
    site: Site
    complaint: Complaint | None
    reading: Reading | None
    likelihoods: Likelihoods
    suspects: tuple[Suspect, ...]
    ruled_out: tuple[JudgedDisorder, ...]
    ask_next: tuple[NextQuestion, ...]
    tell_apart: TellApart | None
    judgement: Judgement
    not_judged: tuple[str, ...]
