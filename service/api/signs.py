"""The signs that a person can find on a sick tree."""

from __future__ import annotations

from typing import Any

from werkzeug.exceptions import NotFound

from service.api.fields import Told, choice, list_of, nested, text
from service.api.house import Resource, at_id, parts
from service.api.paging import PageAsked, page
from service.domain.sign import PARTS, TOOLS, Sign
from service.knowledge.spelling import plain
from service.present.sick_trees import sign_told

blueprint = Resource("signs", "What can be seen, felt or smelt on a sick tree, with the question that asks for it.")


class SignsListAsked(PageAsked):
    """Which signs."""

    part = choice("Only signs on this part of the tree.", values=PARTS)
    name = text("Only signs whose English or Spanish name or synonyms hold this text.", example="sticky", longest=100)


class SignTold(Told):
    """One sign."""

    id = text("Id of the sign.", example="lf_honeydew", required=True)
    part = choice("Part of the tree on which it shows.", values=PARTS, example="leaf", required=True)
    name = text("What it is.", example="sticky drops on leaves or on what stands below", required=True)
    name_es = text("The same in Spanish.", example="gotas pegajosas en las hojas", required=True)
    ask = text("The question to ask a customer.", example="Are the leaves sticky?", required=True)
    ask_es = text("The same in Spanish.", example="¿Están pegajosas las hojas?", required=True)
    synonyms = list_of(text("A phrase.", example="sticky leaves"), "How customers say it.", example=["sticky leaves"],
                       required=True)  # fmt: skip
    synonyms_es = list_of(text("A phrase.", example="hojas pegajosas"), "How they say it in Spanish.",
                          example=["hojas pegajosas"], required=True)  # fmt: skip
    needs = choice("The tool without which it cannot be told; null where there is none.", values=TOOLS, nullable=True,
                   required=True)  # fmt: skip
    drawing = text("Where its drawing is.", example="/v1/signs/lf_honeydew/drawing", required=True)


class SignsTold(Told):
    """A page of signs."""

    items = nested(SignTold, "The signs, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YXBwbGU", nullable=True,
                       required=True)  # fmt: skip


@blueprint.route("/signs")
@blueprint.asks_in_query(SignsListAsked)
@blueprint.reference(SignsTold)
def list_signs(asked: dict[str, Any]) -> dict[str, Any]:
    """List the signs, all or those on a part of the tree or with a name.

    Case and accents do not matter in `name`.
    """
    part, name = asked.get("part"), plain(asked.get("name", ""))
    signs = parts().rulebook.catalogue.signs.values()
    chosen = [one for one in signs if part in (None, one.part) and _called(one, name)]
    return page(chosen, asked, key=_id, show=sign_told)


@blueprint.route("/signs/<sign>", parameters=[at_id("sign", "Id of a sign.", example="lf_honeydew")])
@blueprint.reference(SignTold)
@blueprint.also_answers(404, "NOT_FOUND")
def get_sign(sign: str) -> dict[str, Any]:
    """Show one sign.

    `ask` is the question for the counter; `needs` names a hand lens or a knife where the sign cannot be told without.
    """
    found = parts().rulebook.catalogue.signs.get(sign)
    if found is None:
        raise NotFound("No sign has this id; GET /v1/signs?name=… finds it by its name.")
    return sign_told(found)


def _called(sign: Sign, name: str) -> bool:
    said = (sign.name, sign.name_es, *sign.synonyms, *sign.synonyms_es)
    return not name or any(name in plain(one) for one in said)


def _id(sign: Sign) -> str:
    return sign.id
