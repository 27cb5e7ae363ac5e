"""The year of each tree as plain data: its stages, its dated tasks, what to feed and how much to water."""

from __future__ import annotations

import uuid
from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Any

from service.compute.phenology import Mark
from service.domain.season_tree import SeasonTree
from service.domain.units import GALLON_L, OUNCE_G, Language
from service.present.advice import About, Advice
from service.present.choice_words import choice_text
from service.present.sentences import Sentences
from service.questions.season import DatedStage, DatedTask, SeasonAnswer, TreeYear, WaterMonth
from service.reasoning.conclusions import Conclusion
from service.reasoning.rulebook import Rulebook

_WORK = ("forbid", "set_aside", "advise", "caution", "say")
_DIGITS = 1
_NAMESPACE = uuid.uuid5(uuid.NAMESPACE_OID, "fruitwright season task")


def season_advice(answer: SeasonAnswer, *, rulebook: Rulebook, language: Language = "en") -> dict[str, Any]:
    """The envelope with the plan in it."""
    return _Writer(answer, rulebook, language).envelope()


def tree_keys(trees: Iterable[SeasonTree]) -> list[str]:
    """What tells the trees of a plan apart: the label, else crop and cultivar, numbered where two are alike.

    >>> tree_keys([SeasonTree("apple"), SeasonTree("apple"), SeasonTree("peach", label="by the gate")])
    ['apple', 'apple #2', 'by the gate']
    """
    met, keys = Counter[str](), []
    for tree in trees:
        name = tree.label or tree.cultivar or tree.crop
        met[name] += 1
        keys.append(name if met[name] == 1 else f"{name} #{met[name]}")
    return keys


class _Writer:
    def __init__(self, answer: SeasonAnswer, rulebook: Rulebook, language: Language) -> None:
        self.answer, self.rulebook, self.language = answer, rulebook, language
        self.sentences = Sentences(rulebook, language=language, southern=answer.site.southern)
        self.advice = Advice(rulebook, self.sentences)
        self.keys = tree_keys(year.tree for year in answer.trees)

    def envelope(self) -> dict[str, Any]:
        question = self.answer.question
        told = {
            "from": question.start.isoformat(),
            "to": (question.end - timedelta(days=1)).isoformat(),
            "language": self.language,
            "plan": question.plan or None,
            "trees": [self.tree(year, key) for year, key in zip(self.answer.trees, self.keys, strict=True)],
        }
        return self.advice.envelope(told, concluded=list(self.concluded()), not_judged=self.answer.not_judged)

    def concluded(self) -> Iterator[About]:
        """For each tree: what holds of it, then frost by stage, its tasks by date, and its water by month."""
        for year, key in zip(self.answer.trees, self.keys, strict=True):
            yield from (About(one, key) for one in year.judgement.conclusions)
            for stage in year.stages:
                if stage.judgement is not None:
                    yield from (About(one, f"{key}/{stage.stage}") for one in stage.judgement.conclusions)
            for task in (*year.tasks, *year.undated):
                yield from (About(one, f"{key}/{task.task.id}") for one in task.judgement.conclusions)
            for month in year.water:
                where = f"{key}/{month.year}-{month.month:02d}"
                yield from (About(one, where) for one in month.judgement.conclusions)

    def tree(self, year: TreeYear, key: str) -> dict[str, Any]:
        tree = year.tree
        cultivar = None if tree.cultivar is None else self.rulebook.catalogue.cultivars[tree.cultivar]
        named = tree.label or (cultivar.denomination if cultivar else self.sentences.crop(tree.crop))
        return {
            "tree": key,
            "named": named,
            "crop": tree.crop,
            "crop_name": self.sentences.crop(tree.crop),
            "cultivar": tree.cultivar,
            "name": None if cultivar is None else cultivar.denomination,
            "bloom": self.bloom(year),
            "reasons": self.advice.reasons(year.judgement.conclusions),
            "stages": [self.stage(one) for one in year.stages],
            "tasks": [self.task(one, key) for one in year.tasks],
            "undated": [self.described(one) for one in year.undated],
            "nitrogen": _nitrogen(year),
            "water": [self.month(one) for one in year.water],
        }

    def bloom(self, year: TreeYear) -> dict[str, Any]:
        bloom = year.bloom
        return {
            "basis": year.bloom_basis,
            "date": None if bloom is None else bloom.day.isoformat(),
            "spread_days": None if bloom is None else round(bloom.spread_days),
        }

    def stage(self, one: DatedStage) -> dict[str, Any]:
        judged = one.judgement
        return {
            "stage": one.stage,
            "name": choice_text(one.stage, language=self.language),
            **_days(one.mark),
            "kill_10_percent_f": one.kill_10_f,
            "kill_10_percent_c": _celsius(one.kill_10_f),
            "kill_90_percent_f": one.kill_90_f,
            "kill_90_percent_c": _celsius(one.kill_90_f),
            "frost_risk": None if judged is None else judged.concluded.get("frost_risk"),
            "reasons": [] if judged is None else self.advice.reasons(judged.conclusions),
        }

    def task(self, one: DatedTask, key: str) -> dict[str, Any]:
        assert one.mark is not None
        name = f"{self.answer.question.plan}/{key}/{one.task.id}/{one.season}"
        return {"uid": str(uuid.uuid5(_NAMESPACE, name)), **self.described(one), **_days(one.mark)}

    def described(self, one: DatedTask) -> dict[str, Any]:
        """A task without its days."""
        what = one.task.what
        work = [conclusion for conclusion in one.judgement.conclusions if conclusion.outcome in _WORK]
        cautions = self.advice.cautions(conclusion.rule for conclusion in one.judgement.conclusions)
        return {
            "task": one.task.id,
            "kind": one.task.kind,
            "kind_name": choice_text(one.task.kind, language=self.language),
            "what": what.text_es if self.language == "es" else what.text,
            "standing": one.standing,
            "every_days": None if one.every_days is None else round(one.every_days),
            "text": " ".join(self.texts(work)),
            "why": " ".join(dict.fromkeys(self.sentences.why(conclusion) for conclusion in work)),
            "cautions": [caution["text"] for caution in cautions],
            "reasons": self.advice.reasons(one.judgement.conclusions),
        }

    def texts(self, work: Iterable[Conclusion]) -> Iterable[str]:
        """The sentences once each: what to do first, then what to beware of."""
        ordered = sorted(work, key=lambda one: (_WORK.index(one.outcome), one.rule.priority))
        return dict.fromkeys(self.sentences.text(one) for one in ordered)

    def month(self, one: WaterMonth) -> dict[str, Any]:
        each = one.gallons_each_time
        return {
            "month": f"{one.year}-{one.month:02d}",
            "gallons_a_day": round(one.gallons_a_day, _DIGITS),
            "litres_a_day": round(one.gallons_a_day * GALLON_L, _DIGITS),
            "gallons_each_time": None if each is None else round(each, _DIGITS),
            "litres_each_time": None if each is None else round(each * GALLON_L, _DIGITS),
            "basis": one.basis,
            "level": one.judgement.concluded.get("water_level"),
            "reasons": self.advice.reasons(one.judgement.conclusions),
        }


def _days(mark: Mark) -> dict[str, Any]:
    spread = timedelta(days=round(mark.spread_days))
    return {
        "from": mark.first.isoformat(),
        "to": mark.last.isoformat(),
        "earliest": _text(mark.first, -spread),
        "latest": _text(mark.last, spread),
        "basis": mark.basis,
        "spread_days": round(mark.spread_days),
    }


def _text(day: date, shift: timedelta) -> str:
    return (day + shift).isoformat()


def _celsius(fahrenheit: float | None) -> float | None:
    return None if fahrenheit is None else round((fahrenheit - 32) / 1.8, _DIGITS)


def _nitrogen(year: TreeYear) -> dict[str, Any] | None:
    fed = year.fed
    if fed.nitrogen is None:
        return None
    dose = fed.nitrogen.year_oz / fed.doses
    return {
        "year_oz": round(fed.nitrogen.year_oz, _DIGITS),
        "year_g": round(fed.nitrogen.year_oz * OUNCE_G),
        "doses": fed.doses,
        "dose_oz": round(dose, _DIGITS),
        "dose_g": round(dose * OUNCE_G),
        "product_oz": fed.product_oz,
        "product_g": None if fed.product_oz is None else round(fed.product_oz * OUNCE_G),
        "limited_by": fed.nitrogen.bound_by,
    }
