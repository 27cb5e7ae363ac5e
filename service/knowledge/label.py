"""What a pointer to a product leans on: actives, treatments, and what label records are held to."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from service.domain.label_model import LabelModel
from service.domain.treatment import Active, Treatment
from service.knowledge.active_file import read_actives
from service.knowledge.diagnosis import DiagnosisKnowledge
from service.knowledge.label_model_file import read_label_model
from service.knowledge.treatment_file import Known, read_treatments


@dataclass(frozen=True)
class LabelKnowledge:
    """Actives by ISO common name, treatments by the id of the cause, and the model of a record."""

    actives: Mapping[str, Active] = field(default_factory=dict)
    treatments: Mapping[str, Treatment] = field(default_factory=dict)
    model: LabelModel = field(default_factory=LabelModel)

    @property
    def other_pests(self) -> frozenset[str]:
        """Pests that stand on labels and are no disorder of our crops."""
        return frozenset(one.id for one in self.treatments.values() if one.name is not None)


def read_label_knowledge(
    folder: Path, diagnosis: DiagnosisKnowledge, *, sources: Collection[str], crops: Collection[str]
) -> LabelKnowledge:
    """The knowledge that a rules folder holds; what a folder does not have is empty."""
    model = read_label_model(folder, sources=sources, crops=crops)
    on_labels = {*crops, *model.other_crops}
    actives = read_actives(folder, sources=sources, crops=on_labels)
    known = Known(diagnosis.disorders, diagnosis.measures, actives, on_labels)
    return LabelKnowledge(
        actives=actives,
        treatments=read_treatments(folder, known, sources=sources),
        model=model,
    )
