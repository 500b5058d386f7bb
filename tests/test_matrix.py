"""A matrix of two lists: streamed, shared out, stopped and gone on with; always the same bytes."""

import json
import os
import random
import subprocess
import sys
import threading
import time
import tracemalloc
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from pathlib import Path

import distributed
import pytest

from calc import machines, matrix
from calc.__main__ import main
from calc.machines import Machine
from calc.matrix import file

ROOT = Path(__file__).parent.parent
TRACTORS, IMPLEMENTS = machines.demo("tractor")[:3], machines.demo("implement")[:4]


@pytest.fixture(scope="module")
def alone():
    return matrix.as_csv(matrix.build(TRACTORS, IMPLEMENTS))


@pytest.fixture
def small_blocks(monkeypatch):
    monkeypatch.setattr(matrix, "BLOCK", 2)


class Scrambled(Executor):
    """Does what it has in a shuffled order, so that the first is rarely done first."""

    def __init__(self, at_once):
        self.waiting, self.at_once, self.handed_out = [], at_once, 0

    def submit(self, fn, /, *args, **kwargs):
        future = Future()
        self.waiting.append((future, fn, args, kwargs))
        self.handed_out += 1
        if len(self.waiting) == self.at_once:
            threading.Thread(target=self.work).start()
        return future

    def work(self):
        tasks, self.waiting = self.waiting, []
        random.Random(7).shuffle(tasks)
        for future, fn, args, kwargs in tasks:
            future.set_result(fn(*args, **kwargs))


def test_a_matrix_is_the_same_whoever_works_it_out(capsys):
    """Two processes, or one; and whatever has the interface of executors."""
    few, some = TRACTORS[:2], IMPLEMENTS[:2]
    here = matrix.as_csv(matrix.build(few, some))
    with ThreadPoolExecutor(1) as executor:
        assert matrix.as_csv(matrix.build(few, some, executor=executor)) == here
    shop = ROOT / "scripts" / "example-shop"
    lists = ["matrix", str(shop / "tractors.csv"), str(shop / "implements.csv")]
    assert main(lists) == main([*lists, "--workers", "2"]) == 0
    out = capsys.readouterr().out
    assert out[: len(out) // 2] == out[len(out) // 2 :] != ""


def test_the_order_in_which_cells_come_changes_nothing(alone, small_blocks):
    executor = Scrambled(at_once=6)  # all of three tractors with twice two implements
    pairings = matrix.stream(TRACTORS, IMPLEMENTS, executor=executor)
    assert matrix.HEADING + "".join(matrix.csv_lines(pairings)) == alone
    assert executor.handed_out == 6


def test_a_cluster_of_two_workers_writes_the_same(tmp_path, alone, small_blocks):
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, dashboard_address=None, silence_logs=50
        ) as cluster,
        distributed.Client(cluster) as client,
        client.get_executor() as executor,
    ):
        file.write(tmp_path / "out.csv", TRACTORS, IMPLEMENTS, executor=executor)
        workers = client.run(os.getpid)
    assert len(set(workers.values()) - {os.getpid()}) == 2
    assert (tmp_path / "out.csv").read_bytes() == alone.encode()


def test_a_million_pairings_take_no_more_memory_than_a_few(monkeypatch):
    cell = matrix.Cell("within", "", "", "", {})
    monkeypatch.setattr(matrix, "pair", lambda *_: cell)
    some = [Machine(f"M{n}", "tractor", {}) for n in range(1000)]
    tracemalloc.start()
    try:
        for few, executor in ((some[:100], None), (some, Scrambled(at_once=1))):
            tracemalloc.reset_peak()
            before, _ = tracemalloc.get_traced_memory()
            pairings = matrix.stream(few, some, executor=executor)
            assert sum(1 for _ in pairings) == len(few) * 1000
            assert tracemalloc.get_traced_memory()[1] - before < 2_000_000
    finally:
        tracemalloc.stop()


def test_only_so_many_blocks_are_handed_out_ahead(monkeypatch):
    """Results that nobody has taken yet would fill the memory."""
    monkeypatch.setattr(matrix, "pair", lambda *_: matrix.Cell("within", "", "", "", {}))
    some = [Machine(f"M{n}", "tractor", {}) for n in range(500)]
    executor = Scrambled(at_once=1)
    pairings = matrix.stream(some, some, executor=executor)
    next(pairings)
    assert executor.handed_out == matrix.AHEAD
    pairings.close()


KILLED = """
import sys
from pathlib import Path
from calc import machines, matrix
from calc.matrix import file
matrix.BLOCK = 2
file.write(
    Path(sys.argv[1]), machines.demo("tractor")[:3], machines.demo("implement")[:4]
)
"""


def test_a_run_that_was_killed_goes_on_where_it_was(tmp_path, alone, small_blocks):
    out, note = tmp_path / "out.csv", tmp_path / "out.csv.part.json"
    run = subprocess.Popen([sys.executable, "-c", KILLED, str(out)], cwd=ROOT)
    until = time.monotonic() + 60
    while not note.exists() and time.monotonic() < until:
        time.sleep(0.01)
    run.kill()
    run.wait()
    done = json.loads(note.read_text())["done"]
    assert not out.exists() and 0 < done < 12
    with (tmp_path / "out.csv.part").open("ab") as part:
        part.write(b"half a li")  # what a kill may leave behind what is certain
    heard = []
    file.write(out, TRACTORS, IMPLEMENTS, say=heard.append)
    assert heard == [done]
    assert out.read_bytes() == alone.encode()
    assert [each.name for each in tmp_path.iterdir()] == ["out.csv"]


def stop_after(monkeypatch, path, count):
    """Run until so many pairings are worked out; the next one breaks off."""
    real, left = matrix.pair, iter(range(count))

    def pair(*args):
        if next(left, None) is None:
            raise KeyboardInterrupt
        return real(*args)

    with monkeypatch.context() as patch:
        patch.setattr(matrix, "pair", pair)
        with pytest.raises(KeyboardInterrupt):
            file.write(path, TRACTORS, IMPLEMENTS)


@pytest.mark.parametrize("change", ["job", "list", "cut", "garbled", "program"])
def test_only_the_same_run_is_gone_on_with(tmp_path, monkeypatch, small_blocks, change):
    out, note = tmp_path / "out.csv", tmp_path / "out.csv.part.json"
    stop_after(monkeypatch, out, 4)
    assert json.loads(note.read_text())["done"] == 4
    tractors, job = TRACTORS, {}
    if change == "job":
        job = {"material": "heavy"}
    elif change == "list":
        tractors = TRACTORS[::-1]
    elif change == "cut":
        (tmp_path / "out.csv.part").write_bytes(b"tractor")
    elif change == "garbled":
        note.write_text("{")
    else:
        monkeypatch.setattr(file, "SUFFIXES", (".py", ".csv"))
    heard = []
    file.write(out, tractors, IMPLEMENTS, job=job, say=heard.append)
    assert heard == [0]
    assert out.read_text() == matrix.as_csv(matrix.build(tractors, IMPLEMENTS, job=job))


def test_the_command_writes_a_file(tmp_path, capsys):
    for role in ("tractor", "implement"):
        (tmp_path / f"{role}.csv").write_text(f"name\nA {role}\n")
    lists = ["matrix", str(tmp_path / "tractor.csv"), str(tmp_path / "implement.csv")]
    assert main(lists) == 0
    printed = capsys.readouterr().out
    assert main([*lists, "--out", str(tmp_path / "out.csv")]) == 0
    assert (tmp_path / "out.csv").read_text() == printed
    assert main([*lists, "--out", str(tmp_path / "nowhere" / "out.csv")]) == 2
    assert "nowhere" in capsys.readouterr().err


def test_no_pairings_of_an_empty_list():
    assert matrix.build(TRACTORS, ()).cells == ((), (), ())
    assert matrix.build((), IMPLEMENTS).cells == ()


def _cells(implements):
    found, problems = machines.read_machines(implements, "implement")
    tractor, _ = machines.read_machines(
        "name,loader,mass lb,Lift @ 24 in\nA,on,2900,1400\n", "tractor"
    )
    assert tractor[0].inputs["lift_rated_at"] == "610"
    return [matrix.pair(tractor[0], one) for one in found], problems


def test_a_row_whose_kind_cannot_be_read_is_no_other_implement():
    (thing, grapple, other), problems = _cells(
        "name,kind,weight lb\nThing,gizmo,300\nG,Grapple,300\nSplitter,other,300\n"
    )
    assert len(problems) == 2
    for cell in (thing, grapple):
        assert cell.finding == "unknown" and "“Kind of implement”" in cell.sentence
    assert other.finding == "within"


def test_an_engine_power_is_what_of_it_reaches_the_shaft():
    (tractor,), problems = machines.read_machines("Model,HP,Wt,Loader\nA,25,1800,yes\n", "tractor")
    cutter, _ = machines.read_machines("name,kind,width\nC,cutter,5 ft\n", "implement")
    cell = matrix.pair(tractor, cutter[0])
    # A hydrostatic passes 0.75 to 0.83, the usual shares 0.8 to 0.9 less what its pump takes.
    assert not problems and cell.inputs["pto_power"] == "18.8 to 22.5 hp"
    assert cell.loader == "on" and cell.inputs["tractor_mass"] == "1800 lb"
    known, _ = machines.read_machines("name,HP,PTO hp\nA,25,19\n", "tractor")
    assert matrix.pair(known[0], cutter[0]).inputs["pto_power"] == "19 hp"
    assert tractor.fill(["engine_power", "pto_power"]) == {"engine_power": "25 hp"}


def test_a_cell_that_waits_for_a_number_says_for_which():
    (empty, loaded), _ = _cells("name,kind,load_carried\nA,forks,\nB,forks,200 lb\n")
    assert empty.finding == "unknown" and empty.sentence == "Say first: “Load on it”."
    assert loaded.finding != "unknown" and loaded.check != empty.check
