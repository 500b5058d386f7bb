"""Files that a spreadsheet program or a slip made odd: a sentence each, and never a traceback."""

from __future__ import annotations

import csv
import io
import os
import shutil
from pathlib import Path

import pytest

from calc import machines, matrix
from calc.errors import InputError
from calc.machines import lists
from scripts import _setup, build, shop

EXAMPLE = _setup.ROOT / "scripts" / "example-shop"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the example's folder."""
    return Path(shutil.copytree(EXAMPLE, tmp_path / "shop"))


def problems_with(folder: Path, name: str, content: bytes) -> list[str]:
    """Put `content` into one file of the shop, and return what is said about that file."""
    (folder / name).write_bytes(content)
    found = shop.read(folder).problems
    assert all(each.startswith(str(folder / name)) and "\n" not in each for each in found), found
    return list(found)


# The csv module's own limit is 131,072 characters in a cell.
@pytest.mark.parametrize(("length", "said"), [(131_072, "longer than 80"), (131_073, "131,072")])
def test_a_cell_as_long_as_a_book(folder: Path, length: int, said: str) -> None:
    rows = f"name\nGood\n\nAnother\n{'x' * length}\nAfter\n"
    (problem,) = problems_with(folder, "tractors.csv", rows.encode())
    assert f"{folder / 'tractors.csv'}, line 5" in problem and said in problem


def test_a_double_quote_left_open(folder: Path) -> None:
    (problem,) = problems_with(folder, "tractors.csv", b'name\nA\n"B\n' + b"C\n" * 80_000)
    assert "line 3" in problem and "double quote left open" in problem


def test_a_first_line_as_long_as_a_book(folder: Path) -> None:
    (problem,) = problems_with(folder, "tractors.csv", b"n" * 140_000)
    assert "line 1" in problem


@pytest.mark.parametrize("digits", [4_299, 4_301, 5_000])
def test_a_number_of_thousands_of_digits(folder: Path, digits: int) -> None:
    number = b"9" * digits
    (problem,) = problems_with(folder, "tractors.csv", b"name,tractor_mass\nA," + number + b" lb\n")
    assert "line 2, column tractor_mass" in problem and len(problem) < 400
    (folder / "tractors.csv").write_text("name\nA\n")
    (problem, *_) = problems_with(folder, "shop.toml", b'name = "A"\n\nregion = ' + number + b"\n")
    assert ("line 3" if digits > 4_300 else "region") in problem and len(problem) < 400


@pytest.mark.parametrize("depth", [1_000, 20_000])
def test_lists_a_thousand_deep(folder: Path, depth: int) -> None:
    text = b'name = "A"\nnotes = ' + b"[" * depth + b"]" * depth
    (problem, *_) = problems_with(folder, "shop.toml", text)
    assert "line 2" in problem and len(problem) < 400
    tables = b'name = "A"\n\npage_notes = ' + b"{a = " * depth + b"1" + b"}" * depth
    (problem, *_) = problems_with(folder, "shop.toml", tables)
    assert "line 3" in problem or "page_notes" in problem


def test_a_table_nested_a_thousand_deep_by_its_name(folder: Path) -> None:
    name = b".".join([b"a"] * 1_000)
    (problem, *_) = problems_with(folder, "shop.toml", b'name = "A"\n[' + name + b"]\nx = 1\n")
    assert "there is no such setting" in problem


def test_a_mark_in_front_and_semicolons_are_taken(folder: Path) -> None:
    text = "\ufeffname;tractor_mass\r\nA;1,650 lb\r\n"
    assert problems_with(folder, "tractors.csv", text.encode()) == []
    (machine,) = shop.read(folder).tractors
    assert machine.inputs == {"tractor_mass": "1,650 lb"}
    assert problems_with(folder, "shop.toml", "\ufeffname = 'A'\n".encode()) == []


@pytest.mark.parametrize("encoding", ["latin-1", "cp1252", "utf-16"])
def test_another_encoding(folder: Path, encoding: str) -> None:
    (problem,) = problems_with(folder, "tractors.csv", "name\nGood\nFlügel\n".encode(encoding))
    line = 1 if encoding == "utf-16" else 3
    assert f"tractors.csv, line {line}: it isn't UTF-8 text" in problem


@pytest.mark.parametrize(
    "content", [b"", b"\0", b"\r\r\r", b'"', b"\xef\xbb\xbf", b",,,\n", b"name\r"]
)
def test_hardly_anything(folder: Path, content: bytes) -> None:
    problems_with(folder, "tractors.csv", content)


def test_a_folder_in_place_of_a_file(folder: Path) -> None:
    (folder / "tractors.csv").unlink()
    (folder / "tractors.csv").mkdir()
    (problem,) = shop.read(folder).problems
    assert problem == f"{folder / 'tractors.csv'} can't be read: Is a directory."


def test_a_file_of_unlikely_size(folder: Path) -> None:
    with (folder / "tractors.csv").open("wb") as handle:
        handle.truncate(10_000_001)
    with pytest.raises(InputError, match="is larger than 10,000,000 bytes"):
        lists.read_text(folder / "tractors.csv")


def test_a_folder_without_rights(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder.chmod(0)
    try:
        if os.geteuid() == 0:  # whom no rights keep out
            monkeypatch.setattr(build.os, "access", lambda path, mode: False)
        with pytest.raises(_setup.SetupError, match=r"^The folder .* may not be opened"):
            build.shop_settings(folder)
    finally:
        folder.chmod(0o755)


def test_files_without_rights(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for path in folder.iterdir():
        path.chmod(0)
    if os.geteuid() == 0:

        def refuse(path: Path) -> bytes:
            raise PermissionError(13, "Permission denied", str(path))

        monkeypatch.setattr(Path, "read_bytes", refuse)
    found = [each for each in shop.read(folder).problems if "can't be read" in each]
    assert sorted(found) == sorted(
        f"{folder / name} can't be read: Permission denied."
        for name in ("shop.toml", "tractors.csv", "implements.csv", "round_up.csv")
    )


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "\uff1d"])
def test_no_cell_of_the_matrix_is_a_formula(start: str) -> None:
    tractor = machines.Machine(f"{start}HYPERLINK(1)", "tractor", {})
    implement = machines.Machine(f"{start}2 ft", "implement", {})
    built = matrix.build([tractor], [implement])
    _, row = csv.reader(io.StringIO(matrix.as_csv(built), newline=""))
    assert row[:2] == [f"'{start}HYPERLINK(1)", f"'{start}2 ft"]
    assert not [cell for cell in row if cell[:1] in tuple("=+-@\t\r")]
