"""What is behind the tractor: what it hides, and what it must carry of its own."""

from __future__ import annotations

from calc import model, quantities
from calc.mechanics import mirrors
from calc.sources import unique
from calc.subjects import road_list as rl
from calc.worksheets.road.equipment import PLACED

# What each check of a lamp's being seen is about: the lamps, and where they are.
SEEN = dict(zip(("tail_seen", "amber_seen"), PLACED, strict=True))
NOT_ASKED = ("safety_chain", "flags")  # on the list, and not among what the form asks about


def seen(
    v: model.Inputs, at: model.At, found: rl.Situation, name: str, item: str, field: str
) -> None:
    """Whether a lamp of the tractor shows over it, unless it repeats that lamp."""
    if v.behind_kind == "none" or item in rl.CARRIES[v.implement_marking] or getattr(v, item) <= 0:
        return
    clear = found.clear_tail
    if clear > 0 and found.need("tractor", item) is not None:
        at.at_least(name, field, clear, "road/CALC-1; road/DOT-1", close_band=0.0)


def missing(v: model.Inputs, found: rl.Situation) -> list[tuple[str, bool]]:
    """The items missing, and whether a binding rule asks for each. A chain isn't asked about."""
    carries = rl.CARRIES[v.implement_marking]
    lacking: list[tuple[str, bool]] = []
    if found.emblem_behind and "emblem" not in carries:
        binding = found.emblem_behind[2] in ("law", "memory") or found.american
        if found.emblem_behind[2] == "standard" and not found.facts["hides_emblem"]:
            binding = found.federal["towed"]
        lacking.append(("emblem", binding))
    for need in rl.listed(found, "towed"):
        if need.item not in carries and need.item not in NOT_ASKED:
            bound = rl.count_of(need, rl.BINDING, found.federal["towed"])
            lacking.append((need.item, bool(bound)))
    return lacking


def marking(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """Whether it carries what it must."""
    if v.behind_kind == "none":
        return
    sources = [rl.cited(need) for need in rl.listed(found, "towed")]
    if found.emblem_behind:
        sources.append(found.emblem_behind[1])
    if not sources:
        return
    lacking = missing(v, found)
    law = [item for item, binding in lacking if binding]
    margin = -1.0 if law else (0.0 if lacking else 1.0)
    says = "missing" if lacking else "there"
    named = quantities.joined(
        [
            "an emblem" if item == "emblem" else rl.item_row(item)["name"]
            for item in law or [item for item, _ in lacking]
        ]
    )
    at.fits("behind", margin, unique("; ".join(sources)), says, items=named)


def emblem_seen(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """Whether the tractor's emblem is seen whole past what is behind, which has none of its own."""
    carries = "emblem" in rl.CARRIES[v.implement_marking]
    if v.behind_kind == "none" or v.emblem != "yes" or carries or found.emblem_behind is None:
        return
    lacking = dict(missing(v, found)) if found.facts["hides_emblem"] else {}
    margin = -1.0 if lacking.get("emblem") else 0.0 if lacking else 1.0
    says = "hidden" if lacking else "seen"
    at.fits("emblem_seen", margin, f"{found.emblem_behind[1]}; road/CALC-1", says)


def mirror(v: model.Inputs, at: model.At, found: rl.Situation) -> None:
    """Whether a mirror shows the road behind, where what is behind hides it."""
    need = found.need("tractor", "mirrors")
    if need is None:
        return
    binding = rl.count_of(need, rl.BINDING, found.federal["tractor"]) > 0
    source = rl.cited(need)
    if v.mirror_reach is None:
        at.fits("mirror", -1.0 if binding else 0.0, source, "none")
        return
    if not found.facts["hides_rear"]:
        at.fits("mirror", 1.0, source, "there")
        return
    needed = mirrors.mirror_offset_needed(
        found.facts["reach"], v.lamps_to_implement + v.behind_hitch
    )
    if needed <= 0:
        return
    source = f"{source}; road/CALC-1"
    if binding:
        at.at_least("mirror", "mirror_reach", needed, source, close_band=0.0)
    else:
        margin = 1.0 if v.mirror_reach >= needed else 0.0
        at.fits("mirror", margin, source, "reach", needed=(needed, "length"))
