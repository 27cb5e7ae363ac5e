"""Readings of lists say what they know: a cultivar exactly where a name was read as one."""

from __future__ import annotations

import pytest

from service.domain.planting_list import How, ReadLine, ReadName, ReadRootstock, WrittenCell, WrittenRow

ROW = WrittenRow(2, (WrittenCell("2x", "Qty"), WrittenCell("", "Note"), WrittenCell("Liberty", "Variety")))


@pytest.mark.parametrize("how", ["exact", "synonym", "guess"])
def test_a_name_that_was_read_has_a_cultivar(how: How) -> None:
    assert ReadName("Liberty", how, "apple.liberty").cultivar == "apple.liberty"
    with pytest.raises(ValueError, match=how):
        ReadName("Liberty", how)
    with pytest.raises(ValueError, match=how):
        ReadRootstock("M.9", how)


@pytest.mark.parametrize("how", ["ambiguous", "not_recognised"])
def test_a_name_that_was_not_read_has_none(how: How) -> None:
    assert ReadName("Gala", how, crop="apple").crop == "apple"
    with pytest.raises(ValueError, match=how):
        ReadName("Gala", how, "apple.gala")
    with pytest.raises(ValueError, match=how):
        ReadRootstock("M.9", how, "m_9")


def test_a_line_is_recognised_when_all_its_names_are() -> None:
    known, unknown = ReadName("Liberty", "guess", "apple.liberty"), ReadName("Wonderglow", "not_recognised")
    assert ReadLine(1, ROW.text, ROW, (known,)).recognised
    assert not ReadLine(1, ROW.text, ROW, (known, unknown)).recognised
    assert not ReadLine(1, ROW.text, ROW).recognised


def test_a_line_that_does_not_say_how_many_asks_for_one_tree() -> None:
    assert ReadLine(1, ROW.text, ROW).trees == 1
    assert ReadLine(1, ROW.text, ROW, quantity=0).trees == 0


def test_a_row_is_told_in_one_line_without_its_empty_cells() -> None:
    assert ROW.text == "2x | Liberty"
