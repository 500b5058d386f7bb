"""What a tractor can run: the widest stock sizes, the heaviest loads, and the weights for them.

Every size is put to the pairing's own checks at one point: the tractor with what isn't known of
it at the unfavorable end of what is usual, the implement at the heavy end of what is usual for
its width. What passes there passes everywhere in between.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from functools import cache

from calc import arith, model, si
from calc.mechanics import typical
from calc.model import Inputs, Worksheet
from calc.subjects import ground_tools, hung_remedies, loader

WORKS = ("light", "typical", "heavy")
STEP = 50 * si.POUND  # loads are told in steps of 50 lb, rounded down
SPEAR, FORKS = "bale_spear", "pallet_forks"
SPEAR_MASS, FORKS_MASS = 60.0, 115.0  # usual, hitch/TYPICAL-memory
# The end of the usual range that is unfavorable when something hangs behind.
WORSE = {
    "tractor_mass": "low",
    "pto_power": "low",
    "front_share": "low",
    "wheelbase": "low",
    "hitch_distance": "high",
    "cg_height": "high",
    "loader_mass": "low",
}
WIDEST_LISTED = "Nothing: it is the widest listed here"
USUAL_SPEED = 1.34  # ground speed at work, 3 mph [m/s]


@dataclass(frozen=True, slots=True)
class Widths:
    """What a kind of implement allows: for each kind of work its width, 0 when none passes.

    `weights` in front let the tractor carry `with_weights` in usual work; 0 where they add
    nothing. `limit` is the check that stops the next stock width. `waits` are the fields of the
    limits that nobody gave and that the width in usual work hangs on. `light` are the widths of
    the light end of what is usual, where no heavy one passes.
    """

    kind: str
    label: str
    widths: tuple[float, ...]
    with_weights: float
    weights: float
    limit: str
    waits: tuple[str, ...] = ()
    light: tuple[float, ...] = ()


@cache
def _pairing() -> Worksheet:
    from calc import worksheets

    return worksheets.load("pairing")


def unfavorable(v: Inputs, assumed: Collection[str]) -> Inputs:
    """Return the tractor with what nobody said of it at the unfavorable end of what is usual."""
    kind = "" if v.tractor_kind == "any" else v.tractor_kind
    mass, known = (
        arith.number(v.tractor_mass),
        v.mass_as == "bare" and "tractor_mass" not in assumed,
    )
    bare = (mass, mass) if known else None
    power = None if "pto_power" in assumed else (v.pto_power, v.pto_power)
    ranges = typical.narrowed(kind, bare, power, None, v.cab == "cab")
    changes: dict[str, object] = {"driven": "two"} if "driven" in assumed else {}
    for name in sorted(assumed):
        if name in WORSE and getattr(v, name) is not None:
            usual = ranges["mass" if name == "tractor_mass" else name]
            changes[name] = usual[0 if WORSE[name] == "low" else 1]
        elif name == "lift_capacity":
            changes[name] = min(ranges["lift_610"][0], v.lift_capacity)
        elif name == "lift_ratio":
            changes[name] = typical.lift_ratio()[0]
    return v.but(**changes)


def job(v: Inputs, **implement: object) -> Inputs:
    """Return the pairing's inputs for a tractor with an implement behind, on level roads."""
    blank: dict[str, object] = {}
    for item in _pairing().fields:
        blank[item.name] = item.usual or None if isinstance(item, model.Choice) else None
    own = {name: value for name, value in v.values().items() if name in blank}
    usual = {
        "raised_height": 0.7,
        "tongue_load": None,
        "loader_payload": None,
        "material": "typical",
        "ground_speed": USUAL_SPEED,
        "front_rule": "tractor",
    }
    return Inputs({**blank, **own, **usual, **implement})


def _breaks(point: Inputs) -> model.Check | None:
    """Return the check that a pairing breaks worst; None when it breaks none."""
    checks = _pairing().compute(point, model.Work(on=False)).checks
    worst = min((c for c in checks if c.grade != model.ADVICE), key=lambda c: c.margin)
    return worst if worst.margin < 0 else None


def broken(point: Inputs) -> str:
    """Return the title of the check that a pairing breaks worst; empty when it breaks none."""
    worst = _breaks(point)
    return (worst.broken or worst.title) if worst else ""


def open_limits(point: Inputs) -> tuple[str, ...]:
    """Return the fields of the limits that govern a pairing and that nobody gave."""
    found = _pairing().compute(point, model.Work(on=False))
    left = (item for item in found.unchecked if item.governs and not item.if_asked)
    return tuple(dict.fromkeys(item.field for item in left))


def _implement(kind: str, width: float | None, *, light: bool = False) -> dict[str, object]:
    usual = typical.implement(kind, width)
    return {
        "implement_kind": kind,
        "working_width": width,
        "implement_mass": usual["mass"][0 if light else 1],
        "cg_distance": usual["cg_distance"][1],
        "cg_ahead": usual["cg_distance"][1],
    }


def kinds() -> tuple[tuple[str, str], ...]:
    """Return the kinds of implement that are sold by their width, with their labels."""
    return tuple((k, label) for k, label in typical.implement_kinds() if typical.grows(k))


def widest(
    v: Inputs, kind: str, work: str, weights: float | None = None, *, light: bool = False
) -> tuple[float, str]:
    """Return the widest stock width that passes, 0 for none, and what stops the next one.

    The implement is at the heavy end of what is usual for its width, or at the light one.
    """
    tractor = v if weights is None else v.but(front_ballast=weights)
    best, stopped = 0.0, WIDEST_LISTED
    power = v.pto_power / ground_tools.PTO_SHARE
    pulls = ground_tools.ground_width(kind, power, work)
    for width in typical.stock_widths(kind):
        if pulls is not None and width > pulls + 1e-6:
            return best, "Short of power to pull it"
        stops = _breaks(job(tractor, material=work, **_implement(kind, width, light=light)))
        if stops is None:
            best, stopped = width, WIDEST_LISTED
            continue
        stopped = stops.broken or stops.title
        if best or stops.name != "duty":  # a wider gearbox bears more tractor
            break
    return best, stopped


def widths(v: Inputs, kind: str, label: str) -> Widths:
    """Return what a kind of implement allows on a tractor."""
    found = [widest(v, kind, work) for work in WORKS]
    usual, limit = found[1]
    shown = tuple(width for width, _ in found)
    best, weights = usual, 0.0
    end = hung_remedies.BRACKET_SHARE * v.tractor_mass + v.front_ballast
    for size in typical.stock("front_weights"):
        if v.front_ballast < size <= end:
            tried = widest(v, kind, "typical", size)[0]
            if tried > best:
                best, weights = tried, size
    waits: tuple[str, ...] = ()
    if usual:
        waits = open_limits(job(v, material="typical", **_implement(kind, usual)))
    light = tuple(
        0.0 if heavy else widest(v, kind, work, light=True)[0]
        for heavy, work in zip(shown, WORKS, strict=True)
    )
    return Widths(kind, label, shown, best if weights else 0.0, weights, limit, waits, light)


def heaviest(v: Inputs, kind: str, own_mass: float, reach: float) -> tuple[float, str]:
    """Return the heaviest load on a rear spear or forks, in whole steps, and what stops more."""
    best, limit, load = 0.0, "", STEP
    while load < 3.0 * v.tractor_mass:
        carried = {"implement_kind": kind, "implement_mass": load + own_mass, "cg_distance": reach}
        limit = broken(job(v, working_width=None, **carried))
        if limit:
            break
        best, load = load, load + STEP
    return best, limit


def on_loader(v: Inputs, tool: str) -> float | None:
    """Return what the loader lifts on a tool by its rating, in whole steps; None without one."""
    if v.loader_rating is None:
        return None
    rated = v.loader_rating_at or "pins"
    lifts = loader.loader_lifts(v.but(loader_tool=tool, loader_rating_at=rated))
    return STEP * max(lifts // STEP, 0.0)
