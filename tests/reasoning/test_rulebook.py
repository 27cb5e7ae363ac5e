"""The rulebook as a whole: folders, ids, retired rules, wording, a store's own folder, the digest."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from service.reasoning.faults import RulebookFaults
from service.reasoning.rulebook import Rulebook
from tests.reasoning.made_up import write, written
from tests.reasoning.written_out import FILES, RULE

PLACE = "orchard/tree/size.yaml"
ANOTHER = RULE.replace("keep-it-low", "keep-it-lower")
SPANISH = "text:\n  keep-it-low: {say: '{tree.height_ft}, {crop}, {size}.', why: Es bajo.}\n"
RETIRED = "retired:\n  keep-it-low: {title: Keep it low, reason: Nobody did., since: 2026-01-01}\n"


def load(folder: Path, **more: str) -> Rulebook:
    return written(folder / "rules", {**FILES, PLACE: RULE, **more})


def load_with_store(folder: Path, files: dict[str, str], *, ours: str = RULE) -> Rulebook:
    write(folder / "store", files)
    return written(folder / "rules", {**FILES, PLACE: ours}, overlay=folder / "store")


def fault(folder: Path, files: dict[str, str]) -> str:
    with pytest.raises(RulebookFaults) as caught:
        written(folder / "rules", {**FILES, PLACE: RULE, **files})
    return str(caught.value)


def store_fault(folder: Path, files: dict[str, str], *, ours: str = RULE) -> str:
    with pytest.raises(RulebookFaults) as caught:
        load_with_store(folder, files, ours=ours)
    return str(caught.value)


def test_rules_are_found_by_id_and_by_ruleset(tmp_path: Path) -> None:
    book = load(tmp_path)
    assert [rule.id for rule in book.rulesets["orchard.tree"]] == ["keep-it-low"]
    assert book.rules["keep-it-low"] is book.rulesets["orchard.tree"][0]
    assert book.limits["tree.tall_ft"].value == 12
    assert book.cautions["ladder"].text_es == "Cuidado."
    assert book.sources["a-guide"].title == "A guide"


def test_a_rulebook_cannot_be_written_to(tmp_path: Path) -> None:
    book = load(tmp_path)
    for mapping in (book.rules, book.rulesets, book.limits, book.cautions, book.retired, book.wording):
        with pytest.raises(TypeError):
            mapping["new"] = None  # type: ignore[index]


def test_an_id_is_used_once(tmp_path: Path) -> None:
    sentence = fault(tmp_path, {"orchard/tree/twice.yaml": RULE})
    assert sentence.startswith("rules/orchard/tree/twice.yaml:2: keep-it-low: the id stands twice")
    assert "first in rules/orchard/tree/size.yaml:2" in sentence


def test_a_retired_id_is_never_used_again(tmp_path: Path) -> None:
    assert "keep-it-low: the id is retired (see retired/)" in fault(tmp_path, {"retired/2026.yaml": RETIRED})


def test_retired_rules_are_kept_with_their_reason(tmp_path: Path) -> None:
    book = written(tmp_path / "rules", {**FILES, PLACE: ANOTHER, "retired/2026.yaml": RETIRED})
    assert book.retired["keep-it-low"].reason == "Nobody did."


def test_a_folder_for_which_there_are_no_facts_is_refused(tmp_path: Path) -> None:
    sentence = fault(tmp_path, {"orchard/tre/size.yaml": RULE})
    assert "the ruleset 'orchard.tre'; the nearest right word is 'orchard.tree'" in sentence
    assert sentence.startswith("rules/orchard/tre/size.yaml:1:")


def test_a_rule_file_with_another_ending_is_not_overlooked(tmp_path: Path) -> None:
    assert "rule files end in .yaml; rename it" in fault(tmp_path, {"orchard/tree/size2.yml": ANOTHER})


def test_faults_of_several_files_are_told_together(tmp_path: Path) -> None:
    more = {
        "orchard/tree/b.yaml": ANOTHER.replace("peach}", "peech}"),
        "limits.yaml": FILES["limits.yaml"] + "  x: {}\n",
    }
    assert {line.split(":")[0] for line in fault(tmp_path, more).splitlines()} == {
        "rules/limits.yaml", "rules/orchard/tree/b.yaml"
    }  # fmt: skip


def test_spanish_wording_is_kept_by_rule(tmp_path: Path) -> None:
    wording = written(tmp_path / "rules", {**FILES, PLACE: RULE, "text/es.yaml": SPANISH}).wording["es"]
    assert wording["keep-it-low"].text == "{tree.height_ft}, {crop}, {size}."
    assert wording["keep-it-low"].why == "Es bajo."


def test_wording_carries_the_placeholders_of_its_rule(tmp_path: Path) -> None:
    sentence = fault(tmp_path, {"text/es.yaml": SPANISH.replace("{crop}", "{crip}")})
    assert sentence == (
        "rules/text/es.yaml:2: keep-it-low: the sentence must carry the placeholders of the rule; see to {crip}, {crop}"
    )


def test_wording_for_no_rule_is_refused(tmp_path: Path) -> None:
    sentence = fault(tmp_path, {"text/es.yaml": SPANISH.replace("keep-it-low", "keep-it-lo")})
    assert "there is no rule 'keep-it-lo'; the nearest right word is 'keep-it-low'" in sentence


def test_a_store_adds_rules_of_its_own(tmp_path: Path) -> None:
    book = load_with_store(tmp_path, {"orchard/tree/own.yaml": ANOTHER})
    assert sorted(book.rules) == ["keep-it-low", "keep-it-lower"]
    assert book.rules["keep-it-lower"].file == "store/orchard/tree/own.yaml"


def test_a_store_replaces_a_rule_by_its_id(tmp_path: Path) -> None:
    book = load_with_store(tmp_path, {"orchard/tree/own.yaml": RULE.replace("prefer: 5", "prefer: 9")})
    assert book.rules["keep-it-low"].points == 9
    assert len(book.rulesets["orchard.tree"]) == 1


def test_a_store_adds_limits_but_changes_none(tmp_path: Path) -> None:
    head, first, *_ = FILES["limits.yaml"].splitlines(keepends=True)
    own = (head + first).replace("tree.tall_ft", "store.tall_ft").replace("value: 12", "value: 11")
    assert load_with_store(tmp_path, {"limits.yaml": own}).limits["store.tall_ft"].value == 11
    changed = own.replace("store.tall_ft", "tree.tall_ft")
    assert "tree.tall_ft: a store cannot change a limit" in store_fault(tmp_path, {"limits.yaml": changed})


FORBIDS = RULE.replace("prefer: 5\n      say:", "forbid:")


def test_a_store_cannot_replace_a_rule_that_forbids(tmp_path: Path) -> None:
    sentence = store_fault(tmp_path, {"orchard/tree/own.yaml": RULE}, ours=FORBIDS)
    assert sentence.startswith("store/orchard/tree/own.yaml:2: keep-it-low: it would replace a rule that forbids")


def test_a_store_cannot_forbid(tmp_path: Path) -> None:
    own = FORBIDS.replace("keep-it-low", "forbid-it")
    assert "a store's rule cannot forbid; write set_aside or caution" in store_fault(
        tmp_path, {"orchard/tree/own.yaml": own}
    )


def test_a_store_cannot_use_a_retired_id(tmp_path: Path) -> None:
    write(tmp_path / "rules", {"retired/2026.yaml": RETIRED.replace("keep-it-low", "keep-it-lower")})
    assert "the id is retired" in store_fault(tmp_path, {"orchard/tree/own.yaml": ANOTHER})


def test_a_store_cannot_lay_a_vocabulary_over_ours(tmp_path: Path) -> None:
    assert "take this file away" in store_fault(tmp_path, {"vocabulary.yaml": FILES["vocabulary.yaml"]})


def test_a_missing_store_folder_is_told(tmp_path: Path) -> None:
    with pytest.raises(KnowledgeFault, match="there is no such folder of a store's own rules"):
        written(tmp_path / "rules", FILES, overlay=tmp_path / "nowhere")


def test_the_digest_changes_with_every_byte_that_counts(tmp_path: Path) -> None:
    digest = load(tmp_path / "a").digest
    assert len(digest) == 64
    assert load(tmp_path / "b").digest == digest
    assert load(tmp_path / "c", **{"README.md": "More."}).digest != digest
    assert written(tmp_path / "d" / "rules", {**FILES, PLACE: RULE.replace("20", "21")}).digest != digest
    assert written(tmp_path / "e" / "rules", {**FILES, "orchard/tree/other.yaml": RULE}).digest != digest


def test_the_digest_does_not_depend_on_the_demo_store_or_the_order_of_writing(tmp_path: Path) -> None:
    digest = load(tmp_path / "a", **{"orchard/tree/b.yaml": ANOTHER}).digest
    write(tmp_path / "b" / "rules", {"orchard/tree/b.yaml": ANOTHER, "demo/store.yaml": "store: {}"})
    assert load(tmp_path / "b").digest == digest


def test_a_store_folder_changes_the_digest(tmp_path: Path) -> None:
    assert load_with_store(tmp_path, {"orchard/tree/own.yaml": ANOTHER}).digest != load(tmp_path / "alone").digest
