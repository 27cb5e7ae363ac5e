"""Every list of the corpus is read as the reviewed reading beside it says; all the lists are invented."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.intake.planting_list import ListReader, Upload
from tests.lists.golden import GOLDEN, golden_of, lists, reading


@pytest.mark.parametrize("path", lists(), ids=lambda path: path.name)
def test_a_list_is_read_as_reviewed(reader: ListReader, path: Path) -> None:
    assert reading(reader, path) == golden_of(path).read_text(encoding="utf-8")


def test_the_corpus_is_broad_and_every_reading_has_its_list() -> None:
    assert len(lists()) >= 40
    assert {path.name for path in GOLDEN.iterdir()} == {golden_of(path).name for path in lists()}


@pytest.mark.parametrize("path", lists(), ids=lambda path: path.name)
def test_a_stream_reads_the_same_lines_as_the_whole(reader: ListReader, path: Path) -> None:
    with path.open("rb") as file:
        streamed = list(reader.stream(Upload(file, path.name)))
    whole = reader.read(Upload(path.read_bytes(), path.name))
    assert [one for one in streamed if one in whole.lines] == list(whole.lines)
    assert len(streamed) == len(whole.lines) + len(whole.skipped)
    assert [line.line for line in whole.lines] == list(range(1, len(whole.lines) + 1))
