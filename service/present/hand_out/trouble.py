"""Topics on a tree with something wrong: what it is, and what can be done about it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.present.hand_out.topic import Scribe, joined


def diagnosis(scribe: Scribe) -> dict[str, Any]:
    """The answer, what to do without a product, what to look at next and what to bring."""
    answer = scribe.answer
    likeliest = answer["suspects"][:1]
    scribe.add("measures", (each["text"] for one in likeliest for each in one["measures"]))
    scribe.add("look", (one["question"] for one in answer["ask_next"]))
    sample = answer["sample"]
    if sample is not None:
        scribe.add("bring", (sample["bring"], sample["how"], sample["too_late"]))
    return scribe.topic(answer["text"], tree=scribe.tree())


def treatment(scribe: Scribe) -> dict[str, Any]:
    """Measures first, then the products that their labels allow, and what to look at before spraying."""
    answer = scribe.answer
    scribe.add("measures", (_measure(one) for one in answer["measures"]))
    scribe.add("leave", answer["do_not"])
    scribe.add("products", (_product(scribe, one) for one in answer["products"] if one["verdict"] != "forbidden"))
    scribe.add("before", (one["check"] for one in answer["before_spraying"]))
    return scribe.topic(answer["text"], tree=scribe.tree(), cause=answer["name"])


def _measure(measure: Mapping[str, Any]) -> str:
    how = measure["how"]
    return f"{measure['text']} ({measure['timing']})" + (f": {how}" if how else "")


def _product(scribe: Scribe, product: Mapping[str, Any]) -> str:
    """A product with its verdict and where the amount stands; the amount itself is on the label alone."""
    number = product["epa_reg_no"]
    head = joined(
        product["name"],
        number and scribe.phrase("registration", number=number),
        product["demo"] and scribe.phrase("invented"),
    )
    waits = [need for one in product["waits_for"] for need in one["needs"]]
    said = (
        f"{head}: {scribe.phrase(product['verdict'])}.",
        f"({'; '.join(dict.fromkeys(waits))})" if waits else None,
        product["harvest_text"], product["reentry"], product["label"]["where"],
    )  # fmt: skip
    return " ".join(part for part in said if part)
