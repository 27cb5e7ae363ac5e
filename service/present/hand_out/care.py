"""Topics on the tree that stands: thinning, pruning and its year."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from service.present.hand_out.topic import Scribe
from service.present.hand_out.words import days_of


def thinning(scribe: Scribe) -> dict[str, Any]:
    """How many to leave, and the work step by step."""
    answer = scribe.answer
    scribe.add("steps", (one["text"] for one in answer["steps"]), kind="steps")
    return scribe.topic(" ".join(one["text"] for one in answer["reasons"]), tree=scribe.tree())


def pruning(scribe: Scribe) -> dict[str, Any]:
    """When, the work step by step, and what waits."""
    answer = scribe.answer
    scribe.add("steps", (one["text"] for one in answer["steps"]), kind="steps")
    scribe.add("later", (_later(scribe, one) for one in answer["not_now"]))
    return scribe.topic(answer["when"]["text"], tree=scribe.tree())


def year(scribe: Scribe) -> dict[str, Any]:
    """The work of twelve months by date, tree by tree."""
    for tree in scribe.answer["trees"]:
        lines = [*(_task(scribe, one) for one in tree["tasks"]), *(_undated(one) for one in tree["undated"])]
        scribe.add("steps", lines)
        if lines:
            scribe.blocks[-1]["heading"] = tree["named"]
    return scribe.topic()


def _later(scribe: Scribe, cut: Mapping[str, Any]) -> str:
    back = cut["come_back"]
    when = back and scribe.phrase("come_back", days=days_of(back["from"], back["to"], language=scribe.language))
    return f"{cut['what']}: {' '.join(_ended(part) for part in (cut['why'], when) if part)}"


def _ended(text: str) -> str:
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?")) else text + "."


def _task(scribe: Scribe, task: Mapping[str, Any]) -> str:
    days = days_of(task["from"], task["to"], language=scribe.language)
    return " ".join(part for part in (f"{days}: {task['what']}.", task["text"]) if part)


def _undated(task: Mapping[str, Any]) -> str:
    return " ".join(part for part in (f"{task['what']}.", task.get("text")) if part)


def dated_trees(question: str, answer: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """The trees of a season plan with what a calendar needs of their tasks."""
    if question == "season-plans":
        for tree in answer["trees"]:
            tasks = [{name: task[name] for name in _OF_TASK} for task in tree["tasks"]]
            yield {"tree": tree["tree"], "named": tree["named"], "tasks": tasks}


_OF_TASK = ("uid", "from", "to", "what", "kind_name", "standing", "text", "basis", "spread_days", "cautions")
