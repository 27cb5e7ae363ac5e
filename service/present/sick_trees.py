"""Signs, disorders and complaints as plain data, with what a disorder refers to by id written out."""

from __future__ import annotations

from typing import Any

from service.domain.complaint import Complaint
from service.domain.disorder import Disorder
from service.domain.sign import Sign
from service.knowledge.diagnosis import DiagnosisKnowledge
from service.present.reference import known, plain


def sign_told(sign: Sign) -> dict[str, Any]:
    """A sign, with the address of its drawing."""
    return {**known(sign), "drawing": f"/v1/signs/{sign.id}/drawing"}


def disorder_told(disorder: Disorder, knowledge: DiagnosisKnowledge) -> dict[str, Any]:
    """A disorder with its sample protocol, the conditions that favour it and its measures written out."""
    return {
        **known(disorder),
        "sample": plain(knowledge.samples[disorder.sample]),
        "favoured_by": [plain(knowledge.conditions[name]) for name in disorder.favoured_by],
        "measures": [plain(knowledge.measures[name]) for name in disorder.measures],
    }


def complaint_told(complaint: Complaint) -> dict[str, Any]:
    """A complaint with its causes."""
    return known(complaint)
