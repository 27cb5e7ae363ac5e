"""The answer to the pruning question as plain data: when, the cuts in the order of work, and what to leave for now."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from service.domain.month_day import season_day
from service.domain.units import INCH_CM, Language, feet_to_metres
from service.present.advice import About, Advice
from service.present.amounts import amount_text, amount_told, amounts_of
from service.present.sentences import Sentences
from service.questions.pruning import WINDOWS, DatedWindow, JudgedCut, JudgedVariety, JudgedYear, PruningAnswer
from service.reasoning.conclusions import Conclusion
from service.reasoning.rulebook import Rulebook

_WORK = ("advise", "caution", "set_aside", "forbid")
_SUMMER = tuple(name for name in WINDOWS if name != "main")


def pruning_advice(answer: PruningAnswer, *, rulebook: Rulebook, language: Language = "en") -> dict[str, Any]:
    """The envelope with the plan in it."""
    return _Writer(answer, rulebook, language).envelope()


class _Writer:
    def __init__(self, answer: PruningAnswer, rulebook: Rulebook, language: Language) -> None:
        self.answer, self.rulebook, self.language = answer, rulebook, language
        self.southern = answer.site.southern
        self.sentences = Sentences(rulebook, language=language, southern=self.southern)
        self.advice = Advice(rulebook, self.sentences)
        self.dated = answer.question.date is not None

    def envelope(self) -> dict[str, Any]:
        now, later = self.sorted_out()
        told = {
            **self.tree(),
            "when": self.when(),
            "steps": self.steps(now),
            "cuts": [self.cut(one) for one in now if one.cut.kind != "care"],
            "not_now": [self.postponed(one) for one in later],
            "summer_checks": [self.check(one) for one in self.answer.cuts if one.season in _SUMMER and not one.refused],
            "wires": [{"height_in": height, "height_cm": round(height * INCH_CM)} for height in self.answer.wires_in],
            "varieties": [self.variety(one) for one in self.answer.varieties],
            "renovation": [self.year(one) for one in self.answer.renovation],
        }
        return self.advice.envelope(told, concluded=list(self.concluded()), not_judged=self.answer.not_judged)

    def sorted_out(self) -> tuple[list[JudgedCut], list[JudgedCut]]:
        """The cuts to make now, and the others; where no day is asked about, all but the refused may be made."""
        now = [one for one in self.answer.cuts if one.verdict == "now" or (one.verdict is None and not self.dated)]
        return now, [one for one in self.answer.cuts if one not in now]

    def concluded(self) -> Iterable[About]:
        """What holds of the whole tree and of the day, then of each cut, variety and year."""
        yield from (About(one) for one in (*self.answer.tree.conclusions, *self.answer.season.conclusions))
        for cut in self.answer.cuts:
            yield from (About(one, cut.cut.id) for one in cut.judgement.conclusions)
        for variety in self.answer.varieties:
            yield from (About(one, variety.variety.name) for one in variety.judgement.conclusions)
        for year in self.answer.renovation:
            yield from (About(one, f"year {year.step.year}") for one in year.judgement.conclusions)

    def tree(self) -> dict[str, Any]:
        tree, concluded = self.answer.question.tree, self.answer.tree.concluded
        cultivar = None if tree.cultivar is None else self.rulebook.catalogue.cultivars[tree.cultivar]
        return {
            "crop": tree.crop,
            "crop_name": self.sentences.crop(tree.crop),
            "cultivar": tree.cultivar,
            "name": None if cultivar is None else cultivar.denomination,
            "life_stage": concluded.get("life_stage"),
            "training": self.answer.training,
            "training_assumed": "training_assumed" in concluded,
            "canopy_cap_percent": concluded.get("canopy_cap"),
            "reasons": self.advice.reasons(self.answer.tree.conclusions),
        }

    def when(self) -> dict[str, Any]:
        season = self.answer.season
        reasons = self.advice.reasons(season.conclusions)
        said = [self.sentences.text(conclusion) for conclusion in season.conclusions if conclusion.outcome in _WORK]
        return {
            "verdict": season.concluded.get("when_verdict"),
            "weather": season.concluded.get("weather_verdict"),
            "main_season": self.answer.tree.concluded.get("main_season"),
            "text": " ".join(said),
            "days": self.days("main"),
            "reasons": reasons,
        }

    def days(self, name: str | None) -> dict[str, Any] | None:
        """The days of a window; None where the rules name none, and without a first day where the place leaves none."""
        window = next((window for known, window in self.answer.windows.items() if known == name), None)
        if window is None:
            return None
        return {
            "from": None if window.days is None else season_day(window.days.from_day, southern=self.southern).text,
            "to": None if window.days is None else season_day(window.days.to_day, southern=self.southern).text,
            "opens": None if window.opens is None else window.opens.isoformat(),
            "closes": None if window.closes is None else window.closes.isoformat(),
            "state": _state(window),
            "narrowed_by": list(window.narrowed_by),
        }

    def steps(self, now: Iterable[JudgedCut]) -> list[dict[str, Any]]:
        """The work in the order in which a person does it."""
        made = [(one.cut.id, self.step(one)) for one in now]
        return [{"step": place, "cut": cut, "text": text} for place, (cut, text) in enumerate(made, start=1)]

    def step(self, one: JudgedCut) -> str:
        said = [self.sentences.text(conclusion) for conclusion in _work(one)]
        return " ".join(dict.fromkeys(said)) or f"{self.named(one)['what']}: {self.named(one)['where']}."

    def named(self, one: JudgedCut) -> dict[str, Any]:
        what, where = one.cut.what, one.cut.where
        spanish = self.language == "es"
        return {
            "cut": one.cut.id,
            "what": what.text_es if spanish else what.text,
            "where": where.text_es if spanish else where.text,
        }

    def cut(self, one: JudgedCut) -> dict[str, Any]:
        return {
            **self.named(one),
            **self.amounts(one),
            "why": self.why(one),
            "verdict": one.verdict,
            "season": one.season,
            "days": self.days(one.season),
            "reasons": self.advice.reasons(one.judgement.conclusions),
        }

    def amounts(self, one: JudgedCut) -> dict[str, Any]:
        amounts = amounts_of(one.judgement, self.rulebook)
        return {
            "how_much": "; ".join(amount_text(each, language=self.language) for each in amounts) or None,
            "amounts": [amount_told(each, self.sentences, language=self.language) for each in amounts],
        }

    def why(self, one: JudgedCut) -> str:
        return " ".join(dict.fromkeys(self.sentences.why(conclusion) for conclusion in _work(one)))

    def postponed(self, one: JudgedCut) -> dict[str, Any]:
        days = None if one.refused else self.days(one.season)
        return {
            **self.named(one),
            "verdict": one.verdict,
            "season": one.season,
            "why": self.why(one),
            "come_back": days if days and days["from"] else None,
            "waits_for": _waits_for(one, days),
            "reasons": self.advice.reasons(one.judgement.conclusions),
        }

    def check(self, one: JudgedCut) -> dict[str, Any]:
        return {**self.named(one), **self.amounts(one), "season": one.season, "days": self.days(one.season)}

    def variety(self, one: JudgedVariety) -> dict[str, Any]:
        return {
            "variety": one.variety.name,
            "cultivar": one.variety.cultivar,
            "cut": one.judgement.concluded.get("variety_cut"),
            "reasons": self.advice.reasons(one.judgement.conclusions),
        }

    def year(self, one: JudgedYear) -> dict[str, Any]:
        return {
            "year": one.step.year,
            "height_ft": one.step.height_ft,
            "height_m": feet_to_metres(one.step.height_ft),
            "text": " ".join(self.sentences.text(conclusion) for conclusion in one.judgement.conclusions),
            "reasons": self.advice.reasons(one.judgement.conclusions),
        }


def _work(one: JudgedCut) -> list[Conclusion]:
    """The conclusions that say what to do or leave, in their order."""
    return [conclusion for conclusion in one.judgement.conclusions if conclusion.outcome in _WORK]


def _state(window: DatedWindow) -> str | None:
    if window.days is None:
        return "none"
    return None if window.standing is None else window.standing.state


def _waits_for(one: JudgedCut, days: dict[str, Any] | None) -> str | None:
    """What a postponed cut waits for: its days, or weather where they run; nothing where it is never made."""
    if one.refused:
        return None
    days_unknown = days is None and one.season in WINDOWS
    return "days" if days_unknown or (days is not None and days["state"] != "open") else "weather"
