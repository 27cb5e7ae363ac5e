"""The answer to a diagnosis as plain data: who is suspected, who is ruled out, what to ask, bring and do next."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from service.domain.disorder import Disorder
from service.domain.sign import Sign
from service.domain.units import Language
from service.intake.complaint_words import Offered
from service.present.advice import About, Advice
from service.present.diagnosis_phrases import Phrases
from service.present.sentences import Sentences
from service.questions.diagnosis import DiagnosisAnswer, JudgedDisorder, Leaning, NextQuestion, Suspect
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_SHARE_DIGITS = 3
_GAIN_DIGITS = 3
_RULES_OUT = ("set_aside", "forbid")
_READ_OUT = ("forbid", "advise")
_READ_OUT_OF_SUSPECT = ("forbid", "advise", "caution")
_NO_MEASURES = (None, "not_enough")


def diagnosis_advice(answer: DiagnosisAnswer, *, rulebook: Rulebook, language: Language = "en") -> dict[str, Any]:
    """The envelope with the diagnosis in it."""
    return _Writer(answer, rulebook, language).envelope()


class _Writer:
    def __init__(self, answer: DiagnosisAnswer, rulebook: Rulebook, language: Language) -> None:
        self.answer, self.catalogue = answer, rulebook.catalogue
        self.sentences = Sentences(rulebook, language=language, southern=answer.site.southern)
        self.advice = Advice(rulebook, self.sentences)
        self.phrases = Phrases(language)
        self.floor = rulebook.limits["diagnosis.certainty.possible"].value
        self.certainty = answer.judgement.concluded.get("certainty")

    def envelope(self) -> dict[str, Any]:
        answer = self.answer
        told = {
            **self.tree(),
            **self.verdict(),
            "suspects": [self.suspect(one) for one in answer.suspects],
            "something_else": round(answer.likelihoods.something_else, _SHARE_DIGITS),
            "ruled_out": [self.ruled_out(one) for one in answer.ruled_out],
            "ask_next": [self.question(one) for one in answer.ask_next],
            "tell_apart": self.tell_apart(),
            "sample": self.sample(),
            "refer": self.refer(),
            "complaint": self.complaint(),
            "reading": self.reading(),
        }
        return self.advice.envelope(told, concluded=list(self.concluded()), not_judged=answer.not_judged)

    def concluded(self) -> Iterable[About]:
        """What holds of the whole answer, then of each suspect, then why others are ruled out."""
        yield from (About(one) for one in self.answer.judgement.conclusions)
        for suspect in self.answer.suspects:
            for judgement in (suspect.judgement, suspect.cause.judgement):
                yield from (About(one, suspect.disorder.id) for one in judgement.conclusions)
        for one in self.answer.ruled_out:
            yield from (About(conclusion, one.disorder.id) for conclusion in one.judgement.conclusions)

    def tree(self) -> dict[str, Any]:
        tree = self.answer.question.tree
        cultivar = None if tree.cultivar is None else self.catalogue.cultivars[tree.cultivar]
        return {
            "crop": tree.crop,
            "crop_name": self.sentences.crop(tree.crop),
            "cultivar": tree.cultivar,
            "name": None if cultivar is None else cultivar.denomination,
        }

    def verdict(self) -> dict[str, Any]:
        """How sure the answer is, in words that the rules match to the numbers; then what to do and not to do."""
        said, treat = self.answer.judgement.conclusions, self.answer.judgement.concluded.get("treat")
        how_sure = self.advice.reasons(one for one in said if "certainty" in one.rule.conclude)
        more = self.advice.reasons(one for one in said if "certainty" not in one.rule.conclude)
        read_out = [*how_sure, *(one for one in more if one["outcome"] in _READ_OUT)]
        if treat != "no":
            read_out += [one for one in self.about_likeliest() if one["outcome"] in _READ_OUT_OF_SUSPECT]
        return {
            "certainty": self.certainty,
            "treat": treat,
            "text": " ".join(dict.fromkeys(one["text"] for one in read_out)),
            "reasons": [*how_sure, *more],
        }

    def about_likeliest(self) -> list[dict[str, Any]]:
        """What the rules say of the likeliest suspect, what to do first."""
        return self.advice.reasons(self.answer.suspects[0].judgement.conclusions) if self.answer.suspects else []

    def suspect(self, one: Suspect) -> dict[str, Any]:
        disorder, concluded = one.disorder, one.judgement.concluded
        return {
            **self.disorder(disorder),
            "likelihood": round(one.likelihood, _SHARE_DIGITS),
            "certainty": concluded.get("certainty"),
            "for": [self.sign(sign, "seen") for sign in one.cause.signs.speaking_for],
            "against": [
                *(self.sign(sign, "seen") for sign in one.cause.signs.against_seen),
                *(self.sign(sign, "not_found") for sign in one.cause.signs.typical_missing),
            ],
            "host": one.cause.facts["disorder.host"],
            "season": one.cause.facts.get("disorder.season"),
            "urgency": disorder.urgency,
            "act_by": concluded.get("act_by"),
            "regulated": disorder.regulated,
            "measures": self.measures(one),
            "from_memory": disorder.from_memory,
            "sources": list(disorder.sources),
            "reasons": self.advice.reasons((*one.judgement.conclusions, *one.cause.judgement.conclusions)),
        }

    def disorder(self, disorder: Disorder) -> dict[str, Any]:
        return {"disorder": disorder.id, "name": self.sentences.name(disorder), "kind": disorder.kind}

    def sign(self, sign: str, how: str) -> dict[str, Any]:
        return {"sign": sign, "name": self.sentences.name(self.catalogue.signs[sign]), "how": how}

    def measures(self, one: Suspect) -> list[dict[str, str]]:
        """What can be done without a product; nothing where it is too early to do anything about this suspect."""
        concluded = one.judgement.concluded
        if concluded.get("certainty") in _NO_MEASURES or "no" in (concluded.get("treat"), self.concluded_of("treat")):
            return []
        found = (self.catalogue.diagnosis.measures[name] for name in one.disorder.measures)
        return [{"measure": each.id, "kind": each.kind, "text": self.sentences.wording(each.what)} for each in found]

    def ruled_out(self, one: JudgedDisorder) -> dict[str, Any]:
        crop = self.answer.question.tree.crop
        instead = [self.catalogue.disorders[other] for other in one.disorder.confused_on.get(crop, ())]
        said = self.advice.reasons(each for each in one.judgement.conclusions if each.outcome in _RULES_OUT)
        why = [each["text"] for each in said]
        if one.facts["disorder.host"] == "not_host" and not why:
            why = [self.phrases.no_host(self.sentences.crop(crop), self.sentences.name(one.disorder))]
        return {
            **self.disorder(one.disorder),
            "often_confused": crop in one.disorder.confused_on,
            "not_a_host": one.facts["disorder.host"] == "not_host",
            "why": " ".join(why),
            "look_instead": [self.disorder(other) for other in instead],
            "reasons": said,
        }

    def question(self, one: NextQuestion) -> dict[str, Any]:
        return {
            **self.asked(one.sign),
            "gain": round(one.split.gain, _GAIN_DIGITS),
            "expected_yes": round(one.split.yes, _SHARE_DIGITS),
            "if_yes": self.leaning(one.if_yes),
            "if_no": self.leaning(one.if_no),
        }

    def asked(self, sign: Sign) -> dict[str, Any]:
        return {
            "sign": sign.id,
            "question": self.phrases.of(sign.ask, sign.ask_es),
            "part": sign.part,
            "needs": sign.needs,
            "drawing": f"/v1/signs/{sign.id}/drawing",
        }

    def leaning(self, leaning: Leaning) -> dict[str, Any]:
        disorder = None if leaning.disorder is None else self.catalogue.disorders[leaning.disorder]
        name = None if disorder is None else self.sentences.name(disorder)
        return {
            "disorder": leaning.disorder,
            "name": name,
            "likelihood": round(leaning.likelihood, _SHARE_DIGITS),
            "text": self.phrases.leans(name, leaning.likelihood, floor=self.floor),
        }

    def tell_apart(self) -> dict[str, Any] | None:
        found = self.answer.tell_apart
        if found is None:
            return None
        pair = found.pair
        return {
            "first": self.disorder(found.first),
            "second": self.disorder(found.second),
            "check": None if pair is None else self.sentences.wording(pair.check),
            "first_shows": None if pair is None else self.sentences.wording(pair.this_shows),
            "second_shows": None if pair is None else self.sentences.wording(pair.other_shows),
            "signs": [self.asked(self.catalogue.signs[sign]) for sign in found.signs],
        }

    def sample(self) -> dict[str, Any] | None:
        """What to bring: as the rules say, and otherwise what would settle the likeliest cause."""
        top = self.answer.suspects[0].disorder if self.answer.suspects else None
        name = self.concluded_of("sample") or (None if top is None else top.sample)
        protocol = None if name is None else self.catalogue.samples.get(str(name))
        if protocol is None:
            return None
        fits_top = top is not None and top.sample == protocol.id
        return {
            "sample": protocol.id,
            "bring": self.sentences.wording(top.bring) if top is not None and fits_top else None,
            "how": self.sentences.wording(protocol.how),
            "too_late": self.sentences.wording(protocol.too_late),
            "sources": list(protocol.sources),
        }

    def refer(self) -> dict[str, Any]:
        return {"to": self.concluded_of("refer_to"), "move_material": self.concluded_of("move_material")}

    def concluded_of(self, name: str) -> Value | None:
        """What stands concluded of the answer as a whole, and otherwise of the likeliest suspect."""
        of_likeliest = self.answer.suspects[0].judgement.concluded if self.answer.suspects else {}
        return self.answer.judgement.concluded.get(name) or of_likeliest.get(name)

    def complaint(self) -> dict[str, Any] | None:
        """The complaint with all its causes, those that stand among no disorders too."""
        found = self.answer.complaint
        if found is None:
            return None
        causes = [{"disorder": one.disorder, "name": self.phrases.of(one.name, one.name_es)} for one in found.causes]
        confirm = [self.asked(self.catalogue.signs[sign]) for sign in found.shows]
        return {"complaint": found.id, "name": self.sentences.name(found), "causes": causes, "confirm": confirm}

    def reading(self) -> dict[str, Any] | None:
        """What the customer's words may mean: to be confirmed, and not counted before that."""
        found = self.answer.reading
        if found is None:
            return None
        return {
            "words": found.words,
            "complaints": [
                {"complaint": one.id, "name": self.sentences.name(self.catalogue.complaints[one.id]), **_like(one)}
                for one in found.complaints
            ],
            "signs": [{**self.asked(self.catalogue.signs[one.id]), **_like(one)} for one in found.signs],
        }


def _like(one: Offered) -> dict[str, Any]:
    return {"like": one.phrase, "score": one.score}
