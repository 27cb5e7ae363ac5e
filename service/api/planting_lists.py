"""Will this list work at my place? A planting list from rows, a pasted text or a file to verdicts."""

from __future__ import annotations

from typing import Any, cast

from flask import Response

from service.api.advice import envelope
from service.api.house import Resource, parts
from service.api.keeping import keeps
from service.api.list_checks_told import ListCheckTold
from service.api.list_keeping import ACCEPTED_HEADERS, PREFER_PARAMETER, asked_for_later, kept_for_later
from service.api.planting_list_asked import FORM, FORM_BODY, PlantingListAsked
from service.api.planting_list_sent import sent_in_form, sent_in_json
from service.api.planting_list_told import PlantingListTold
from service.api.planting_list_written import ALSO_WRITTEN, in_the_wanted_format
from service.domain.units import Language
from service.present.planting_list import planting_list_advice
from service.questions.planting_list import MoreLines, check_list
from service.questions.suggestion import Judges

ADVICE = envelope("PlantingList", PlantingListTold)
blueprint = Resource("planting-lists", "Will this list work here: a verdict for each line and for the whole.")


@blueprint.route("/planting-lists", methods=["POST"])
@blueprint.asks(PlantingListAsked, also=(FORM,))
@blueprint.answers(ADVICE)
@blueprint.shows("line-cultivar-fails-on-its-root", {"line.cultivar": "rows.variety", "rootstock": "rows.rootstock"},
                 documented=("site.hardiness_zone", "site.chill_hours"))  # fmt: skip
@blueprint.also_answers(202, schema=ListCheckTold, description="It is kept, and checked in its own time.",
                        headers=ACCEPTED_HEADERS)  # fmt: skip
@blueprint.also_answers(406, "NOT_ACCEPTABLE")
@blueprint.doc(requestBody={"content": {FORM: FORM_BODY}}, parameters=[PREFER_PARAMETER],
               responses={200: ALSO_WRITTEN})  # type: ignore[untyped-decorator]  # fmt: skip
@in_the_wanted_format
@keeps("planting-lists")
def check_planting_list(asked: dict[str, Any] | None) -> dict[str, Any] | Response:
    """Check a planting list.

    Takes a list as rows or as a pasted text in JSON, or as a file in a form (`multipart/form-data`): csv, xlsx, ods, a
    mail or a text, told by its content. Up to 500 lines are answered at once; a longer list is kept and checked in its
    own time, and so is any with `Prefer: respond-async`: the answer 202 tells where to look.

    The answer says beside what was written what it was read as, gives each line a verdict, and looks at the list as a
    whole: pollination with the smallest addition that mends it, room with a sketch, the harvest through the season,
    disease, law, the order of planting, and the cheapest repair.

    Ask by `Accept` for a workbook (`application/vnd.openxmlformats-officedocument.spreadsheetml.sheet`: the rows as
    they were written with our columns beside them), a sheet of one or two pages to print (`application/pdf`), a text
    (`text/plain`), a draft to answer a mail with (`message/rfc822`), or the drawings (`image/svg+xml`).
    """
    sent = sent_in_form() if asked is None else sent_in_json(asked)
    try:
        question = sent.question()
    except MoreLines:
        return kept_for_later(sent)
    if asked_for_later():
        return kept_for_later(sent)
    house = parts()
    checked = check_list(question, rulebook=house.rulebook, judges=Judges(sweeping=house.sweeping, asking=house.asking))
    language = cast(Language, sent.terms.get("language") or "en")
    return planting_list_advice(checked, rulebook=house.rulebook, language=language)
