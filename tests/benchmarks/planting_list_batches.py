"""How fast lists are checked from the file to the told line, and in how much memory.

    export PYTHONPATH=.
    .venv/bin/python tests/benchmarks/planting_list_batches.py [lines ...]            100, 10,000 and 1,000,000
    .venv/bin/python tests/benchmarks/planting_list_batches.py --stored [lines ...]   kept in SQLite, by the worker
    .venv/bin/python tests/benchmarks/planting_list_batches.py --workers [lines]      one worker and two, PostgreSQL

Each size has a process of its own, in which a first list of 2,000 other lines warms what is remembered. The lists are
drawn with a fixed seed as customers write them: some cultivars are asked for far more often than others, roots and
sizes are those of the crop or left out, a tenth of the names is misspelt, and each row has a note of its own.
"""

from __future__ import annotations

import json
import os
import random
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from service import create_app
from service.batches.embedded import EmbeddedWorker
from service.domain.list_batch import Asking, Progress, SentList
from service.domain.site import Site
from service.intake.planting_list import Upload
from service.knowledge.catalogue import Catalogue
from service.observe.logs import configure_logs
from service.parts import Parts
from service.present.planting_list_parts import Desk, ListInParts
from service.questions.planting_list import ListPlace, list_reader
from service.questions.suggestion import Judges
from service.settings import CHECKOUT, read_settings
from service.storage.database import Database
from service.storage.list_progress import progress_of
from service.storage.migration import upgrade
from service.storage.planting_lists import keep_list, pieces_of
from tests.postgres import Cluster, free_port

SIZES = (100, 10_000, 1_000_000)
WARM_UP = 2_000
TERMS = {"site": {"hardiness_zone": "7b", "chill_hours": 900, "width_ft": 40, "depth_ft": 30}}
PLACE = ListPlace(Site(hardiness_zone=7.5, chill_hours=900, width_ft=40, depth_ft=30))


def write(path: Path, rows: int, catalogue: Catalogue, *, seed: int = 20270301) -> None:
    """A list of that many rows."""
    draw = random.Random(seed)
    named = list(catalogue.cultivars.values())
    draw.shuffle(named)
    weights = [1 / (place + 3) for place in range(len(named))]
    roots = {crop: [root.name for root in catalogue.rootstocks_of(crop)] for crop in catalogue.crops}
    with path.open("w", encoding="utf-8") as file:
        file.write("Qty,Fruit,Variety,Rootstock,Size,Price,Notes\n")
        for number, one in enumerate(draw.choices(named, weights, k=rows)):
            name = misspelt(one.denomination, draw) if draw.random() < 0.1 else one.denomination
            root = draw.choice(roots[one.crop]) if roots[one.crop] and draw.random() < 0.7 else ""
            size = draw.choice(("", "5 gal", "15 gal", "bare root"))
            file.write(f"{draw.randint(1, 6)},{one.crop.replace('_', ' ')},{name},{root},{size},"
                       f"{draw.randint(20, 60)}.50,row {number}\n")  # fmt: skip


def misspelt(name: str, draw: random.Random) -> str:
    """The name with a letter doubled, left out or replaced."""
    at = draw.randrange(len(name))
    return name[:at] + draw.choice(("", name[at] * 2, draw.choice("aeiorst"))) + name[at + 1 :]


def peak_mb() -> float:
    """The most memory that this process has had."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def service_parts(url: str) -> tuple[Parts, EmbeddedWorker]:
    """The parts of a service on a database, and its worker."""
    configure_logs("warning", "json")
    app = create_app(read_settings({"FRUITWRIGHT_DATABASE_URL": url, "FRUITWRIGHT_MATCHER": "plain"}))
    parts: Parts = app.extensions["fruitwright"]
    upgrade(parts.database)
    return parts, EmbeddedWorker(app)


def check(path: Path, parts: Parts) -> tuple[int, int]:
    """Check and tell one list; its lines, and the bytes that its parts take when packed."""
    lines = packed = 0
    desk = Desk(parts.rulebook, Judges(sweeping=parts.sweeping, asking=parts.sweeping))
    with path.open("rb") as file:
        checking = ListInParts(list_reader(parts.rulebook).stream(Upload(file, path.name)), PLACE, desk)
        tallies = []
        for part in checking.parts():
            lines, packed = lines + part.lines, packed + len(part.told)
            tallies.append(part.tally)
        checking.whole(tallies)
    return lines, packed


def keep(database: Database, path: Path) -> str:
    """Keep a list as the API does."""
    with path.open("rb") as file:
        return keep_list(database, SentList("file", TERMS, path.name), pieces_of(file), asking=Asking())


def measure(rows: int, *, stored: bool) -> dict[str, float]:
    """Check one list in this process."""
    with tempfile.TemporaryDirectory() as folder:
        url = f"sqlite:///{folder}/lists.sqlite3"
        parts, worker = service_parts(url)
        warm, path = Path(folder) / "warm.csv", Path(folder) / "list.csv"
        write(warm, WARM_UP, parts.rulebook.catalogue, seed=1)
        write(path, rows, parts.rulebook.catalogue)
        check(warm, parts)
        before = peak_mb()
        if stored:
            keep(parts.database, path)
        start, start_cpu = time.perf_counter(), time.process_time()
        packed = 0
        if stored:
            worker.run(until_done=True)
        else:
            _, packed = check(path, parts)
        seconds, cpu = time.perf_counter() - start, time.process_time() - start_cpu
        parts.database.close()
    added = peak_mb() - before
    return {"lines": rows, "second": rows / seconds, "cpu_second": rows / cpu, "mb": added, "bytes": packed / rows}


def two_against_one(rows: int) -> None:
    """The time of four lists with one worker and with two, from the first that is begun to the last that ends."""
    with tempfile.TemporaryDirectory(prefix="fruitwright-pg-") as name:
        cluster = Cluster(Path(name), free_port())
        cluster.make()
        cluster.start()
        try:
            took = {workers: time_of(workers, cluster, rows) for workers in (1, 2)}
        finally:
            cluster.stop()
    for workers, (seconds, cpu) in took.items():
        speeds = f"{4 * rows / seconds:,.0f} lines/s, {4 * rows / cpu:,.0f} lines/s of CPU"
        print(f"{workers} worker{'s'[: workers - 1]}: {speeds}")
    print(f"two against one: {took[1][0] / took[2][0]:.2f}; had each a core: {2 * took[1][1] / took[2][1]:.2f}")


def time_of(workers: int, cluster: Cluster, rows: int) -> tuple[float, float]:
    """The time that so many workers take for four lists, and that of their processors; lists before warm them up."""
    url = cluster.empty_database()
    parts, _ = service_parts(url.replace("+psycopg", ""))
    database, path = parts.database, Path(cluster.folder) / "list.csv"
    with running(workers, url) as pids:
        write(path, WARM_UP, parts.rulebook.catalogue, seed=1)
        for _ in range(workers):
            ended(database, [keep(database, path) for _ in range(2 * workers)])
        write(path, rows, parts.rulebook.catalogue)
        start, start_cpu = time.time(), cpu_of(pids)
        lists = ended(database, [keep(database, path) for _ in range(4)])
        last = max(datetime.fromisoformat(one.ended_at or "").timestamp() for one in lists)
        cpu = cpu_of(pids) - start_cpu
    database.close()
    return last - start, cpu


def cpu_of(pids: list[int]) -> float:
    """The seconds that these processes have had a processor."""
    found = (Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split() for pid in pids)
    return sum(int(one[11]) + int(one[12]) for one in found) / os.sysconf("SC_CLK_TCK")


def ended(database: Database, lists: list[str]) -> list[Progress]:
    """Wait for the end of all these lists."""
    while True:
        found = [one for one in (progress_of(database, list_id) for list_id in lists) if one is not None]
        if all(one.ended for one in found):
            return found
        time.sleep(0.1)


@contextmanager
def running(workers: int, url: str) -> Iterator[list[int]]:
    """So many workers in processes of their own."""
    own = {"FRUITWRIGHT_DATABASE_URL": url.replace("+psycopg", ""), "FRUITWRIGHT_MATCHER": "plain"}
    environment = {**os.environ, **own, "FRUITWRIGHT_LOG_LEVEL": "error"}
    command = [sys.executable, "-m", "service.cli", "worker"]
    processes = [subprocess.Popen(command, env=environment, cwd=CHECKOUT) for _ in range(workers)]
    try:
        yield [process.pid for process in processes]
    finally:
        for process in processes:
            process.terminate()
            process.wait()


def main() -> None:
    """Print one row a size, or the two rows of workers."""
    options = [one for one in sys.argv[1:] if one.startswith("--")]
    sizes = [int(one) for one in sys.argv[1:] if not one.startswith("--")]
    stored = "--stored" in options
    if "--one" in options:
        print(json.dumps(measure(sizes[0], stored=stored)))
        return
    if "--workers" in options:
        two_against_one(*(sizes or [20_000]))
        return
    print(f"{'lines':>10}{'lines/s':>12}{'lines/s of CPU':>18}{'memory added, MB':>20}{'packed bytes a line':>23}")
    for rows in sizes or SIZES:
        command = [sys.executable, __file__, "--one", str(rows), *(["--stored"] if stored else [])]
        environment = {**os.environ, "PYTHONPATH": str(CHECKOUT)}
        ran = subprocess.run(command, capture_output=True, text=True, check=True, env=environment)
        one = json.loads(ran.stdout)
        speeds = f"{one['second']:>12,.0f}{one['cpu_second']:>18,.0f}"
        print(f"{one['lines']:>10,.0f}{speeds}{one['mb']:>20.1f}{one['bytes']:>23,.0f}", flush=True)


if __name__ == "__main__":
    main()
