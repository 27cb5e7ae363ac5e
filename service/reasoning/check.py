"""Checks a folder of rules as the service would at its start, and runs every example on both matchers.

    python -m service.reasoning.check rules [store-rules]
"""

from __future__ import annotations

import sys
from pathlib import Path

from service.domain.errors import KnowledgeFault
from service.reasoning.engine import EngineMatcher
from service.reasoning.examples import fault_of
from service.reasoning.faults import RulebookFaults
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook, load_rulebook


def check(folder: Path, *, overlay: Path | None = None) -> list[str]:
    """Everything that is wrong with a folder of rules, a sentence each; an empty list when it is sound."""
    try:
        rulebook = load_rulebook(folder, overlay=overlay)
    except RulebookFaults as many:
        return [str(fault) for fault in many.faults]
    except KnowledgeFault as fault:
        return [str(fault)]
    return check_examples(rulebook)


def check_examples(rulebook: Rulebook) -> list[str]:
    """The examples that do not do what they say."""
    faults: dict[str, None] = {}
    for matcher in (PlainMatcher(rulebook), EngineMatcher(rulebook)):
        for rule in rulebook.rules.values():
            for example in rule.examples:
                fault = fault_of(matcher, rule, example=example)
                if fault:
                    faults[fault] = None
    return list(faults)


def main(arguments: list[str]) -> int:
    """Prints what is wrong and answers with the exit code."""
    folder = Path(arguments[0] if arguments else "rules")
    faults = check(folder, overlay=Path(arguments[1]) if len(arguments) > 1 else None)
    print("\n".join(faults) or f"{folder}: every rule loads, and every example does what it says.")
    return 1 if faults else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
