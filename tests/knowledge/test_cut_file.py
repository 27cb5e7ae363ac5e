"""The kinds of cut, as the file gives them."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from service.knowledge.cut_file import read_cuts

ONE = """\
cuts:
  - id: dead_wood
    kind: cut
    what: {text: dead wood, text_es: madera muerta}
    where: {text: at living wood, text_es: en la madera viva}
    sources: [a-book]
"""


def read(folder: Path, text: str) -> object:
    (folder / "cuts.yaml").write_text(text, encoding="utf-8")
    return read_cuts(folder, sources={"a-book"})


def test_cuts_stand_in_the_order_of_the_file(tmp_path: Path) -> None:
    (tmp_path / "cuts.yaml").write_text(ONE + ONE[6:].replace("dead_wood", "broken_wood"), encoding="utf-8")
    assert list(read_cuts(tmp_path, sources={"a-book"})) == ["dead_wood", "broken_wood"]


def test_a_folder_without_the_file_knows_no_cuts(tmp_path: Path) -> None:
    assert read_cuts(tmp_path, sources=()) == {}


@pytest.mark.parametrize(
    ("wrong", "instead", "sentence"),
    [
        ("kind: cut", "kind: chop", "“chop” is not one of cut, care, never"),
        ("    sources: [a-book]\n", "", "a cut needs at least one id under “sources”"),
        ("    where: {text: at living wood, text_es: en la madera viva}\n", "", "the key “where” is missing"),
        (", text_es: madera muerta", "", "the key “text_es” is missing"),
        ("kind: cut\n", "kind: cut\n    livng: true\n", "did you mean “living”"),
        ("[a-book]", "[another]", "“another” is not known here"),
    ],
)
def test_a_faulty_entry_is_told_with_what_is_wrong(tmp_path: Path, wrong: str, instead: str, sentence: str) -> None:
    with pytest.raises(KnowledgeFault, match="dead_wood") as caught:
        read(tmp_path, ONE.replace(wrong, instead))
    assert sentence in str(caught.value)


def test_a_repeated_id_is_refused(tmp_path: Path) -> None:
    with pytest.raises(KnowledgeFault, match="stands twice"):
        read(tmp_path, ONE + ONE[6:])
