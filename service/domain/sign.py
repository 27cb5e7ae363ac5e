"""A sign: one thing that a person can see, feel or smell on a sick tree, with the question that asks for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Part = Literal["leaf", "shoot", "blossom", "fruit", "branch", "trunk", "root_crown", "whole_tree"]
PARTS: tuple[Part, ...] = get_args(Part)
Tool = Literal["hand_lens", "knife"]
TOOLS: tuple[Tool, ...] = get_args(Tool)


@dataclass(frozen=True, slots=True)
class Sign:
    """One sign of the controlled vocabulary.

    `name` and `ask` are what a person reads; `synonyms` are the words in which customers say it. `needs` names the tool
    without which it cannot be told; None where eyes, hands and nose do.
    """

    id: str
    part: Part
    name: str
    name_es: str
    ask: str
    ask_es: str
    synonyms: tuple[str, ...] = ()
    synonyms_es: tuple[str, ...] = ()
    needs: Tool | None = None
