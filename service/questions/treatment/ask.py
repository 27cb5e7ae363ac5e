"""The one way through a treatment: whether anything is asked for, then each product, then the answer as a whole.

A rule on the need that forbids bars every product; a prohibition that waits for what nobody knows lets none be
allowed. A label may print several entries for one crop: the one that suits the use best counts.
"""

from __future__ import annotations

from service.domain.label import LabelSite
from service.domain.label_use import Offered
from service.questions.suggestion import Judges
from service.questions.treatment.case_facts import case_facts
from service.questions.treatment.product_facts import Products, directions_for
from service.questions.treatment.question import Facts, JudgedProduct, TreatmentAnswer, TreatmentQuestion, Waiting
from service.questions.treatment.waiting import waiting_prohibitions
from service.questions.treatment.windows import dates_of
from service.questions.worth_asking import worth_asking
from service.reasoning.audit import audit
from service.reasoning.conclusions import Judgement
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook

NEED_RULES = "treatment.need"
PRODUCT_RULES = "treatment.product"
ANSWER_RULES = "treatment.answer"
VERDICTS = ("allowed", "caution", "forbidden")
NOTHING_SPEAKS_AGAINST = "product_may_help"
_WEAK = ("poor", "none")
_RATINGS = ("excellent", "good", "fair", "not_rated", "no_data", *_WEAK)
_SIGNAL_WORDS = ("none", "CAUTION", "WARNING", "DANGER")
_BEES = ("no_insecticide", "III", "II", "unrated", "I")


def point(question: TreatmentQuestion, *, rulebook: Rulebook, judges: Judges) -> TreatmentAnswer:
    """What can be done about a cause, and what each product's label says to it."""
    return _Way(question, rulebook, judges).answer()


class _Way:
    """One question on its way to its answer."""

    def __init__(self, question: TreatmentQuestion, rulebook: Rulebook, judges: Judges) -> None:
        self.question, self.rulebook, self.judges = question, rulebook, judges
        self.catalogue = rulebook.catalogue
        self.facts = case_facts(question.use, self.catalogue)
        self.products = Products(question, self.catalogue)
        self.need = self.judge(NEED_RULES, {}, by=judges.asking)
        self.need_waiting = waiting_prohibitions(self.need, rulebook)
        self.barred = self.need.forbidden or self.need.set_aside

    def answer(self) -> TreatmentAnswer:
        judged = sorted(map(self.judged, self.question.offered), key=_order)
        cause = self.question.use.cause.id
        return TreatmentAnswer(
            question=self.question,
            disorder=self.catalogue.disorders.get(cause),
            treatment=self.catalogue.label.treatments.get(cause),
            need=self.need,
            need_waiting=self.need_waiting,
            products=tuple(judged),
            judgement=self.judge(ANSWER_RULES, self.whole(judged), by=self.judges.asking),
            facts=self.facts,
            not_judged=self.unknown(judged),
        )

    def judge(self, ruleset: str, own: Facts, *, by: Matcher) -> Judgement:
        """The judgement of a ruleset on those of the facts that it may test."""
        testable = self.rulebook.vocabulary.testable(ruleset)
        facts = {name: value for name, value in {**self.facts, **own}.items() if name in testable}
        judgement = by.judge(ruleset, facts)
        audit.note(judgement)
        return judgement

    def judged(self, offered: Offered) -> JudgedProduct:
        """A product under the directions that come out mildest among those that print the crop and the pest."""
        each = [self.under(offered, direction) for direction in directions_for(offered.record, self.question.use)]
        return min(each, key=_order)

    def under(self, offered: Offered, direction: LabelSite | None) -> JudgedProduct:
        record, log = offered.record, self.products.log(offered, direction)
        facts = self.products.facts(offered, direction)
        judgement = self.judge(PRODUCT_RULES, facts, by=self.judges.sweeping)
        return JudgedProduct(
            offered=offered,
            direction=direction,
            facts=facts,
            judgement=judgement,
            waiting=(*self.need_waiting, *self.waiting(judgement, told=bool(facts["product.label_told"]))),
            dates=dates_of(log, facts, self.rulebook),
            groups=tuple(sorted(self.products.substances.one_site_groups(record.actives, record))),
            barred=self.barred,
        )

    def waiting(self, judgement: Judgement, *, told: bool) -> tuple[Waiting, ...]:
        """What waits for a fact; of stock without its label a rule says that the container is read first, once."""
        found = waiting_prohibitions(judgement, self.rulebook)
        return found if told else tuple(one for one in found if not any(map(_of_label, one.facts)))

    def whole(self, judged: list[JudgedProduct]) -> Facts:
        """The facts of the answer as a whole."""
        pointed = [one for one in judged if one.verdict != "forbidden"]
        counts: Facts = {
            f"answer.{verdict}": sum(one.verdict == verdict for one in judged) for verdict in VERDICTS
        }  # fmt: skip
        treatment = self.catalogue.label.treatments.get(self.question.use.cause.id)
        own = [one for one in judged if one.offered.owned]
        return {
            **counts,
            "answer.need": self.need.concluded.get("need", NOTHING_SPEAKS_AGAINST),
            "answer.products": len(judged),
            "answer.points": bool(pointed),
            "answer.families": _gathered(pointed, "product.families"),
            "answer.roles": _gathered(pointed, "product.roles"),
            "answer.signal_words": _gathered(pointed, "product.signal_word"),
            "answer.aquatic_toxic": any(one.facts["product.aquatic_toxic"] for one in pointed),
            "answer.concentrate": any(one.facts.get("product.formulation") not in ("RTU", "dust", "granule", "bait")
                                      for one in pointed),
            "answer.measures": len(treatment.measures) if treatment else 0,
            "answer.own_stock": bool(own),
            "answer.own_stock_barred": any(bool(one.judgement.concluded.get("dispose_of_it")) for one in own),
        }  # fmt: skip

    def unknown(self, judged: list[JudgedProduct]) -> tuple[str, ...]:
        """The facts worth asking for, each question once: first what keeps a product from being allowed."""
        left = [one for one in judged if one.verdict != "forbidden"]
        gating = (name for one in left for each in one.waiting if not each.left_to_user for name in each.facts)
        cases = [{**self.facts, **one.facts} for one in left if one.facts["product.label_told"]]
        others = worth_asking(cases, self.rulebook, (NEED_RULES, PRODUCT_RULES))
        more = worth_asking([self.facts], self.rulebook, (NEED_RULES,))
        by_question: dict[str | None, str] = {}
        for name in (*gating, *others, *more):
            by_question.setdefault(self.rulebook.vocabulary.facts[name].needs, name)
        return tuple(by_question.values())


def _order(one: JudgedProduct) -> tuple[int, bool, int, int, int, str]:
    """The mildest verdict first; then what is not known to be weak, what harms people and bees least, what works."""
    facts, rating, low = one.facts, str(one.facts["product.rating"]), str(one.facts["product.rating_low"])
    signal = facts.get("product.signal_word")
    return (
        VERDICTS.index(one.verdict),
        rating in _WEAK,
        len(_SIGNAL_WORDS) if signal is None else _SIGNAL_WORDS.index(str(signal)),
        _BEES.index(str(facts["product.bee_class"])),
        _RATINGS.index(low),
        one.offered.id,
    )


def _of_label(fact: str) -> bool:
    return fact.startswith("product.")


def _gathered(products: list[JudgedProduct], fact: str) -> tuple[str, ...]:
    """The values of a fact over products, each once."""
    found: set[str] = set()
    for one in products:
        value = one.facts.get(fact)
        found |= set(value) if isinstance(value, tuple) else {str(value)} if value is not None else set()
    return tuple(sorted(found))


