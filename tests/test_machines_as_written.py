"""Lists as yards write them: kinds in names, places beside figures, units of a whole column."""

import pytest

from calc import machines
from tests.test_machines import read


def test_a_hay_rake_is_no_landscape_rake():
    ((machine,), problems) = machines.read_machines("name,Type\nA,hay rake\n", "implement")
    assert machine.inputs == {} and "hay rake" in problems[0]


def test_a_list_without_kinds_has_them_in_its_names():
    found, problems = read('Implement,Size\nchipper 3 inch,3"\nmystery,5 ft\n', "implement")
    assert [m.inputs.get("implement_kind") for m in found] == ["chipper", None] and not problems


def test_an_implement_beside_a_name_is_its_kind():
    ((machine,), problems) = read("name,implement\nA 12,plow\n", "implement")
    assert machine.name == "A 12" and machine.inputs == {"implement_kind": "plow"} and not problems


def test_the_width_of_a_digger_is_its_auger():
    ((machine,), problems) = read("name,kind,width\nA,PHD,9 in\n", "implement")
    assert machine.inputs["auger_diameter"] == "9 in" and "working_width" not in machine.inputs
    assert not problems


@pytest.mark.parametrize(
    ("written", "figure", "at"),
    [
        ("1985 (ball ends)", "1985 lb", "0"),
        ("2,320 lb @ 24 in", "2,320 lb", "610"),
        ("900 lb at 12 in", "900 lb", "305"),
        ("1500 at balls", "1500 lb", "0"),
    ],
)
def test_a_lift_figure_says_in_its_cell_where_it_holds(written, figure, at):
    ((machine,), problems) = read(f'name,lift capacity\nA,"{written}"\n', "tractor")
    assert machine.inputs == {"lift_capacity": figure, "lift_rated_at": at} and not problems


@pytest.mark.parametrize(
    ("cells", "read_as"),
    [
        (("3400 kg", "637"), "637 kg"),  # the unit of the others
        (("3400 kg", "1,400 lb", "1900"), "1900 lb"),  # several units: the form's
        (("1.3 t", "2700"), "2700 lb"),  # no tractor weighs 2700 t
    ],
)
def test_a_bare_number_has_the_unit_of_its_column_where_it_can(cells, read_as):
    rows = "".join(f'{n},"{cell}"\n' for n, cell in enumerate(cells, 1))
    found, problems = read(f"name,mass\n{rows}", "tractor")
    assert found[-1].inputs == {"tractor_mass": read_as} and not problems


@pytest.mark.parametrize(
    ("written", "loader"),
    [("w/ loader", "on"), ("Y", "on"), ("incl.", "on"), ("w/o", "none"), ("less loader", "none")],
)
def test_a_heading_that_asks_for_a_loader_takes_yes_and_no_as_yards_write_them(written, loader):
    ((machine,), problems) = read(f"Tractor,Loader?\nA,{written}\n", "tractor")
    assert machine.inputs == {"loader": loader} and not problems


@pytest.mark.parametrize(
    ("role", "heading", "cell", "inputs"),
    [
        ("implement", "Min HP", "25", {"power_needed": "25 hp"}),
        ("implement", "Max HP", "60", {"power_limit": "60 hp"}),
        ("implement", "PTO min", "25", {"power_needed": "25 hp"}),
        ("implement", "Cut", "5'", {"working_width": "5'"}),
        ("tractor", "Gross HP", "45", {"engine_power": "45 hp"}),
        ("tractor", "Power (kW)", "29", {"engine_power": "29 kW"}),
        ("tractor", "Hitch cat", "II", {"hitch_category": "2"}),
    ],
)
def test_more_headings_as_yards_write_them(role, heading, cell, inputs):
    ((machine,), problems) = read(f"name,{heading}\nA,{cell}\n", role)
    assert machine.inputs == inputs and not problems


@pytest.mark.parametrize(
    ("heading", "cell", "figure", "at"),
    [
        ("Lift @610 (kg)", "310", "310 kg", "610"),
        ("3-pt lift at 24 in", "1200", "1200 lb", "610"),
        ("Lift at the ball ends (lb)", "1,918", "1,918 lb", "0"),
        ('3pt lift 24" behind', "1146", "1146 lb", "610"),
        ("3pt lift", '1146 (24" behind)', "1146 lb", "610"),
    ],
)
def test_a_heading_tells_the_place_and_the_unit_of_a_lift(heading, cell, figure, at):
    first, second = (text.replace('"', '""') for text in (heading, cell))
    ((machine,), problems) = read(f'name;"{first}"\nA;"{second}"\n', "tractor")
    assert machine.inputs == {"lift_capacity": figure, "lift_rated_at": at} and not problems


@pytest.mark.parametrize(
    ("role", "heading", "cell", "field", "read_as"),
    [
        ("tractor", "Wt. (kg)", "1 640", "tractor_mass", "1640 kg"),
        ("tractor", "PTO-HP", "45 @ 540", "pto_power", "45 hp"),
        ("tractor", "Quick hitch", "Y", "quick_coupler", "u_frame"),
        ("tractor", "quick coupler", "quick hitch", "quick_coupler", "u_frame"),
        ("tractor", "driven", "MFWD", "driven", "four"),
        ("tractor", "driven", "2WD", "driven", "two"),
        ("tractor", "shaft", "540", "shaft", "540-6"),
        ("implement", "implement_shaft", "1000", "implement_shaft", "1000-21"),
        ("implement", "kind", "rotary cutter, light", "implement_kind", "rotary_cutter_light"),
    ],
)
def test_a_yard_writes_an_option_its_own_way(role, heading, cell, field, read_as):
    ((machine,), problems) = read(f"name;{heading}\nA;{cell}\n", role)
    assert machine.inputs == {field: read_as} and not problems


LONG = ["9" * 131_000, f"x{' ' * 131_000}x", f"1{' ' * 131_000}1", "at 24 " * 20_000, "a " * 65_000]


@pytest.mark.parametrize("long", LONG)
@pytest.mark.parametrize("heading", ["lift_capacity", "tractor_mass", "tractor_kind", "shaft"])
def test_a_cell_as_long_as_a_book_is_refused_and_not_pondered(long, heading):
    """Some patterns take the square of its length, which would be hours."""
    ((machine,), (problem,)) = read(f"name;{heading}\nA;{long}\n", "tractor")
    assert not machine.inputs and f"column {heading}: " in problem and "characters long" in problem


@pytest.mark.parametrize("long", LONG)
def test_a_heading_as_long_as_a_book_is_nothing(long):
    ((machine,), (problem,)) = read(f"name;{long}\nA;1\n", "tractor")
    assert not machine.inputs and "no field of a tractor is called that" in problem


@pytest.mark.parametrize(("length", "taken"), [(120, True), (121, False)])
def test_a_cell_has_as_many_characters_as_a_field_takes(length, taken):
    cell = f"{'0' * (length - 7)}1650 lb"
    ((machine,), problems) = read(f"name;tractor_mass\nA;{cell}\n", "tractor")
    assert bool(machine.inputs) is taken and bool(problems) is not taken
