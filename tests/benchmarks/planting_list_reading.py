"""How fast lists are read, and in how much memory: for 100, 10,000 and 1,000,000 lines, in a process each.

    .venv/bin/python tests/benchmarks/planting_list_reading.py [lines ...]

The lists are drawn from the catalogue with a fixed seed: as people write them, a tenth misspelt or unknown, with a
number of its own in every row, so that remembered readings do not flatter.
"""

from __future__ import annotations

import json
import random
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from service.intake.planting_list import ListReader, Upload
from service.knowledge.catalogue import Catalogue, read_catalogue
from service.settings import CHECKOUT

SIZES = (100, 10_000, 1_000_000)


def write(path: Path, rows: int, catalogue: Catalogue) -> None:
    """A list of that many rows."""
    draw = random.Random(20270301)
    names = [(one.denomination, one.crop.replace("_", " ")) for one in catalogue.cultivars.values()]
    roots = [root.name for root in catalogue.rootstocks.values()]
    with path.open("w", encoding="utf-8") as file:
        file.write("Qty,Fruit,Variety,Rootstock,Size,Price,Notes\n")
        for number in range(rows):
            name, crop = draw.choice(names)
            name = misspelt(name, draw) if draw.random() < 0.1 else name
            file.write(f"{draw.randint(1, 9)},{crop},{name},{draw.choice(roots)},{draw.choice((3, 5, 7, 15))} gal,"
                       f"{draw.randint(20, 60)}.50,row {number}\n")  # fmt: skip


def misspelt(name: str, draw: random.Random) -> str:
    """The name with a letter doubled, left out or replaced."""
    at = draw.randrange(len(name))
    return name[:at] + draw.choice(("", name[at] * 2, draw.choice("aeiorst"))) + name[at + 1 :]


def peak_bytes() -> int:
    """The most memory that this process has had."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024


def measure(rows: int) -> dict[str, float]:
    """Read one list in this process."""
    catalogue = read_catalogue(CHECKOUT / "rules")
    reader = ListReader(catalogue)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "list.csv"
        write(path, rows, catalogue)
        before, lines = peak_bytes(), 0
        start, start_cpu = time.perf_counter(), time.process_time()
        with path.open("rb") as file:
            for _ in reader.stream(Upload(file, path.name)):
                lines += 1
        seconds, cpu = time.perf_counter() - start, time.process_time() - start_cpu
    added_mb = (peak_bytes() - before) / 2**20
    return {"lines": lines - 1, "per_second": lines / seconds, "per_cpu_second": lines / cpu, "added_mb": added_mb}


def main() -> None:
    """Print one row a size."""
    if sys.argv[1:2] == ["--one"]:
        print(json.dumps(measure(int(sys.argv[2]))))
        return
    print(f"{'lines':>10}{'lines/s':>12}{'lines/s of CPU':>18}{'memory added, MB':>20}")
    for rows in map(int, sys.argv[1:]) if sys.argv[1:] else SIZES:
        ran = subprocess.run([sys.executable, __file__, "--one", str(rows)], capture_output=True, text=True, check=True)
        one = json.loads(ran.stdout)
        speeds = f"{one['per_second']:>12,.0f}{one['per_cpu_second']:>18,.0f}"
        print(f"{one['lines']:>10,.0f}{speeds}{one['added_mb']:>20.1f}", flush=True)


if __name__ == "__main__":
    main()
