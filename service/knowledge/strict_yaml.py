"""YAML 1.2, read strictly, with the place of every entry.

YAML 1.1 turns `on`, `no`, `12:30` and `0123` into other things and lets a repeated key win. Here a plain scalar that
the two versions read differently is refused with the advice to quote it, and so is a repeated key, an anchor, a tag
and a second document. The scanner and parser are libyaml's, through PyYAML; only the reading of scalars is ours
(YAML 1.2.2, section 10.3.2, core schema).
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import yaml
from yaml.resolver import Resolver

from service.domain.errors import KnowledgeFault

try:
    from yaml import CSafeLoader as _Loader
except ImportError:  # a PyYAML built without libyaml reads the same, slower
    from yaml import SafeLoader as _Loader  # type: ignore[assignment]

_INT = re.compile(r"[-+]?(0|[1-9][0-9]*)\Z")
_FLOAT = re.compile(r"[-+]?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][-+]?[0-9]+)?\Z")
_AMBIGUOUS = re.compile(
    r"(y|yes|n|no|on|off)\Z|[-+]?0[0-9_]+\Z|[-+]?[0-9][0-9_]*(:[0-5]?[0-9])+(\.[0-9]*)?\Z|0[xob][0-9a-fA-F_]+\Z"
    r"|[-+]?[0-9]+_[0-9_]*\Z|[-+]?\.[0-9]+\Z|[-+]?[0-9]+\.\Z|[-+]?\.(inf|nan)\Z"
    r"|[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}([Tt ].*)?\Z",
    re.IGNORECASE,
)
_ISO_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}\Z")


class Mapping(dict[str, Any]):
    """A mapping that remembers the line of itself and of each key."""

    line: int
    key_lines: dict[str, int]


class Sequence(list[Any]):
    """A list that remembers the line of itself and of each item."""

    line: int
    item_lines: list[int]


def read(path: Path, *, shown_as: str | None = None) -> Any:
    """The one document in a file. Raises KnowledgeFault with file and line.

    Mappings come as `Mapping`, lists as `Sequence`; scalars as str, int, float, bool or None. A plain ISO date stays
    text, since YAML 1.2 knows no dates.
    """
    name = shown_as or str(path)
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as fault:
        raise KnowledgeFault(name, 1, f"the file is not UTF-8 (byte {fault.start}); save it as UTF-8") from None
    except OSError as fault:
        raise KnowledgeFault(name, 1, f"the file cannot be read ({fault.strerror})") from None
    return parse(text, shown_as=name)


def parse(text: str, *, shown_as: str = "<text>") -> Any:
    """The one document in a text; see `read`.

    >>> parse("{a: 1, b: [x, 2.5, null, true]}")
    {'a': 1, 'b': ['x', 2.5, None, True]}
    """
    loader = _Loader(text)
    try:
        node = loader.get_single_node()
    except yaml.YAMLError as fault:
        raise _from_libyaml(shown_as, fault) from None
    finally:
        loader.dispose()
    if node is None:
        raise KnowledgeFault(shown_as, 1, "the file is empty")
    return _Builder(shown_as, tags_possible="!" in text).value(node)


def _from_libyaml(name: str, fault: yaml.YAMLError) -> KnowledgeFault:
    mark = getattr(fault, "problem_mark", None)
    problem = getattr(fault, "problem", None) or str(fault).splitlines()[0]
    return KnowledgeFault(name, mark.line + 1 if mark else 1, f"this is not YAML: {problem}")


def _implicit(node: yaml.Node) -> tuple[bool, bool]:
    """Whether a plain and whether a quoted scalar would get its tag by itself, as PyYAML's resolver asks."""
    plain = getattr(node, "style", None) in (None, "")
    return plain, not plain


class _Builder:
    def __init__(self, name: str, *, tags_possible: bool) -> None:
        self.name = name
        self.seen: set[int] = set()
        self.untagged: Callable[..., str] | None = Resolver().resolve if tags_possible else None

    def fault(self, node: yaml.Node, what: str) -> KnowledgeFault:
        return KnowledgeFault(self.name, node.start_mark.line + 1, what)

    def value(self, node: yaml.Node) -> Any:
        if id(node) in self.seen:
            raise self.fault(node, "anchors and aliases are not used here; write the value out")
        self.seen.add(id(node))
        if self.untagged is not None and node.tag != self.untagged(type(node), node.value, _implicit(node)):
            raise self.fault(node, f"the tag {node.tag} is not used here")
        if isinstance(node, yaml.MappingNode):
            return self.mapping(node)
        if isinstance(node, yaml.SequenceNode):
            return self.sequence(node)
        assert isinstance(node, yaml.ScalarNode)
        return self.scalar(node)

    def mapping(self, node: yaml.MappingNode) -> Mapping:
        built = Mapping()
        built.line, built.key_lines = node.start_mark.line + 1, {}
        for key, item in self.pairs(node):
            built.key_lines[key] = item[0].start_mark.line + 1
            built[key] = self.value(item[1])
        return built

    def pairs(self, node: yaml.MappingNode) -> Iterator[tuple[str, tuple[yaml.Node, yaml.Node]]]:
        seen: dict[str, int] = {}
        for key_node, value_node in node.value:
            key = self.value(key_node)
            if not isinstance(key, str):
                raise self.fault(key_node, f"the key {key!r} is not text; put it in quotes")
            line = key_node.start_mark.line + 1
            if key in seen:
                raise self.fault(key_node, f"the key '{key}' stands twice (first in line {seen[key]}); keep one")
            seen[key] = line
            yield key, (key_node, value_node)

    def sequence(self, node: yaml.SequenceNode) -> Sequence:
        built = Sequence(self.value(item) for item in node.value)
        built.line = node.start_mark.line + 1
        built.item_lines = [item.start_mark.line + 1 for item in node.value]
        return built

    def scalar(self, node: yaml.ScalarNode) -> Any:
        text: str = node.value
        if node.style in ("'", '"', "|", ">"):
            return text
        if text in ("", "null", "~", "Null", "NULL"):
            return None
        if text in ("true", "false"):
            return text == "true"
        if _ISO_DATE.match(text):
            return text
        if _AMBIGUOUS.match(text) or text in ("True", "False", "TRUE", "FALSE"):
            raise self.fault(node, f'YAML versions read {text} differently; write "{text}" in quotes, or true or false')
        return self.number(node, text)

    def number(self, node: yaml.ScalarNode, text: str) -> Any:
        if _INT.match(text):
            return int(text)
        if _FLOAT.match(text):
            number = float(text)
            if not math.isfinite(number):
                raise self.fault(node, f"{text} is not a finite number")
            return number
        return text
