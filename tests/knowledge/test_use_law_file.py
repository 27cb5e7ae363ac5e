"""The law of states and the families of actives, as the files say it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from service.knowledge.use_law_file import read_use_law
from service.reasoning.rulebook import Rulebook


def test_a_bar_on_retail_begins_with_its_day(rulebook: Rulebook) -> None:
    law = rulebook.catalogue.use_law
    assert law.of_state("retail_bar", "CA", date(2024, 12, 31)) == ()
    assert "imidacloprid" in law.of_state("retail_bar", "CA", date(2025, 1, 1))[0].actives
    assert law.of_state("retail_bar", "TX", date(2026, 1, 1)) == ()


def test_actives_belong_to_families_by_name_by_group_or_by_kind(rulebook: Rulebook) -> None:
    law, actives = rulebook.catalogue.use_law, rulebook.catalogue.label.actives
    assert law.families_of("calcium polysulfide", actives["calcium polysulfide"]) == ("lime_sulfur",)
    assert law.families_of("copper octanoate", actives["copper octanoate"]) == ("copper",)
    assert law.families_of("streptomycin", actives["streptomycin"]) == ("antibiotic",)
    assert law.families_of("no such active", None) == ()


def test_every_active_and_pest_that_a_law_names_is_known(rulebook: Rulebook) -> None:
    catalogue = rulebook.catalogue
    actives = {name for law in catalogue.use_law.states.values() for name in law.actives}
    not_sold_at_home = {"clothianidin", "thiamethoxam"}
    assert actives - set(catalogue.label.actives) == not_sold_at_home
    pests = {name for law in catalogue.use_law.states.values() for name in law.pests}
    assert pests <= {*catalogue.disorders, *catalogue.label.treatments}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("state_law:\n  - {id: a, state: OR, topic: tax, says: x, sources: [s]}\n", "tax"),
        ('state_law:\n  - {id: a, state: OR, topic: retail_bar, says: "x", from: soon, sources: [s]}\n', "soon"),
        ('state_law:\n  - {id: a, state: OR, topic: retail_bar, says: "x"}\n', "sources"),
    ],
)
def test_a_law_that_cannot_be_read_says_where(tmp_path: Path, text: str, said: str) -> None:
    (tmp_path / "state_law.yaml").write_text(text)
    with pytest.raises(KnowledgeFault, match=said):
        read_use_law(tmp_path, sources={"s"})


def test_a_family_stands_once(tmp_path: Path) -> None:
    twice = "{id: oil, kinds: [oil], sources: [s]}"
    (tmp_path / "active_groups.yaml").write_text(f"active_groups:\n  families:\n    - {twice}\n    - {twice}\n")
    with pytest.raises(KnowledgeFault, match="twice"):
        read_use_law(tmp_path, sources={"s"})
