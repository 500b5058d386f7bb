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
        ("A,1650 ft,gear,", "line 3, column tractor_mass"),
        ("A,20 hp,gear,", "line 3, column tractor_mass"),
        ("A,900 to 800 lb,gear,", "line 3, column tractor_mass"),
        ("A,-5 lb,gear,", "line 3, column tractor_mass"),
        ("A,<script>,gear,", "line 3, column tractor_mass"),
        ("A,1e9,gear,", "line 3, column tractor_mass"),
        ("A,,gear,25 in", "line 3, column lift_rated_at"),
    ],
)
def test_a_bad_cell_is_named_and_loses_that_cell_alone(row, place):
    content = f"name,tractor_mass,transmission,lift_rated_at\nGood,900 lb,,\n{row}\n"
    found, problems = read(content)
    assert [machine.name for machine in found] == ["Good", "A"]
    assert found[1].inputs == {"transmission": "gear"}
    assert len(problems) == 1 and problems[0].startswith(f"tractors.csv, {place}")


@pytest.mark.parametrize(
    ("row", "place"),
    [
        (",900 lb,,", "line 3, column name"),
        (f"{'A' * 81},900 lb,,", "line 3, column name"),
        ("Good,900 lb,,", "line 3, column name"),
        ("A,1,650 lb,,", "line 3"),
    ],
)
def test_a_row_without_a_name_or_with_shifted_cells_is_left_out(row, place):
    content = f"name,tractor_mass,lift_capacity,lift_rated_at\nGood,900 lb,,\n{row}\n"
    found, problems = read(content)
    assert [machine.name for machine in found] == ["Good"]
    assert any(problem.startswith(f"tractors.csv, {place}") for problem in problems)


@pytest.mark.parametrize(
    ("heading", "cell", "expected"),
    [
        ("tractor_mass_lb", "1650", "1650 lb"),
        ("Tractor mass (lb)", "1,650", "1,650 lb"),
        ("tractor mass, kg", "750", "750 kg"),
        ("tractor_mass_kg", "1650 lb", "1650 lb"),
        ("weight lb", "550-700", "550-700 lb"),
        ("mass [lbs]", "about 600", "about 600 lb"),
        ("tractor_mass", "1650", "1650 lb"),
    ],
)
def test_a_heading_names_the_unit_and_bare_numbers_take_it(heading, cell, expected):
    found, problems = read(f'name,"{heading}"\nA,"{cell}"\n')
    assert not problems
    assert found[0].inputs == {"tractor_mass": expected}


@pytest.mark.parametrize(
    ("heading", "filled"),
    [
        ("PTO HP", {"pto_power": "20 hp"}),
        ("Engine (kW)", {"engine_power": "20 kW"}),
        ("PTO", {}),  # may be its speed
        ("PTO rpm", {}),
        ("Lift in", {}),
    ],
)
def test_a_short_heading_is_a_field_where_its_unit_says_which(heading, filled):
    found, problems = read(f"name,{heading}\nA,20\n")
    assert found[0].inputs == filled
    assert bool(problems) is not bool(filled)


def test_bare_numbers_of_a_metric_list_are_metric():
    found, _ = machines.read_machines("name,tractor_mass\nA,750\n", "tractor", "", "metric")
    assert found[0].inputs == {"tractor_mass": "750 kg"}


def test_a_unit_of_another_kind_is_no_unit_of_a_column():
    found, problems = read("name,tractor_mass_hp\nA,20\n")
    assert found[0].inputs == {} and "column tractor_mass_hp" in problems[0]


@pytest.mark.parametrize(
    ("written", "option"),
    [
        ("24 in", "610"),
        ("24", "610"),
        ('24"', "610"),
        ("610", "610"),
        ("610 mm", "610"),
        ("12 in", "305"),
        ("305", "305"),
        ("0", "0"),
        ("At the ball ends", "0"),
    ],
)
def test_a_rating_distance_goes_in_inches_too(written, option):
    row = written.replace('"', '""')
    found, problems = read(f'name,lift_capacity_lb,lift_rated_at\nA,1000,"{row}"\n')
    assert not problems
    assert found[0].inputs == {"lift_capacity": "1000 lb", "lift_rated_at": option}


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("land plane", "land_plane"),
        ("Disk", "disk_harrow"),
        ("disk harrow", "disk_harrow"),
        ("plow", "plow"),
        ("Forks", "pallet_forks"),
        ("Box blade", "box_blade"),
        ("rotary-cutter", "rotary_cutter"),
    ],
)
def test_kinds_go_by_the_names_that_a_yard_uses(written, kind):
    found, problems = read(f"name,kind,width in\nA,{written},60\n", "implement")
    assert not problems
    assert found[0].inputs == {"implement_kind": kind, "working_width": "60 in"}


def test_what_the_loader_carries_is_listed_without_a_kind():
    found, problems = read("name,kind,weight lb\nA,Grapple,500\n", "implement")
    assert found[0].inputs == {"implement_mass": "500 lb"}
    assert len(problems) == 1 and "loader" in problems[0]


def test_stock_number_and_price_stand_beside():
    found, problems = read('name,stock number,price,tractor_mass\nA,4411,"$18,500",900 lb\n')
    assert not problems
    assert found[0].inputs == {"tractor_mass": "900 lb"}
    assert found[0].told == "stock 4411, $18,500"


def test_lines_are_counted_as_an_editor_counts_them():
    content = 'name,tractor_mass\n"Two\nlines",900 lb\n\nA,heavy\n'
    found, problems = read(content)
    assert [machine.name for machine in found] == ["Two lines", "A"]
    assert "line 5, column tractor_mass" in problems[0]


def test_trap_a_lift_figure_without_its_distance_is_not_used():
    found, problems = read('name,lift_capacity,tractor_mass\nA,"1,000 lb",900 lb\n')
    assert found[0].inputs == {"tractor_mass": "900 lb"}
    assert "line 2, column lift_rated_at" in problems[0] and "distance" in problems[0]


def test_a_strange_column_is_named_and_the_rest_is_used():
    found, problems = read("name,colour,tractor_mass\nA,red,900 lb\n")
    assert found[0].inputs == {"tractor_mass": "900 lb"}
    assert problems == (
        "tractors.csv, line 1, column colour: no field of a tractor is called that; the column is "
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
    assert light.finding != model.OVER and heavy.finding == model.OVER
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
    assert out.count("\n") == 3
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


EXPORTED = """\ufeffExample Yard: tractors in stock;;;;;;
;;;;;;
Stock #;Model;Weight (lb);HP;PTO HP (tested);Hitch lift lb @ 24 in;Asking price
4411;Yard 25;"1,984";24.8;19.1;1,320;$18,500
;;;;;;
4412;Yard 40;call;38;31 hp;n/a;27900
4413;Yard 50;3600#;47hp;-;2,100;
"""


def test_a_list_as_a_program_writes_it_is_read_and_only_what_is_bad_is_lost():
    found, problems = machines.read_machines(EXPORTED, "tractor")
    assert [m.inputs for m in found] == [
        {
            "tractor_mass": "1,984 lb",
            "engine_power": "24.8 hp",
            "pto_power": "19.1 hp",
            "lift_capacity": "1,320 lb",
            "lift_rated_at": "610",
        },
        {"engine_power": "38 hp", "pto_power": "31 hp"},
        {
            "tractor_mass": "3600 lb",
            "engine_power": "47hp",
            "lift_capacity": "2,100 lb",
            "lift_rated_at": "610",
        },
    ]
    assert [m.told for m in found] == ["stock 4411, $18,500", "stock 4412, $27,900", "stock 4413"]
    (problem,) = problems
    assert "line 6" in problem and "“call”" in problem


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("2 bottom plow", "plow"),
        ("Snowblower", "snow_blower"),
        ("6 ft bush cutter", "rotary_cutter"),
        ("heavy duty box scraper", "box_blade"),
        ("5' brush cutter", "rotary_cutter"),
        ("tow behind disc", "disk_harrow"),
        ("Round baler 4x4", "round_baler"),
        ("Pallet forks (rear)", "pallet_forks"),
        ("48in tiller - used", "rotary_tiller"),
        ("mid mount deck 60", "mid_mower"),
        ("snow blower (front)", "front_blower"),
        ("snow blower front", "front_blower"),
        ("Rotary Cutter (heavy)", "rotary_cutter"),
    ],
)
def test_kinds_go_by_what_customers_call_them_and_with_a_size(written, kind):
    ((machine,), problems) = machines.read_machines(f"name,Type\nA,{written}\n", "implement")
    assert machine.inputs == {"implement_kind": kind} and not problems


def test_a_name_comes_before_what_only_may_be_one():
    found, problems = machines.read_machines("Description,name\nUsed,Yard 1\n", "tractor")
    assert [m.name for m in found] == ["Yard 1"] and "Description" in problems[0]


def test_a_yard_without_names_has_its_stock_numbers():
    found, problems = read("Stock no,Kind,Width (in)\n4411,land plane,72\n,disk,60\n", "implement")
    assert [machine.name for machine in found] == ["land plane 4411"]
    assert len(problems) == 1 and "has no name" in problems[0]


@pytest.mark.parametrize("said", ["ball ends", "at the balls", "0"])
def test_a_lift_figure_at_the_balls_is_read_however_it_is_said(said):
    found, problems = read(f"name,lift_capacity,lift_rated_at\nA,1800 lb,{said}\n")
    assert not problems and found[0].inputs["lift_rated_at"] == "0"


@pytest.mark.parametrize(
    "written", ["loader forks", "skid steer forks", "chain harrow", "front mower"]
)
def test_a_kind_at_the_end_of_a_cell_is_none_where_it_is_another_tool(written):
    (machine,), problems = read(f"name,kind\nA,{written}\n", "implement")
    assert not machine.inputs and problems


@pytest.mark.parametrize(
    ("heading", "written", "means"),
    [
        ("loader", "Yes", {"loader": "on"}),
        ("loader", "n", {"loader": "none"}),
        ("cab", "no", {"cab": "open"}),
        ("mid_pto", "yes", {"mid_pto": "yes"}),
        ("kind", "Sub-compact", {"tractor_kind": "subcompact"}),
    ],
)
def test_yes_and_no_stand_under_what_a_tractor_may_have(heading, written, means):
    (machine,), problems = read(f"name,{heading}\nA,{written}\n")
    assert machine.inputs == means and not problems


@pytest.mark.parametrize(
    ("price", "told"),
    [("24500", "$24,500"), ("$18,900", "$18,900"), ("ask", "ask"), ("9,995", "$9,995")],
)
def test_a_bare_price_is_dollars(price, told):
    assert machines.Machine("A", "tractor", {}, {"price": price}).told == told
