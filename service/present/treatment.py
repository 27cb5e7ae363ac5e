"""The answer to a treatment question as plain data: nothing needed, then measures, then products with every reason.

A rate or a dose stands nowhere in it: only where on the label it is printed.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from service.domain.label_use import OWN_STOCK
from service.domain.treatment import TreatmentMeasure
from service.domain.units import Language
from service.present.advice import ORDER, About, Advice
from service.present.sentences import Sentences, listed
from service.present.treatment_phrases import TreatmentPhrases
from service.questions.treatment import BARRING, JudgedProduct, TreatmentAnswer, Waiting
from service.reasoning.conclusions import Conclusion
from service.reasoning.rulebook import Rulebook


def treatment_advice(answer: TreatmentAnswer, *, rulebook: Rulebook, language: Language = "en") -> dict[str, Any]:
    """The envelope with the treatment in it."""
    return _Writer(answer, rulebook, language).envelope()


class _Writer:
    def __init__(self, answer: TreatmentAnswer, rulebook: Rulebook, language: Language) -> None:
        self.answer, self.use, self.catalogue = answer, answer.question.use, rulebook.catalogue
        self.sentences = Sentences(rulebook, language=language)
        self.advice = Advice(rulebook, self.sentences)
        self.phrases = TreatmentPhrases(language)

    def envelope(self) -> dict[str, Any]:
        told = {
            **self.about(),
            **self.need(),
            "measures": self.measures(),
            "do_not": self.do_not(),
            "timing": self.timing(),
            "products": [self.product(one) for one in self.answer.products],
            "before_spraying": self.before_spraying(),
            "reminders": self.advice.reasons(self.answer.judgement.conclusions),
        }
        return self.advice.envelope(told, concluded=list(self.concluded()), not_judged=self.answer.not_judged)

    def concluded(self) -> Iterable[About]:
        """What holds of the whole, then what is said of each product."""
        for judgement in (self.answer.need, self.answer.judgement):
            yield from (About(one) for one in judgement.conclusions)
        for product in self.answer.products:
            yield from (About(one, product.offered.id) for one in product.judgement.conclusions)

    def about(self) -> dict[str, Any]:
        crop, cause = self.use.crop, self.use.cause
        return {
            "crop": crop,
            "crop_name": self.sentences.value("use.crop", crop),
            "disorder": cause.id,
            "name": self.cause_name(),
            "kind": self.answer.facts["cause.kind"],
            "likelihood": cause.confidence,
            "date": self.use.on.isoformat(),
            "stage": self.use.stage,
            "state": self.use.state,
        }

    def cause_name(self) -> str:
        disorder, treatment = self.answer.disorder, self.answer.treatment
        if disorder is not None:
            return self.sentences.name(disorder)
        return (treatment.name if treatment else None) or self.sentences.word(self.use.cause.id)

    def need(self) -> dict[str, Any]:
        """Whether anything is asked for at all."""
        reasons = self.advice.reasons(self.answer.need.conclusions)
        return {
            "need": self.answer.need.concluded.get("need", "product_may_help"),
            "text": " ".join(dict.fromkeys(one["text"] for one in reasons)),
            "reasons": reasons,
        }

    def measures(self) -> list[dict[str, Any]]:
        """What can be done without a product, what can be done now before the rest."""
        if self.answer.need.concluded.get("need") in ("emergency", "refer"):
            return []
        treatment, disorder = self.answer.treatment, self.answer.disorder
        if treatment is not None and treatment.measures:
            return sorted((self.measure(one) for one in treatment.measures), key=lambda told: told["now"] is False)
        known = self.catalogue.diagnosis.measures
        named = [known[name] for name in (disorder.measures if disorder else ())]
        return [self.measure(TreatmentMeasure(one.id, one.kind, one.what)) for one in named]

    def measure(self, one: TreatmentMeasure) -> dict[str, Any]:
        stages = [self.sentences.word(stage) for stage in one.when]
        return {
            "measure": one.id,
            "kind": one.kind,
            "text": self.sentences.wording(one.what),
            "how": None if one.how is None else self.sentences.wording(one.how),
            "when": list(one.when),
            "timing": listed(stages, language=self.phrases.language) or self.phrases.any_time(),
            "now": True if not one.when else None if self.use.stage is None else self.use.stage in one.when,
        }

    def do_not(self) -> list[str]:
        treatment = self.answer.treatment
        return [self.sentences.wording(one) for one in treatment.do_not] if treatment else []

    def timing(self) -> dict[str, Any]:
        """When a product can help at all."""
        treatment = self.answer.treatment
        return {
            "stages": list(treatment.stages) if treatment else [],
            "fits": self.answer.facts.get("cause.stage_fits"),
            "text": self.sentences.wording(treatment.timing) if treatment and treatment.timing else None,
        }

    def product(self, one: JudgedProduct) -> dict[str, Any]:
        record, is_open = one.offered.record, one.verdict != "forbidden"
        return {
            "product": one.offered.id,
            "version": one.offered.version,
            "name": self.product_name(one),
            "demo": record.demo,
            "epa_reg_no": record.epa_reg_no,
            "label_version_date": _day(record.label_version_date),
            "actives": list(record.actives),
            "verdict": one.verdict,
            "next_steps": [step for step in NEXT_STEPS if one.judgement.concluded.get(step)],
            "why": [self.reason(each) for each in self.reasons_for(one)],
            "waits_for": [self.waits(each) for each in one.waiting if not each.left_to_user and is_open],
            "only_if": [self.waits(each) for each in one.waiting if each.left_to_user and is_open],
            **self.harvest(one),
            "reentry": self.phrases.reentry(record.reentry_text),
            "ppe": list(record.ppe or ()),
            "label": self.label(one),
            "uses": {name: one.facts.get(f"product.{fact}") for name, fact in _USES.items()},
            "opens_again": _day(one.dates.opens_again),
            "opens_again_text": self.phrases.opens(one.dates.opens_again),
            "rotation": self.rotation(one),
            "rating": one.facts["product.rating"],
            "rating_low": one.facts["product.rating_low"],
        }

    def product_name(self, one: JudgedProduct) -> str:
        record = one.offered.record
        if one.offered.id == OWN_STOCK:
            return self.phrases.own_stock(", ".join(record.actives))
        return record.product_name or self.phrases.no_name()

    def reasons_for(self, one: JudgedProduct) -> list[Conclusion]:
        """What bars every product, then what is said of this one: what forbids first, and there what to do instead."""
        barring = [each for each in self.answer.need.conclusions if each.outcome in BARRING]
        every = [*barring, *one.judgement.conclusions]
        return sorted(every, key=lambda each: (ORDER[each.outcome], not each.rule.conclude))

    def reason(self, conclusion: Conclusion) -> dict[str, Any]:
        """A reason with those who stand behind it: regulations and publications by name and place."""
        said = self.advice.conclusion(About(conclusion))
        authority = [_authority(one["title"], one["where"]) for one in said["sources"]]
        told = {name: said[name] for name in ("rule", "outcome", "text")}
        return {**told, "authority": authority or [said["basis"] or ""]}

    def waits(self, one: Waiting) -> dict[str, Any]:
        """A prohibition that hangs on what nobody told."""
        needs = [self.sentences.fact(name).needs or self.sentences.fact(name).meaning for name in one.facts]
        return {"rule": one.rule.id, "about": one.rule.title, "facts": list(one.facts), "needs": needs}

    def harvest(self, one: JudgedProduct) -> dict[str, Any]:
        dates = one.dates
        return {
            "earliest_harvest": _day(dates.earliest_harvest),
            "last_use_before_harvest": _day(dates.last_use_before_harvest),
            "harvest_text": self.phrases.harvest(self.use.on, dates.earliest_harvest),
        }

    def label(self, one: JudgedProduct) -> dict[str, Any]:
        """Where the amount stands: on the label, never here; and the stages that the directions name."""
        direction = one.direction
        return {
            "text": self.phrases.label(),
            "where": self.phrases.where(None if direction is None else direction.crop_as_printed),
            "harvest_words": None if direction is None else direction.phi_text,
            "stages_allowed": None if direction is None else _list(direction.stages_allowed),
            "stages_prohibited": [] if direction is None else list(direction.stages_prohibited),
        }

    def rotation(self, one: JudgedProduct) -> dict[str, Any]:
        run = one.facts["product.group_run"]
        assert isinstance(run, int)
        return {"groups": list(one.groups), "in_a_row": run, "text": self.phrases.rotation(one.groups, run)}

    def before_spraying(self) -> list[dict[str, Any]]:
        """What the person who sprays must see to for any product that is not forbidden, each once."""
        pointed = [one for one in self.answer.products if one.verdict != "forbidden"]
        open_facts = dict.fromkeys(
            name for one in pointed for each in one.waiting if each.left_to_user for name in each.facts
        )
        facts = [self.sentences.fact(name) for name in open_facts]
        return [{"fact": fact.name, "check": fact.needs or fact.meaning} for fact in facts]


NEXT_STEPS = ("call_for_help", "report_it", "ask_a_licensed_person", "dispose_of_it")
_ANYWHERE = "in general"  # the place that a citation names where all of a source says it
_USES = {"this_year": "uses", "allowed": "max_uses", "left": "uses_left"}


def _authority(title: str, where: str) -> str:
    """Who stands behind a reason, with the place.

    >>> _authority("40 CFR 156.10 Labeling requirements", "(i)(2)"), _authority("Read the label first", "in general")
    ('40 CFR 156.10 Labeling requirements: (i)(2)', 'Read the label first')
    """
    return title if where == _ANYWHERE else f"{title}: {where}"


def _list(stages: tuple[str, ...] | None) -> list[str] | None:
    return None if stages is None else list(stages)


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
