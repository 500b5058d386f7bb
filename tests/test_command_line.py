"""The command line: lists, fields, replies, JSON, and exit codes."""

import csv
import io
import json
import os
import subprocess
import sys

import pytest

from calc import model, worksheets
from calc.__main__ import BAD_INPUT, EXIT_CODES, main


def run(capsys, *arguments):
    code = main(arguments)
    out, err = capsys.readouterr()
    return code, out, err


def test_lists_the_worksheets(capsys):
    code, out, _ = run(capsys)
    assert code == 0
    assert [line.split()[0] for line in out.splitlines()] == list(worksheets.names())


def test_lists_fields_with_example_limits_and_typical_range(capsys):
    code, out, _ = run(capsys, "pairing")
    assert code == 0
    assert "tractor_mass: Tractor mass" in out
    assert "example: 1,650 lb; limits: 300 to 20,000 lb" in out
    assert "(hitch/PRACTICE)" in out and "typical: " in out


def test_prints_the_reply(capsys):
    code, out, err = run(capsys, "pairing", "--example", "working_width=48 in")
    assert code == 0 and not err
    assert not out.startswith("Tractor and implement") and " lb" in out.splitlines()[0]
    assert "Take care: " in out


def test_json_names_values_and_units(capsys):
    code, out, _ = run(
        capsys, "pairing", "--example", "--json", "implement_mass=500 lb", "cg_distance=36 in"
    )
    found = json.loads(out)
    assert (found["finding"], code) == ("over", 1)
    outputs = {o["name"]: o for o in found["outputs"]}
    assert outputs["front"]["unit"] == "kg"
    # F3 of the ballast formulas with the form's own numbers, in pounds and inches
    # and a driver of 75 kg who sits 0.15 of the wheelbase ahead of the rear axle.
    by_hand = (0.45 * 1650 * 62 - 500 * (28 + 36)) / 62 + 0.15 * 75 / 0.45359237
    assert outputs["front"]["value"] == pytest.approx(by_hand * 0.45359237)
    assert {"finding", "checks", "remedies", "cautions", "working", "sources"} <= set(found)
    assert all(step["source"] for step in found["working"])


def test_bad_input_gives_two_and_a_sentence_for_each_field(capsys):
    code, out, err = run(
        capsys, "pairing", "working_width=62 furlong", "tractor_mass=20 hp", "nope=1"
    )
    assert code == 2 and not out
    lines = dict(line.split(": ", 1) for line in err.splitlines())
    assert set(lines) == {"working_width", "tractor_mass", "nope"}
    assert "furlong" in lines["working_width"]


def test_what_is_not_given_is_unknown(capsys):
    """No number of the page's example takes part."""
    code, out, _ = run(capsys, "ballast", "--json", "tractor_mass=1650", "implement_kind=box_blade")
    found = json.loads(out)
    assert code in (0, 1, 3)
    assert (
        found["given"] == {"tractor_mass": "1650", "implement_kind": "box_blade"}
        and not found["example"]
    )
    sheet = worksheets.load("ballast")
    stands_in = {item["field"] for item in found["assumed"]}
    assert {item.name for item in sheet.fields if item.essential} <= {
        "tractor_mass",
        "implement_kind",
        *stands_in,
    }


def test_unknown_worksheet_and_odd_argument(capsys):
    assert run(capsys, "no-such")[0] == 2
    code, _, err = run(capsys, "pairing", "wide")
    assert code == 2 and "field=value" in err


def test_matrix(capsys, tmp_path):
    tractors, implements = tmp_path / "t.csv", tmp_path / "i.csv"
    tractors.write_text('name,tractor_mass,pto_power\nOne,"2,000 lb",21 hp\n')
    implements.write_text("name,working_width\nCut,60 in\nNarrow,48 in\n")
    code, out, err = run(capsys, "matrix", str(tractors), str(implements))
    rows = list(csv.DictReader(io.StringIO(out)))
    assert code == 0 and not err
    assert [row["implement"] for row in rows] == ["Cut", "Narrow"]
    assert run(capsys, "matrix", str(tractors), str(tmp_path / "none.csv"))[0] == 2
    assert run(capsys, "matrix", str(tractors))[0] == 2


def test_the_exit_code_tells_what_is_found(capsys):
    wanted = {"within": 0, "close": 0, "over": 1, "unknown": 3, "compared": 0}
    seen = set()
    for mass in ("200 lb", "400 lb", "900 lb", "200 to 900 lb"):
        got, out, _ = run(capsys, "ballast", "--example", "--json", f"implement_mass={mass}")
        finding = json.loads(out)["finding"]
        assert got == wanted[finding]
        seen.add(finding)
    assert {"within", "over", "unknown"} <= seen
    assert run(capsys, "ballast", "implement_mass=600 ft")[0] == 2


def test_every_finding_has_an_exit_code():
    assert set(EXIT_CODES) == set(model.FINDING_WORDS)
    assert BAD_INPUT not in EXIT_CODES.values()


def test_a_reader_who_has_enough_is_no_fault():
    command = f"{sys.executable} -m calc pairing --json | head -n 1"
    for _ in range(3):
        done = subprocess.run(["bash", "-c", f"set -o pipefail; {command}"], capture_output=True)
        assert done.stdout == b"{\n" and done.stderr == b""


def test_a_terminal_without_our_signs_is_no_fault():
    done = subprocess.run(
        [sys.executable, "-m", "calc", "pairing"],
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        capture_output=True,
    )
    assert done.returncode == 0 and done.stderr == b"" and b"tractor_mass" in done.stdout


def test_runs_as_a_module():
    done = subprocess.run(
        [sys.executable, "-m", "calc", "pairing", "working_width=9 lb"],
        capture_output=True,
        text=True,
    )
    assert done.returncode == 2
    assert done.stderr.startswith("working_width: ") and "Traceback" not in done.stderr
