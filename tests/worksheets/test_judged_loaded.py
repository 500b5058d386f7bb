"""What carries a load is judged loaded, and tires at the pressure in them."""

import pytest

from calc import model, search
from tests.worksheets.asking import findings, margins, output
from tests.worksheets.compact import BALLAST, LB, PAIRING, ask

LARGE = {
    "tractor_kind": "compact_large",
    "tractor_mass": "3,500 lb",
    "loader": "on",
    "lift_capacity": "2,500 lb",
    "lift_rated_at": "610",
}


@pytest.mark.parametrize(
    "kind, empty",
    [
        ("pallet_forks", "250 lb"),
        ("bale_spear", "150 lb"),
        ("spreader", "200 lb"),
        ("sprayer", "220 lb"),
        ("ballast_box", "90 lb"),
    ],
)
@pytest.mark.parametrize("sheet", [BALLAST, PAIRING])
def test_trap_what_carries_a_load_is_never_judged_empty(sheet, kind, empty):
    given = {**LARGE, "implement_kind": kind, "implement_mass": empty}
    found = search.answer(sheet, given)
    assert found.finding not in (model.WITHIN, model.CLOSE)
    assert any(u.name == "loaded" and u.governs for u in found.unchecked)
    loaded = search.answer(sheet, {**given, "load_carried": "300 lb"})
    assert not any(u.name == "loaded" for u in loaded.unchecked)


def test_a_pallet_stands_at_its_own_place_on_the_forks():
    frame = {**LARGE, "implement_kind": "pallet_forks", "implement_mass": "250 lb"}
    forks = {**frame, "cg_distance": "15 in", "load_carried": "1,000 lb"}
    found = ask(**forks, wheelbase="74 in", hitch_distance="34 in")
    # By hand: 250 lb at 15 in and 1,000 lb at 0.75 m (29.53 in) behind the balls.
    together = (250 * 15 + 1000 * 0.75 / 0.0254) / 1250
    assert output(found, "overhang") / 0.0254 == pytest.approx(34 + together)
    lifted = next(v for v in found.verdicts if v.check.name == "lift")
    assert lifted.value_high == pytest.approx(1250 * LB)


def test_less_on_the_forks_is_a_remedy_that_holds():
    given = {**LARGE, "implement_kind": "pallet_forks", "implement_mass": "250 lb"}
    found = search.answer(PAIRING, {**given, "load_carried": "2,000 lb", "slope": "5 %"})
    remedy = next(r for r in found.advice.remedies if "load_carried" in r.set)
    after = search.answer(PAIRING, {**given, "slope": "5 %", **remedy.set})
    for name in remedy.mends:
        assert margins(after)[name] >= 0


def test_rear_tires_are_judged_at_the_pressure_in_them():
    """The sheet's row for 11.2-24, 8 ply: 1,225 kg at 240 kPa (tires/TY-A)."""
    given = {**LARGE, "implement_kind": "rotary_cutter", "rear_tire": "11.2-24 8PR R-1"}

    def limit(**more):
        found = search.answer(PAIRING, {**given, **more})
        return next(v for v in found.verdicts if v.check.name == "rear_tires").limit_low

    assert limit(rear_tire_pressure="240 kPa") == pytest.approx(2 * 1225)
    # Below the row: (p / p_ref) to the power 0.585, the tire associations' exponent.
    assert limit(rear_tire_pressure="120 kPa") == pytest.approx(2 * 1225 * 0.5**0.585, rel=1e-3)
    assert limit(rear_tire_pressure="120 kPa", rear_tire_load="900 kg") == pytest.approx(1800)


def test_front_tires_count_without_a_load_in_the_loader_too():
    given = {**LARGE, "implement_kind": "none", "front_tire_load": "400 lb"}
    assert findings(search.answer(BALLAST, given))["front_tires"] == model.OVER
    size_alone = search.answer(BALLAST, {**LARGE, "implement_kind": "none", "front_tire": "7-16"})
    assert any(u.name == "front_tires" and not u.governs for u in size_alone.unchecked)
