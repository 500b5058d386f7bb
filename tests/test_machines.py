"""Lists of machines: what a file may hold, and what a machine fills."""

import pytest

from calc import machines, matrix, model, search, worksheets
from calc.__main__ import main
from calc.machines import vocabulary

DEMO = [machine for role in machines.ROLES for machine in machines.demo(role)]


def read(content, role="tractor"):
    return machines.read_machines(content, role)


def test_the_examples_are_whole():
    assert len(DEMO) >= 15
    for machine in DEMO:
        assert machine.inputs
        for name, text in machine.inputs.items():
            assert vocabulary.role(name) == machine.role
            assert vocabulary.field(name).read(text) is not None


def test_the_pairing_opens_with_two_of_the_examples():
    """A reader then sees in the lists which machines the page's example is about."""
    defaults = worksheets.load("pairing").examples()
    for role in machines.ROLES:
        shown = [
            machine
            for machine in machines.demo(role)
            if all(defaults.get(name) in (text, "", None) for name, text in machine.inputs.items())
        ]
        assert len(shown) == 1 and len(shown[0].inputs) >= 3


@pytest.mark.parametrize("name", worksheets.names())
def test_every_example_fills_every_worksheet(name):
    sheet = worksheets.load(name)
    names = [item.name for item in sheet.fields]
    for machine in DEMO:
        filled = machine.fill(names)
        assert set(filled) == {n for n in names if n in machine.inputs}
        for field, text in filled.items():
            item = sheet.field(field)
            if not isinstance(item, model.Choice):
                item.read(text)


def test_job_fields_are_left_alone():
    names = [item.name for item in worksheets.load("pairing").fields]
    filled = DEMO[0].fill(names) | DEMO[-1].fill(names)
    assert not {"material", "slope", "ground_speed", "altitude", "front_rule"} & set(filled)


def test_columns_go_by_name_or_by_label_and_cells_by_any_separator():
    expected = {"pto_power": "20 hp", "tractor_mass": "1,650 lb"}
    for content in (
        'name,pto_power,tractor_mass\nA,20 hp,"1,650 lb"\n',
        'Name,PTO power,Tractor mass\r\nA,20 hp,"1,650 lb"\r\n',
        "\ufeffname;PTO Power;tractor mass\nA;20 hp;1,650 lb\n",
        "name\tpto_power\ttractor_mass\nA\t20 hp\t1,650 lb\n\n",
    ):
        found, problems = read(content)
        assert not problems
        assert found == (machines.Machine("A", "tractor", expected),)


def test_fields_that_the_pairing_lacks_are_kept():
    found, problems = read("name,engine_power,rear_tire\nA,25 hp,11.2-24\n")
    assert not problems and found[0].inputs == {"engine_power": "25 hp", "rear_tire": "11.2-24"}


@pytest.mark.parametrize(
    ("row", "place"),
    [
        ("A,1650 ft,,", "line 3, column tractor_mass"),
        ("A,20 hp,,", "line 3, column tractor_mass"),
        ("A,900 to 800 lb,,", "line 3, column tractor_mass"),
        ("A,-5 lb,,", "line 3, column tractor_mass"),
        ("A,<script>,,", "line 3, column tractor_mass"),
        (",900 lb,,", "line 3, column name"),
        (f"{'A' * 81},900 lb,,", "line 3, column name"),
        ("Good,900 lb,,", "line 3, column name"),
        ("A,1,650 lb,,", "line 3"),
        ("A,,,25 in", "line 3, column lift_rated_at"),
    ],
)
def test_a_bad_row_is_named_by_line_and_column_and_left_out(row, place):
    content = f"name,tractor_mass,lift_capacity,lift_rated_at\nGood,900 lb,,\n{row}\n"
    found, problems = read(content)
    assert [machine.name for machine in found] == ["Good"]
    assert any(problem.startswith(f"tractors.csv, {place}") for problem in problems)


def test_lines_are_counted_as_an_editor_counts_them():
    content = 'name,tractor_mass\n"Two\nlines",900 lb\n\nA,heavy\n'
    found, problems = read(content)
    assert [machine.name for machine in found] == ["Two lines"]
    assert "line 5, column tractor_mass" in problems[0]


def test_trap_a_lift_figure_without_its_distance_is_refused():
    found, problems = read('name,lift_capacity\nA,"1,000 lb"\n')
    assert not found
    assert "line 2, column lift_rated_at" in problems[0] and "distance" in problems[0]


def test_a_strange_column_is_named_and_the_rest_is_used():
    found, problems = read("name,price,tractor_mass\nA,$9,900 lb\n")
    assert found[0].inputs == {"tractor_mass": "900 lb"}
    assert problems == (
        "tractors.csv, line 1, column price: no field of a tractor is called that; the column is "
        "left out.",
    )


@pytest.mark.parametrize("content", ["", "\n\n", "tractor_mass\n900 lb\n"])
def test_a_list_without_names_is_refused(content):
    found, problems = read(content)
    assert not found and len(problems) == 1


def test_a_list_that_is_far_too_long_is_cut():
    found, problems = read("name\n" + "".join(f"M{n}\n" for n in range(2100)))
    assert len(found) == machines.MOST_ROWS and "2,000" in problems[0]


def test_a_matrix_cell_says_what_its_link_says():
    tractors, implements = machines.demo("tractor")[1:3], machines.demo("implement")[:3]
    built = matrix.build(tractors, implements)
    sheet = worksheets.load("pairing")
    for row in built.cells:
        for cell in row:
            answer = search.answer(sheet, cell.inputs)
            assert (cell.finding, cell.title) == (
                answer.finding,
                answer.deciding.check.heading(answer.finding),
            )


def test_a_matrix_takes_the_job_it_is_given():
    tractors, implements = machines.demo("tractor")[2:3], machines.demo("implement")[1:2]
    light = matrix.build(tractors, implements, job={"material": "light"}).cells[0][0]
    heavy = matrix.build(tractors, implements, job={"material": "heavy", "none": "1"}).cells[0][0]
    assert heavy.margin < light.margin
    assert "material=heavy" in matrix.link(heavy) and "none" not in matrix.link(heavy)


@pytest.fixture
def lists(tmp_path):
    tractors, implements = tmp_path / "t.csv", tmp_path / "i.csv"
    tractors.write_text('name,tractor_mass\nA,"2,000 lb"\nB,heavy\n')
    implements.write_text("name,implement_kind,working_width\nCut,rotary_cutter_light,60 in\n")
    return str(tractors), str(implements)


def test_the_command_names_the_file_the_line_and_the_column(lists, capsys):
    assert main(["matrix", *lists]) == 2
    out, err = capsys.readouterr()
    assert out.count("\n") == 2
    assert err.startswith(f"{lists[0]}, line 3, column tractor_mass: ")


def test_the_command_takes_another_job(lists, capsys):
    main(["matrix", *lists, "material=heavy"])
    assert "material=heavy" in capsys.readouterr().out
    assert main(["matrix", *lists, "material=soup"]) == 2
    assert capsys.readouterr().err.startswith("material: ")


def test_the_command_says_when_a_file_is_not_text(lists, capsys):
    with open(lists[1], "wb") as handle:
        handle.write(b"name\nFl\xfcgel\n")
    assert main(["matrix", *lists]) == 2
    assert "isn't UTF-8" in capsys.readouterr().err
