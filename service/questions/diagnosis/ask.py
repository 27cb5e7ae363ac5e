"""The one way through a diagnosis: rules exclude, computation weighs, rules word what is left.

Every disorder that the crop may have is judged once by the rules on exclusion, which set aside or give points; signs,
host, season and points become likelihoods; the likeliest causes are judged again, and then the answer as a whole. A
disorder of which the crop is no host is never weighed, whatever is seen: it can only stand among those ruled out.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from service.compute.evidence import Likelihoods, weigh
from service.domain.complaint import Complaint
from service.domain.disorder import Disorder
from service.intake.complaint_words import Reading
from service.questions.diagnosis.asking import questions_next, tell_apart
from service.questions.diagnosis.facts import answer_facts, case_facts, disorder_facts, signs_for, suspect_facts
from service.questions.diagnosis.gaps import unknown_of_causes
from service.questions.diagnosis.heat import by_heat
from service.questions.diagnosis.officials import official_facts, regulated_in
from service.questions.diagnosis.prepared import Prepared, prepare
from service.questions.diagnosis.question import (
    DiagnosisAnswer,
    DiagnosisQuestion,
    Facts,
    JudgedDisorder,
    SignsFor,
    Suspect,
)
from service.questions.suggestion import Judges
from service.questions.suggestion.place import with_climate
from service.reasoning.audit import audit
from service.reasoning.conclusions import Judgement
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook

EXCLUSION_RULES = "diagnosis.exclusion"
SUSPECT_RULES = "diagnosis.suspect"
ANSWER_RULES = "diagnosis.answer"
_SEASON_LIMITS = {"near": "season.near", "out": "season.out"}


def diagnose(question: DiagnosisQuestion, *, rulebook: Rulebook, judges: Judges) -> DiagnosisAnswer:
    """What is wrong with this tree, as far as what is told can say."""
    return _Way(question, prepare(rulebook), judges).answer()


class _Way:
    """One question on its way to its answer."""

    def __init__(self, question: DiagnosisQuestion, prepared: Prepared, judges: Judges) -> None:
        self.question, self.prepared, self.judges = question, prepared, judges
        self.tree, self.rulebook = question.tree, prepared.rulebook
        self.site = with_climate(question.site, question.climate)
        self.complaint = self.told_complaint()
        self.facts = case_facts(question, self.site, self.rulebook)
        self.heat = by_heat(question, self.rulebook)
        self.reading = self.read_words()
        self.by_ruleset: dict[str, Facts] = {}

    def answer(self) -> DiagnosisAnswer:
        judged = {one.id: self.judged(one) for one in self.prepared.hosted(self.tree.crop)}
        causes = {name: one for name, one in judged.items() if not one.ruled_out}
        likelihoods = self.likelihoods(causes)
        suspects = self.suspects(likelihoods, causes)
        return DiagnosisAnswer(
            question=self.question,
            site=self.site,
            complaint=self.complaint,
            reading=self.reading,
            likelihoods=likelihoods,
            suspects=suspects,
            ruled_out=self.ruled_out(judged.values()),
            ask_next=questions_next(likelihoods, self.tree, self.prepared),
            tell_apart=tell_apart(likelihoods, self.tree, self.prepared),
            judgement=self.whole(likelihoods, causes),
            not_judged=unknown_of_causes([{**self.facts, **one.cause.facts} for one in suspects], self.rulebook),
        )

    def told_complaint(self) -> Complaint | None:
        name = self.question.complaint
        return None if name is None else self.rulebook.catalogue.complaints[name]

    def read_words(self) -> Reading | None:
        words, crop = self.question.words, self.tree.crop
        return None if words is None else self.prepared.words.read(words, crop=crop, signs=self.prepared.askable(crop))

    def judged(self, disorder: Disorder) -> JudgedDisorder:
        signs = signs_for(disorder, self.tree.seen)
        own = disorder_facts(disorder, signs, tree=self.tree, prepared=self.prepared)
        if disorder.id in self.heat:
            own["disorder.by_heat"] = self.heat[disorder.id]
        here = regulated_in(self.question.state, disorder, self.rulebook.catalogue)
        if here is not None:
            own["disorder.regulated_in_state"] = here
        return JudgedDisorder(disorder, signs, own, self.judge(EXCLUSION_RULES, own, by=self.judges.sweeping))

    def judge(self, ruleset: str, own: Facts, *, by: Matcher) -> Judgement:
        """The judgement of a ruleset on those of the facts that it may test."""
        judgement = by.judge(ruleset, {**self.testable(ruleset), **self.only_testable(ruleset, own)})
        audit.note(judgement)
        return judgement

    def testable(self, ruleset: str) -> Facts:
        """The facts of the case that a ruleset may test."""
        if ruleset not in self.by_ruleset:
            self.by_ruleset[ruleset] = self.only_testable(ruleset, self.facts)
        return self.by_ruleset[ruleset]

    def only_testable(self, ruleset: str, facts: Facts) -> Facts:
        testable = self.rulebook.vocabulary.testable(ruleset)
        return {name: value for name, value in facts.items() if name in testable}

    def likelihoods(self, causes: Mapping[str, JudgedDisorder]) -> Likelihoods:
        start = {name: self.prepared.units(self.points(one)) for name, one in causes.items()}
        something_else = self.prepared.units(self.prepared.points("something_else"))
        return weigh(self.prepared.table, start, something_else=something_else, answers=self.tree.seen.answers)

    def points(self, cause: JudgedDisorder) -> float:
        """What speaks for a cause besides its signs: how often the crop has it, season, complaint, and the rules."""
        host, season = str(cause.facts["disorder.host"]), cause.facts.get("disorder.season")
        points = float(cause.judgement.points)
        if host != "common":
            points += self.prepared.points(f"host.{host}")
        if season in _SEASON_LIMITS:
            points += self.prepared.points(_SEASON_LIMITS[str(season)])
        if self.complaint is not None and cause.disorder.id in self.complaint.disorders:
            points += self.prepared.points("complaint")
        return points

    def suspects(self, likelihoods: Likelihoods, causes: Mapping[str, JudgedDisorder]) -> tuple[Suspect, ...]:
        """The likeliest causes, each worded by the rules."""
        least, most = self.prepared.points("shown.least"), self.prepared.most("shown.most")
        shown = [(name, share) for name, share in likelihoods.ranked[:most] if share >= least]
        return tuple(
            Suspect(
                causes[name],
                share,
                self.judge(SUSPECT_RULES, suspect_facts(likelihoods, place, causes), by=self.judges.asking),
            )
            for place, (name, share) in enumerate(shown)
        )

    def ruled_out(self, judged: Iterable[JudgedDisorder]) -> tuple[JudgedDisorder, ...]:
        """Disorders that something pointed to and that cannot be it: those commonly confused first."""
        out = [one for one in judged if one.ruled_out and self.pointed_to(one.disorder)]
        strangers = self.prepared.mistaken(self.tree.crop, self.question.suspected)
        out += [self.judged(one) for one in strangers if self.pointed_to(one)]
        return tuple(sorted(out, key=self.order_of_naming)[: self.prepared.most("shown.ruled_out")])

    def pointed_to(self, disorder: Disorder) -> bool:
        """Whether a typical sign, the complaint, somebody, or a sign of what it is confused with has pointed to it."""
        named = disorder.id in self.question.suspected
        complained = self.complaint is not None and disorder.id in self.complaint.disorders
        signs = signs_for(disorder, self.tree.seen)
        return named or complained or bool(signs.typical_seen) or self.shared_with_another(disorder, signs)

    def shared_with_another(self, disorder: Disorder, signs: SignsFor) -> bool:
        """Whether a sign that may go with it is typical of what to look for in its place on this crop."""
        known = self.rulebook.catalogue.disorders
        others = (known[one] for one in disorder.confused_on.get(self.tree.crop, ()))
        return any(not set(signs.sometimes_seen).isdisjoint(one.typical) for one in others)

    def order_of_naming(self, one: JudgedDisorder) -> tuple[bool, bool, int, str]:
        asked_for = one.disorder.id in self.question.suspected
        confused = self.tree.crop in one.disorder.confused_on
        return not asked_for, not confused, -len(one.signs.speaking_for), one.disorder.id

    def whole(self, likelihoods: Likelihoods, causes: Mapping[str, JudgedDisorder]) -> Judgement:
        least = self.prepared.points("shown.regulated")
        likelier = [causes[name].disorder for name, likely in likelihoods.ranked if likely >= least]
        facts = answer_facts(likelihoods, causes, self.tree.seen, likelier=likelier)
        facts |= official_facts(likelier, self.question.state, self.rulebook.catalogue)
        offered = 0 if self.reading is None else len(self.reading.complaints) + len(self.reading.signs)
        return self.judge(ANSWER_RULES, {**facts, "answer.offered": offered}, by=self.judges.asking)
