"""What the lists of the corpus come to, written down to be reviewed: the whole list, then line by line.

    python -m tests.lists.judged        # writes the verdicts anew; review the difference before it is kept

The garden lies in zone 7a with 1,100 hours of chill, measures 60 by 40 ft, and no fruit tree stands near.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from service.domain.planting_list import ReadList
from service.domain.site import Site
from service.intake.planting_list import Upload
from service.questions.planting_list import gather, list_reader
from service.reasoning.rulebook import Rulebook, load_rulebook
from service.settings import CHECKOUT
from tests.lists.golden import HERE, lists
from tests.questions.list_counter import ListCounter

VERDICTS = HERE / "verdicts.txt"
GARDEN = Site(hardiness_zone=7.0, chill_hours=1100, width_ft=60, depth_ft=40)
_MOST_LINES = 10_000


def read_as_sent(rulebook: Rulebook, path: Path) -> ReadList:
    """A list of the corpus as the service reads it."""
    reader = list_reader(rulebook)
    return gather(reader.stream(Upload(path.read_bytes(), path.name)), most=_MOST_LINES, pointer="/file")


def judged(rulebook: Rulebook) -> Iterator[str]:
    """The corpus judged, in lines."""
    counter = ListCounter(rulebook)
    for path in lists():
        checked = counter.judge(read_as_sent(rulebook, path), GARDEN, existing_trees=())
        yield f"{path.name}: {checked.verdict}"
        for line in checked.lines:
            yield f"  {line.line.line} {line.verdict}: {line.line.written}"


def main() -> None:
    """Write the verdicts anew."""
    VERDICTS.write_text("\n".join(judged(load_rulebook(CHECKOUT / "rules"))) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
