"""How far the search for a leak has gone: python tests/benchmarks/treatment_leaks.py [uses drawn, 50000 unless told]

A use is one product asked about for one tree on one day. First every crop, cause, stage, state and wait to the harvest
is asked of a shelf of products in order, one of each kind; then uses are drawn at random, each on a shelf of its own.
Every verdict is held to label_law.py, which shares no code with the service. Ends with 1 if any use leaked.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from service.reasoning.rulebook import load_rulebook
from service.settings import CHECKOUT
from tests.questions.label_counter import LabelCounter
from tests.questions.label_law import FORBIDDEN
from tests.questions.label_law_of_use import breaches
from tests.questions.label_uses import CAUSES, CROPS, Plain, made_up_record, made_up_use, record_in_order, swept_uses

KINDS = ("captan", "sulfur", "mineral oil", "copper octanoate", "spinosad", "zeta-cypermethrin")
DRAWN, PRODUCTS = 50_000, 2
Asked = tuple[Plain, list[Plain]]


def main() -> int:
    """Searches, tells what was found, and says whether anything leaked."""
    drawn = int(sys.argv[1]) if len(sys.argv) > 1 else DRAWN
    counter = LabelCounter(load_rulebook(CHECKOUT / "rules"))
    leaks = search("swept", swept(), counter) + search("drawn", at_random(drawn // PRODUCTS), counter)
    return 1 if leaks else 0


def swept() -> Iterator[Asked]:
    """Every use of the sweep on a shelf of one product of each kind, all in order."""
    printed: Plain = {"crops": CROPS[:-1], "pests": list(CAUSES)}
    shelf = [record_in_order(number, name, **printed) for number, name in enumerate(KINDS, 1)]
    for use in swept_uses():
        yield use, shelf


def at_random(uses: int) -> Iterator[Asked]:
    """Uses at random, the same ones every time."""
    draw = random.Random(2026)
    for _ in range(uses):
        shelf = [made_up_record(draw.choice, number) for number in range(1, PRODUCTS + 1)]
        yield made_up_use(draw.choice, shelf), shelf


def search(name: str, asked: Iterator[Asked], counter: LabelCounter) -> int:
    """How many verdicts were milder than the label and the law."""
    verdicts, leaks, begun = Counter[str](), 0, time.process_time()
    for use, shelf in asked:
        by_name = {record["id"]: record for record in shelf}
        for product, verdict in counter.verdicts(use, shelf).items():
            verdicts[verdict] += 1
            found = breaches(by_name[product], use, shelf=by_name)
            if (verdict == "allowed" and found) or (verdict != "forbidden" and found & set(FORBIDDEN)):
                leaks += 1
                print(f"  {verdict} in spite of {sorted(found)}: {use} {by_name[product]}")
    seconds = time.process_time() - begun
    print(f"{name}: {verdicts.total():,} uses in {seconds:.0f} s, {leaks} leaking; {dict(verdicts)}")
    return leaks


if __name__ == "__main__":
    sys.exit(main())
