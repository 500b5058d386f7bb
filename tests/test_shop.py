"""A dealer's folder: what is taken from it, and what is named as wrong."""

import html
import json
import re
import shutil
from pathlib import Path

import pytest

from calc import links, machines, model, search, worksheets
from calc.render import parts, yard
from scripts import _environment, _setup, build, shop

EXAMPLE = _setup.ROOT / "scripts" / "example-shop"


@pytest.fixture
def folder(tmp_path):
    return Path(shutil.copytree(EXAMPLE, tmp_path / "shop"))


@pytest.fixture
def built_for(monkeypatch):
    """Make a folder the one that the build is for."""

    def choose(folder):
        monkeypatch.setenv(shop.FOLDER_VARIABLE, str(folder))
        shop.current.cache_clear()

    yield choose
    shop.current.cache_clear()


def test_the_example_is_taken_whole():
    read = shop.read(EXAMPLE)
    assert read.problems == ()
    assert (read.name, read.region, read.units) == ("Example Yard", "OH", "us")
    assert len(read.tractors) == 3 and len(read.implements) == 4
    assert read.notes and read.page_notes


def test_bad_rows_are_named_with_file_line_and_column(folder):
    with (folder / "tractors.csv").open("a") as handle:
        handle.write("Bad,,compact_light,19 lb,,,,,,,\n")
    with (folder / "implements.csv").open("a") as handle:
        handle.write("Odd,,,no_such_kind,60 in,,,\n")
    read = shop.read(folder)
    assert read.tractors[3].inputs == {"tractor_kind": "compact_light"}
    assert read.implements[4].inputs == {"working_width": "60 in"}
    assert len(read.problems) == 2
    assert f"{folder / 'tractors.csv'}, line 5, column pto_power" in read.problems[0]
    assert f"{folder / 'implements.csv'}, line 6, column implement_kind" in read.problems[1]


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ('name = "A"\nregion = "Atlantis"\n', "region"),
        ('name = "A"\nunits = "furlongs"\n', "units"),
        ('name = "A"\ncolour = "red"\n', "colour: there is no such setting"),
        ('name = "A"\nnotes = "one"\n', "notes: a list"),
        ('name = "A"\nnotes = ["one", 2]\n', "notes, note 2: a text"),
        ('name = "A"\n[page_notes]\n"road/road" = 3\n', "page_notes, road/road: a text"),
        ('name = "A"\n[page_notes]\n"no/page" = "x"\n', "no page “no/page”"),
        ('contact = "x"\n', "no name"),
        ("name = 5\n", "name: a text"),
        (f'name = "{"A" * 300}"\n', "name: a text"),
        ("name = \n", "shop.toml:"),
    ],
)
def test_a_setting_that_means_nothing_is_named_and_left_out(folder, settings, said):
    (folder / "shop.toml").write_text(settings)
    read = shop.read(folder)
    assert any(said in problem for problem in read.problems)
    assert read.units in ("us", "metric") and len(read.tractors) == 3


PART = '[[parts]]\nfor = "lawn.flag"\nnumber = "F-100"\nprice = "$9"\n'


def test_parts_are_attached_to_remedies(folder, built_for):
    (folder / "shop.toml").write_text('name = "A"\n' + PART)
    read = shop.read(folder)
    assert read.problems == ()
    assert [part.sentence() for part in read.parts] == ["Part F-100: $9."]
    built_for(folder)
    written = lists(shop.lists_script())["shop"]["parts"]
    assert written == [
        {"for": ["lawn.flag"], "number": "F-100", "name": "", "price": "$9", "stock": ""}
    ]


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ('parts = "x"\n', "parts: each part stands under"),
        ('[[parts]]\nnumber = "7"\n', "parts, part 1"),
        ('[[parts]]\nfor = "lawn.flag"\n', "parts, part 1"),
        ('[[parts]]\nfor = "no.such"\nnumber = "7"\n', "no page has a remedy called “no.such”"),
    ],
)
def test_a_part_that_means_nothing_is_named(folder, settings, said):
    (folder / "shop.toml").write_text('name = "A"\n' + settings)
    read = shop.read(folder)
    assert any(said in problem for problem in read.problems)
    assert read.name == "A" and len(read.tractors) == 3


def test_missing_and_unreadable_files_are_named(folder):
    (folder / "implements.csv").unlink()
    (folder / "tractors.csv").write_bytes("name\nGood\nFl\xfcgel\n".encode("latin-1"))
    read = shop.read(folder)
    assert any("implements.csv can't be read" in problem for problem in read.problems)
    assert any("tractors.csv, line 3: it isn't UTF-8" in problem for problem in read.problems)
    assert read.tractors == read.implements == ()


def test_a_region_goes_by_name_or_by_letters(folder):
    for written in ("ohio", "OH", "Ohio"):
        (folder / "shop.toml").write_text(f'name = "A"\nregion = "{written}"\n')
        assert shop.read(folder).region == "OH"


def test_strict_stops_before_anything_is_built(folder, capsys, monkeypatch, tmp_path):
    (folder / "tractors.csv").write_text("name,tractor_mass\nA,heavy\n")
    monkeypatch.setattr(_environment, "ensure_environment", lambda *groups: None)
    monkeypatch.setattr(build, "build", lambda *words, **more: pytest.fail("it was built"))
    out = tmp_path / "site"
    with pytest.raises(_setup.SetupError, match="Nothing was built"):
        build.main(["--shop", str(folder), "--strict", "--out", str(out)])
    assert "tractors.csv, line 2, column tractor_mass" in capsys.readouterr().err
    with pytest.raises(_setup.SetupError, match="There is no folder"):
        build.main(["--shop", str(tmp_path / "none"), "--out", str(out)])


def test_without_strict_the_build_goes_on(folder, capsys, monkeypatch, tmp_path):
    (folder / "tractors.csv").write_text("name,tractor_mass\nA,heavy\nB,900 lb\n")
    seen = {}
    monkeypatch.setattr(_environment, "ensure_environment", lambda *groups: None)
    monkeypatch.setattr(build, "build", lambda out, **more: seen.update(more))
    assert build.main(["--shop", str(folder), "--out", str(tmp_path / "site")]) == 0
    assert "line 2, column tractor_mass" in capsys.readouterr().err
    assert seen["settings"][shop.FOLDER_VARIABLE] == str(folder.resolve())


def lists(script):
    return json.loads(script.removeprefix("window.yardstickLists = ").rstrip(";\n"))


def test_the_lists_of_a_site_without_a_shop(built_for, monkeypatch):
    monkeypatch.delenv(shop.FOLDER_VARIABLE, raising=False)
    shop.current.cache_clear()
    written = lists(shop.lists_script())
    assert written["shop"] is None and [g["title"] for g in written["groups"]] == ["Examples"]
    assert shop.banner("pairing") == "" and shop.units() == "us"


def test_the_lists_of_a_shops_site(built_for):
    built_for(EXAMPLE)
    written = lists(shop.lists_script())
    assert written["shop"]["name"] == "Example Yard"
    assert [g["title"] for g in written["groups"]] == ["Example Yard", "Examples"]
    first = written["groups"][0]["machines"][0]
    assert first["role"] == "tractor" and first["inputs"]["pto_power"] == "19 hp"


def test_the_shops_lines_are_text_and_nothing_else(built_for, folder):
    (folder / "shop.toml").write_text('name = "<script>alert(1)</script>"\nnotes = ["<b>x</b>"]\n')
    built_for(folder)
    shown = shop.banner("pairing")
    assert "<script>" not in shown and "<b>" not in shown
    assert "&lt;script&gt;" in shown


def test_notes_stand_where_they_belong(built_for):
    built_for(EXAMPLE)
    assert "suitcase weights" in shop.banner("lift/lift-and-ballast")
    assert "suitcase weights" not in shop.banner("pairing")
    assert "Saturday mornings" in shop.banner("pairing")


def test_every_cell_of_the_matrix_has_a_word_a_shape_and_a_check_and_opens_its_pairing():
    tractors, implements = machines.demo("tractor"), machines.demo("implement")
    shown = yard.matrix_block(tractors, implements, "../pairing/")
    cells = re.findall(r'<td data-finding="(\w+)">(.*?)</td>', shown)
    assert len(cells) == len(tractors) * len(implements)
    sheet = worksheets.load("pairing")
    for finding, inside in cells:
        assert model.FINDING_WORDS[finding] in html.unescape(inside) and 'class="ys-mark"' in inside
        address = html.unescape(re.search(r'href="([^"]*)"', inside)[1])
        assert address.startswith("../pairing/#")
        answer = search.answer(sheet, links.read(address.partition("#")[2]).inputs)
        assert answer.finding == finding
        title = html.unescape(re.search(r"<small>(.*?)</small>", inside)[1])
        assert title == answer.deciding.check.heading(answer.finding)


def test_a_matrix_with_an_empty_list_says_so():
    assert "empty" in yard.matrix_block((), machines.demo("implement"), "../pairing/")


def test_a_matrix_that_no_phone_can_open_is_cut_and_says_so(monkeypatch):
    monkeypatch.setattr(yard, "MOST_CELLS", 11)
    shown = yard.matrix_block(machines.demo("tractor"), machines.demo("implement"), "p/")
    assert shown.count("<td data-finding") == 10
    assert "5 machines are left out" in shown


def test_a_machine_of_a_shops_list_is_told_with_its_stock_number_and_price(built_for, tmp_path):
    (tmp_path / "shop.toml").write_text('name = "Example Yard"\n')
    (tmp_path / "tractors.csv").write_text(
        'name,stock number,price,pto_power\nGray 20,4411,"$18,500",20 hp\nBlue 30,,,30 hp\n'
    )
    built_for(tmp_path)
    machines = lists(shop.lists_script())["groups"][0]["machines"]
    assert [each["told"] for each in machines] == ["stock 4411, $18,500", ""]


def test_a_bare_price_is_dollars_and_a_bare_stock_is_how_many():
    part = parts.read({"for": "lawn.flag", "number": 100, "price": 9.5, "stock": 12})
    assert part is not None and part.sentence() == "Part 100: $9.50, 12 in stock."
    none = parts.read({"for": "lawn.flag", "name": "flags", "price": 9, "stock": 0})
    assert none is not None and none.sentence() == "Flags: $9, not in stock."


def test_a_bad_note_loses_that_note_alone(tmp_path):
    (tmp_path / "shop.toml").write_text('name = "A"\nnotes = ["one", 2, "three"]\n')
    assert list(shop.read(tmp_path).notes) == ["one", "three"]
