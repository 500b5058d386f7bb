"""The matrix of pairings and the sheet of what a tractor can run."""

from calc import capability, machines, matrix, model, search, worksheets
from tests.worksheets.compact import PAIRING

SHEET = worksheets.load("capability")


def test_a_cell_is_told_with_the_loader_on_and_off_where_that_differs():
    tractor, blade = machines.demo("tractor")[0], machines.demo("implement")[6]
    cell = matrix.pair(tractor, blade, job=matrix.JOB)
    assert cell.loader == "on" and cell.other is not None and cell.other.loader == "off"
    for one in (cell, cell.other):
        assert search.answer(PAIRING, one.inputs).finding == one.finding


def test_a_size_on_the_sheet_passes_the_pairing():
    tractor = machines.demo("tractor")[3]
    sheet = capability.of_machine(tractor)
    rows = sheet.answer.advice.tables[0].rows
    width = next(row[2] for row in rows if row[0] == "Rotary cutter")
    found = search.answer(
        PAIRING,
        {
            **tractor.fill([item.name for item in PAIRING.fields]),
            **capability.JOB,
            "loader": "on",
            "material": "typical",
            "ground_speed": "3 mph",
            "implement_kind": "rotary_cutter",
            "working_width": f"{width[0] / 0.0254:.0f} in",
        },
    )
    assert found.finding in (model.WITHIN, model.CLOSE)


def test_a_heavier_tractor_with_more_power_runs_no_less():
    def cutter(tractor):
        rows = capability.of_machine(tractor).answer.advice.tables[0].rows
        cell = next(row[2] for row in rows if row[0] == "Rotary cutter")
        return 0.0 if isinstance(cell, str) else cell[0]

    found = [cutter(tractor) for tractor in machines.demo("tractor")[:5]]
    assert found == sorted(found)


def test_what_is_blank_is_listed_to_be_read():
    given = {"tractor_mass": "1,650 lb", "pto_power": "20 hp", "loader": "on"}
    found = search.answer(SHEET, given)
    listed = {row[0] for row in found.advice.tables[2].rows}
    labels = [SHEET.field(name).label for name in ("loader_rating", "front_axle_limit")]
    assert set(labels) <= listed
    said = search.answer(SHEET, {**given, "loader_rating": "1,000 lb"})
    assert labels[0] not in {row[0] for row in said.advice.tables[2].rows}


def test_every_demo_tractor_has_a_sheet_as_text():
    for sheet in capability.build(machines.demo("tractor")[:2]):
        text = capability.as_text(sheet)
        assert text.startswith(sheet.name) and "Heaviest loads" in text
