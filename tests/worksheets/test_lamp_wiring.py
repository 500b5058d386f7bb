"""Wire, fuse and charging: the fuse protects the wire, and no remedy forgets it."""

import pytest

from calc import model, search, tables, worksheets
from calc.model import leading
from calc.render import concerns
from calc.render.answer import answer_html
from tests.worksheets.asking import findings, output

SHEET = worksheets.load("lamp-wiring")
GIVEN = {
    "charging": "alternator",
    "output": "60 A",
    "head_count": "2",
    "head_lamp": "halogen-55",
    "tail_count": "2",
    "tail_lamp": "tail-5",
    "flash_count": "4",
    "flash_lamp": "signal-21",
    "beacon_count": "0",
    "work_count": "2",
    "work_lamp": "halogen-55",
    "other_current": "3 A",
    "circuit": "work",
    "run": "3 ft",
    "gauge": "14",
    "drop_allowed": "10 %",
}

# The largest fuse of each gauge in a harness: FAA AC 43.13-1B table 11-3 (fuse column) for 20 to
# 10 gauge, and half of 33 CFR 183.425's 105 degC column (a bundle of 7 to 24) for 8 and 6 gauge.
LARGEST = {20: 5, 18: 10, 16: 10, 14: 15, 12: 20, 10: 30, 8: 40, 6: 60}


def answer(ask="", **typed):
    return search.answer(SHEET, {**GIVEN, **typed}, ask=ask)


def lead(found):
    return leading.lead(found, "us")


@pytest.mark.parametrize(("gauge", "amps"), LARGEST.items())
def test_a_fuse_larger_than_the_wire_is_a_danger(gauge, amps):
    fits = answer(gauge=f"{gauge}", fuse=f"{amps} A", work_count="1", work_lamp="led-10")
    assert findings(fits)["wire_fuse"] != model.OVER
    if amps == 60:
        return  # nothing larger can be typed
    larger = answer(gauge=f"{gauge}", fuse=f"{amps + 1} A", work_count="1", work_lamp="led-10")
    assert findings(larger)["wire_fuse"] == model.OVER
    assert larger.verdicts[0].check.grade == model.DANGER


def test_the_named_case_is_over_and_says_thicker_wire():
    found = search.answer(
        SHEET,
        {
            "charging": "alternator",
            "output": "60 A",
            "circuit": "work",
            "work_count": "4",
            "gauge": "20",
            "run": "3 ft",
            "drop_allowed": "10 %",
            "fuse": "40 A",
        },
    )
    assert found.finding == model.OVER
    assert found.deciding.check.name == "wire_fuse"
    assert "5 A is the most" in lead(found)
    assert any("Thicker wire" in model.words(r.text, "us") for r in found.advice.remedies)


@pytest.mark.parametrize("gauge", ["20", "18", "16", "14", "12", "10", "8", "6"])
@pytest.mark.parametrize("fuse", ["", "5 A", "15 A", "30 A", "40 A", "60 A"])
@pytest.mark.parametrize("count", ["1", "4", "8"])
def test_no_remedy_is_a_fuse_too_large_for_its_wire(gauge, fuse, count):
    typed = {"gauge": gauge, "fuse": fuse, "work_count": count}
    found = answer(**typed)
    for remedy in filter(lambda r: r.set, found.advice.remedies):
        after = {**typed, **remedy.set}
        if after["fuse"]:
            amps = float(after["fuse"].split()[0])
            was_over = findings(found).get("wire_fuse") == model.OVER
            left_alone = was_over and "wire_fuse" not in remedy.mends
            assert left_alone or amps <= LARGEST[int(after["gauge"])]
        again = answer(**after)
        for name in remedy.mends:
            assert findings(again).get(name) != model.OVER, (name, remedy)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({"gauge": "20", "fuse": "40 A", "work_count": "4"}, "wire_fuse"),
        ({"gauge": "14", "fuse": "30 A", "work_count": "1"}, "wire_fuse"),
        ({"gauge": "18", "work_count": "4"}, "wire_carries"),
        ({"gauge": "8", "fuse": "7.5 A"}, "fuse_holds"),
        ({"charging": "dynamo", "output": "20 A", "gauge": "8"}, "field"),
        ({"charging": "dynamo", "output": "14 A", "gauge": "8"}, "road"),
        ({"flash_lamp": "led-turn", "flasher": "filament"}, "flasher"),
        ({"work_count": "12", "gauge": "4", "output": "150 A"}, "one_fuse"),
    ],
)
def test_every_broken_check_has_a_remedy(typed, name):
    found = answer(**typed)
    assert findings(found)[name] == model.OVER
    assert any(name in remedy.mends for remedy in found.advice.remedies)


def test_voltage_loss_is_advice():
    found = answer(run="80 ft", gauge="12", fuse="20 A")
    assert findings(found)["drop"] == model.OVER
    assert found.finding != model.OVER
    notes = [model.words(note, "us") for note in found.advice.notes]
    assert any("thinnest wire that loses no more" in note for note in notes)


def test_awg_and_sae_each_by_their_own_table_at_the_temperature_named():
    sae, awg = answer(), answer(wire_standard="AWG")
    # 3702 circular mils against 4107; 10.371 ohm per circular mil foot at 20 degC.
    drop = 2 * 55 / 12 * 6 * 10.371 / 3702
    assert output(sae, "drop") == pytest.approx(drop, rel=1e-4)
    assert output(awg, "drop") == pytest.approx(drop * 3702 / 4107, rel=2e-3)
    warm = answer(wire_temperature="50 C")
    assert output(warm, "drop") == pytest.approx(drop * (1 + 0.00393 * 30), rel=1e-4)


def test_the_figure_for_wires_alone_is_for_awg_only():
    typed = {"gauge": "14", "fuse": "20 A", "bundle": "alone"}
    assert findings(answer(**typed, wire_standard="AWG"))["wire_fuse"] != model.OVER
    assert findings(answer(**typed))["wire_fuse"] == model.OVER


def test_led_turn_lamps_want_a_flasher_made_for_them():
    assert findings(answer(flash_lamp="led-turn"))["flasher"] == model.UNKNOWN
    found = answer(flash_lamp="led-turn", flasher="electronic")
    assert findings(found)["flasher"] == model.WITHIN
    assert "flasher" not in findings(answer())


def test_what_wire_and_fuse_are_answered_together():
    found = answer("wire", work_count="4", run="12 ft")
    # 4 x 55 W / 12 V = 18.3 A, times 1.25 is 22.9 A: a 25 A fuse, for which 10 gauge is the
    # thinnest (30 A).
    assert output(found, "need_fuse") == 25
    assert output(found, "need_gauge") == 10
    assert "10 gauge" in lead(found)
    assert "25 A fuse" in lead(found)


def test_flashers_that_nobody_named_dont_keep_charging_open():
    typed = {"charging": "alternator", "output": "40 A", "work_count": "4", "work_lamp": "led-48"}
    found = search.answer(SHEET, typed, ask="carry")
    assert found.finding == model.WITHIN
    assert lead(found).startswith("Yes")
    with_led = search.answer(SHEET, {**typed, "flash_lamp": "led-turn"}, ask="carry")
    assert with_led.deciding.check.name == "flasher"


def test_a_larger_fuse_is_never_named_without_the_most_for_the_wire():
    # 4 x 55 W / 12 V x 1.25 = 22.9 A asks for 25 A, and 20 A is the most for 12 gauge.
    found = answer("fuse", work_count="4", gauge="12", fuse="15 A")
    assert "20 A is the most for 12 gauge wire" in lead(found)


def test_a_wire_is_not_sized_for_lamps_that_nobody_counted():
    found = search.answer(SHEET, {"run": "40 ft"}, ask="wire")
    assert [item.name for item in found.missing] == ["work_count", "circuit"]
    assert not search.answer(SHEET, {"circuit": "head"}, ask="wire").missing


def test_two_circuits_mend_the_wire_as_well():
    found = answer("wire", work_count="12", gauge="4", output="150 A")
    split = next(r for r in found.advice.remedies if r.key.endswith("split"))
    assert "wire_carries" in split.mends


def test_who_asks_for_a_wire_is_not_offered_a_flasher():
    typed = {"flash_lamp": "led-turn", "run": "10 ft", "work_count": "2"}
    found = search.answer(SHEET, typed, ask="wire")
    assert any(r.key.endswith(".flasher") for r in found.advice.remedies)
    assert not any(r.key.endswith(".flasher") for r in concerns.helping(found))
    shown = answer_html(found).partition("<details")[0]
    assert "electronic flasher" not in shown.partition("ys-remedies")[2]


@pytest.mark.parametrize("lamp", [row["lamp"] for row in tables.rows("road/lamp_loads")])
def test_every_wire_and_fuse_that_are_named_protect_and_carry(lamp):
    fields = {item.name: item for item in SHEET.fields}
    if lamp not in [option.value for option in fields["work_lamp"].options]:
        return
    for run in ("2 ft", "15 ft", "60 ft"):
        found = answer("wire", work_lamp=lamp, run=run)
        gauge, fuse = int(output(found, "need_gauge")), output(found, "need_fuse")
        again = answer(work_lamp=lamp, run=run, gauge=f"{gauge}", fuse=f"{fuse} A")
        assert not {"wire_fuse", "wire_carries", "fuse_holds", "drop"} & {
            name for name, finding in findings(again).items() if finding == model.OVER
        }


def test_does_this_fuse_protect():
    assert lead(answer("fuse", fuse="10 A", gauge="16", work_lamp="led-18")).startswith("Yes")
    assert lead(answer("fuse", fuse="15 A", gauge="16")).startswith("No")
    assert "Which fuse is fitted?" in lead(answer("fuse", gauge="12"))


def told(**typed):
    return lead(search.answer(worksheets.load("lamp-wiring"), typed, ask="fuse"))


def test_a_fuse_is_named_by_the_gauge_or_for_the_lamps_and_never_over_all_wires():
    for row in tables.rows("road/wire_fuses")[1:-2]:  # 18 to 8 gauge, which lamps are wired with
        assert f"{row['harness_fuse']} A for {row['gauge']}" in told()
    assert told(work_count="4", work_lamp="halogen-55").startswith("A 25 A fuse")
    assert "10 A is the most for 18" in told(gauge="18")
    # 10 A is just inside what 18 gauge takes, 11 A wants 14 gauge.
    assert "needs 18 gauge" in told(fuse="10 A")
    assert "needs 14 gauge" in told(fuse="11 A")


def test_trap_work_lamps_count_in_the_field_and_not_on_the_road():
    with_lamps, without = answer(), answer(work_count="0")
    assert output(with_lamps, "road_load") == output(without, "road_load")
    assert output(with_lamps, "field_load") > output(without, "field_load")


def test_load_is_the_worked_example():
    found = answer(circuit="head", tail_lamp="tail-8")
    assert output(found, "road_load") == pytest.approx(16.9, abs=0.1)
    assert output(found, "circuit_current") == pytest.approx(2 * 55 / 12)
    assert output(found, "need_fuse") == 15


def test_run_is_doubled_for_a_wire_back():
    back, frame = answer(way_back="wire"), answer(way_back="frame")
    assert output(back, "drop") == pytest.approx(output(frame, "drop") * 2 / 1.5)


def test_unknown_output_takes_the_range_of_the_kind():
    assert findings(answer(output=""))["road"] == model.WITHIN
    assert findings(answer(output="", charging=""))["road"] == model.UNKNOWN


def test_an_unlit_circuit_has_no_wire_check():
    assert "drop" not in findings(answer(work_count="0"))


# 4 x 55 W / 12 V = 18.3 A, times 1.25 is 22.9 A: 18 gauge takes 10 A, and 10 gauge 30 A.
FOUR = {"work_count": "4", "run": "12 ft", "fuse": ""}


def test_the_wire_that_is_fitted_is_asked_about_too():
    thin = answer("wire", **{**FOUR, "gauge": "18"})
    assert thin.finding == model.OVER and "too thin" in lead(thin) and "10 gauge" in lead(thin)
    thick = answer("wire", **{**FOUR, "gauge": "10"})
    assert thick.finding == model.WITHIN and "will do" in lead(thick)
    unsaid = answer("wire", **{**FOUR, "gauge": ""})
    assert unsaid.finding == model.WITHIN and lead(unsaid).startswith("10 gauge wire or thicker")


def test_voltage_lost_in_the_fitted_wire_is_said_and_is_advice():
    # 2 x 18 W / 12 V, 1.25 times, is far inside what 18 gauge carries; 25 ft of it lose 0.9 V.
    found = answer("wire", work_lamp="led-18", run="25 ft", gauge="18", drop_allowed="3 %", fuse="")
    assert found.finding == model.CLOSE
    assert "18 gauge loses" in lead(found)


def test_a_fitted_fuse_that_blows_is_said_with_the_wire():
    found = answer("wire", **{**FOUR, "gauge": "8", "fuse": "15 A"})
    assert found.finding == model.OVER and "it blows" in lead(found)


def test_a_thick_enough_wire_that_dims_the_lamps_is_no_plain_yes():
    # 2 x 48 W / 12 V over 40 ft of 14 gauge and back lose 1.56 V, more than 10 % of 12 V.
    dim = answer("thick", work_lamp="led-48", run="40 ft", fuse="")
    near = answer("thick", work_lamp="led-48", run="10 ft", fuse="")
    assert (dim.finding, near.finding) == (model.CLOSE, model.WITHIN)
    assert "loses 1.56 V" in lead(dim) and lead(near).startswith("Yes")


def test_warm_copper_wants_the_gauge_that_loses_no_more_than_allowed():
    # 9.17 A over 20.8 ft and 0.36 V: 5695 circular mils as tabled, 6115 at 120 degF, where copper
    # has 11.5 ohm per circular mil foot; SAE 12 gauge has 5833.
    typed = {"circuit": "head", "head_count": "2", "head_lamp": "halogen-55", "run": "10.4 ft"}
    for warm, gauge in (("", 12), ("68 F", 12), ("120 F", 10)):
        found = search.answer(SHEET, {**typed, "wire_temperature": warm}, ask="wire")
        assert output(found, "need_gauge") == gauge


def test_how_far_a_wire_may_run_is_where_it_loses_what_is_allowed():
    typed = {"gauge": "14", "work_count": "2", "work_lamp": "halogen-55"}
    found = search.answer(SHEET, typed, ask="far")
    # 1.2 V / (110 W / 12 V), over 10.371 ohm per circular mil foot of SAE 14 gauge, out and back.
    feet = 1.2 / (110 / 12) * 3702 / 10.371 / 2
    assert output(found, "longest") == pytest.approx(feet * 0.3048, rel=1e-3)
    assert lead(found).startswith("23.4 ft at most with 14 gauge wire")
    for run, finding in (("23.3 ft", model.WITHIN), ("23.6 ft", model.OVER)):
        near = search.answer(SHEET, {**typed, "run": run}, ask="wire")
        assert (findings(near)["drop"] == model.OVER) == (finding == model.OVER)
    thin = search.answer(SHEET, {**typed, "gauge": "18"}, ask="far")
    assert thin.finding == model.OVER and lead(thin).startswith("No distance")


WORK = {
    "charging": "alternator",
    "output": "40 A",
    "circuit": "work",
    "work_count": "2",
    "work_lamp": "halogen-55",
    "run": "12 ft",
    "flash_lamp": "signal-21",
}


# Two lamps of 55 W draw 9.17 A, a quarter more is 11.5 A: a 15 A fuse, and 14 gauge for it.
@pytest.mark.parametrize(
    ("gauge", "fuse", "broken", "remedy"),
    [
        ("14", "15 A", "", {}),
        ("14", "10 A", "fuse_holds", {"fuse": "15 A"}),
        ("16", "10 A", "wire_carries", {"gauge": "14", "fuse": "15 A"}),
        ("16", "", "wire_carries", {"gauge": "14"}),
    ],
)
def test_who_names_wire_or_fuse_gets_no_yes_for_the_alternator_alone(gauge, fuse, broken, remedy):
    found = search.answer(SHEET, {**WORK, "gauge": gauge, "fuse": fuse}, ask="carry")
    assert found.finding == (model.OVER if broken else model.WITHIN)
    assert found.deciding.check.name == broken or not broken
    assert [dict(each.set) for each in found.advice.remedies] == ([remedy] if remedy else [])


def test_an_output_that_nobody_named_is_never_out_of_proportion():
    found = search.answer(SHEET, {"work_count": "10", "work_lamp": "halogen-55"}, ask="carry")
    outputs = [each.set["output"] for each in found.advice.remedies if "output" in each.set]
    assert outputs == ["75 A"]


def test_no_thicker_wire_is_named_where_a_smaller_fuse_does_the_same():
    led = {**WORK, "work_lamp": "led-36", "gauge": "18", "fuse": "15 A"}
    found = search.answer(SHEET, led, ask="fuse")
    assert [dict(each.set) for each in found.advice.remedies] == [{"fuse": "10 A"}, {"gauge": "14"}]


# The largest fuses of the printed table: 18 and 16 gauge 10 A, 14 15 A, 12 20 A, 10 30 A, 8 40 A.
@pytest.mark.parametrize(
    ("gauge", "next_up", "most"),
    [(18, 15, 10), (16, 15, 10), (14, 20, 15), (12, 25, 20), (10, 40, 30), (8, 50, 40)],
)
def test_a_fuse_that_is_too_large_is_changed_for_the_largest_that_may_be(gauge, next_up, most):
    found = search.answer(SHEET, {"gauge": str(gauge), "fuse": f"{next_up} A"}, ask="fuse")
    assert found.finding == model.OVER
    assert dict(found.advice.remedies[0].set) == {"fuse": f"{most} A"}
