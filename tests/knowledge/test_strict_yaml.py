"""YAML 1.2 read strictly: what the versions of YAML read differently is refused with the line and the remedy."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from service.knowledge import strict_yaml


@pytest.mark.parametrize("word", ["yes", "No", "on", "OFF", "y", "012", "0x1F", "12:30", "1_000", ".5", "5.", ".inf",
                                  "True", "FALSE"])  # fmt: skip
def test_a_word_that_yaml_versions_read_differently_is_refused(word: str) -> None:
    with pytest.raises(KnowledgeFault, match=r"<text>:2: YAML versions read .* differently; write"):
        strict_yaml.parse(f"first: 1\nsecond: {word}\n")


@pytest.mark.parametrize("word", ["yes", "012", "12:30"])
def test_in_quotes_it_is_text(word: str) -> None:
    assert strict_yaml.parse(f'value: "{word}"') == {"value": word}


@pytest.mark.parametrize(
    ("written", "value"),
    [("1", 1), ("-2", -2), ("2.5", 2.5), ("1e3", 1000.0), ("true", True), ("null", None), ("", None), ("7b", "7b"),
     ("08-15", "08-15"), ("2026-11-25", "2026-11-25"), ("a text", "a text")],
)  # fmt: skip
def test_plain_scalars_are_read_as_yaml_1_2_says(written: str, value: object) -> None:
    read = strict_yaml.parse(f"value: {written}")["value"]
    assert read == value
    assert type(read) is type(value)


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("a: 1\nb: 2\na: 3\n", 3, "stands twice"),
        ("a: &x 1\nb: *x\n", 1, "anchors"),
        ("a: 1\nb: !!python/tuple [1]\n", 2, "the tag .*tuple"),
        ("a: 1\nb: !own {c: 1}\n", 2, "the tag !own"),
        ("a: 1\nb: !!str 12\n", 2, "the tag .*str"),
        ("a: 1\nb: !!int '12'\n", 2, "the tag .*int"),
        ("a: 1\n---\nb: 2\n", 2, "this is not YAML"),
        ("a: [1\n", 2, "this is not YAML"),
        ("1: a\n", 1, "is not text"),
        ("", 1, "empty"),
    ],
)
def test_what_the_format_does_not_need_is_refused(text: str, line: int, says: str) -> None:
    with pytest.raises(KnowledgeFault, match=says) as raised:
        strict_yaml.parse(text)
    assert raised.value.line == line


def test_an_exclamation_mark_in_a_text_is_no_tag() -> None:
    assert strict_yaml.parse('a: "now!"\nb: stop! there\nc: [1, 2.5, true]') == {
        "a": "now!",
        "b": "stop! there",
        "c": [1, 2.5, True],
    }


def test_every_entry_knows_its_line() -> None:
    read = strict_yaml.parse("first: 1\nmany:\n  - a\n  - b\ninner:\n  deep: 2\n")
    assert read.key_lines == {"first": 1, "many": 2, "inner": 5}
    assert read["many"].item_lines == [3, 4]
    assert read["inner"].key_lines == {"deep": 6}


def test_a_file_that_is_not_utf8_is_named(tmp_path: Path) -> None:
    path = tmp_path / "latin.yaml"
    path.write_bytes("name: níspero".encode("latin-1"))
    with pytest.raises(KnowledgeFault, match="not UTF-8"):
        strict_yaml.read(path)
