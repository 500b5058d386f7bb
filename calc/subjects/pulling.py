"""What pulls a tool that works or grades the ground: the engine, and the grip of the wheels."""

from calc import arith, model
from calc.machines import usual
from calc.mechanics import pto_power
from calc.subjects import ground_tools, hung, shaft_power

STEEPEST_LEFT = 0.01
"""On a climb as steep as the wheels hold at all next to nothing is left to pull with [-]."""


def check_pull(v: model.Inputs, at: model.At, standing: float) -> None:
    """Check the engine against what pulls this width of tool, where the trade or a draft tells.

    Both are of land as high and as steep as is worked: higher up the engine gives less, and what
    is steeper is climbed at a walk besides. `standing` is the tractor as it stands [kg].
    """
    if v.power_needed is not None or not ground_tools.pulled(v.implement_kind):
        return
    usually = v.each("breathing", lambda way: shaft_power.altitude_share(usual.FARMED_HIGHEST, way))
    share = arith.min(1.0, shaft_power.altitude_share_of(v) / usually)
    steeper = arith.max(0.0, arith.or_zero(v.slope) - usual.STEEPEST)
    climb = shaft_power.climb_power(v.but(ground_speed=shaft_power.WALK), standing, steeper)
    at.engine = arith.max(0.0, share * v.pto_power / ground_tools.PTO_SHARE - climb)
    least, ease = ground_tools.engine_wanted(v.implement_kind, v.working_width)
    source = ground_tools.pull_source(v.implement_kind)
    at.at_least("pull", "engine", least, source, strict=ease, kind="power")
    if v.implement_kind != ground_tools.PLOW:
        most = ground_tools.engine_borne(v.implement_kind, v.working_width)
        grade = model.ADVICE
        at.at_most("stout", "engine", most, source, kind="power", close_band=0.0, grade=grade)
    at.step(
        "engine",
        "P_e = f P_pto / 0.83 \u2212 P_c",
        "hitch/B1; power/S29",
        f=(share, "fraction"),
        P_pto="pto_power",
        P_c=(climb, "power"),
    )


def check_grip(v: model.Inputs, at: model.At, standing: float) -> None:
    """Check the pull that the wheels put down against the draft, where D497 has one.

    It is broken where firm stubble doesn't hold the easiest work, met where worked ground holds
    the hardest; what the climb takes of it is off both. `standing` is the tractor as it
    stands [kg].
    """
    if not ground_tools.drafted(v.implement_kind):
        return
    weight = (standing + hung.hung_mass(v)) * pto_power.G
    firm = v.each("driven", lambda wheels: ground_tools.share_held("firm", wheels))
    tilled = v.each("driven", lambda wheels: ground_tools.share_held("tilled", wheels))
    slope = arith.or_zero(v.slope)
    left, loose = (arith.max(STEEPEST_LEFT, share - slope) for share in (firm, tilled))
    at.held = left * weight * arith.cos(arith.atan(slope))
    least, ease = ground_tools.pull_wanted(v.implement_kind, v.working_width)
    source = "power/S38; power/S54; power/D497-memory; hitch/PRACTICE"
    at.at_least("grip", "held", least, source, strict=ease * left / loose, kind="force")
    at.step(
        "held",
        "F = (k \u2212 s) W cos(atan s), at 15 % slip on firm ground",
        source,
        k=(firm, "fraction"),
        s=(slope, "slope"),
        W=(weight, "force"),
    )
