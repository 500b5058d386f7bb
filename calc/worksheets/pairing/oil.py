"""Oil for what asks for it, on the hitch or on the loader: flow and outlets."""

from calc import arith
from calc.model import At, Inputs

FLOW_LEAST = 14.0 / 18.0
"""With less than it asks for a machine on oil works slower: one that asks for 18 gpm is called of
no use only under 14 (hitch/FLOW-T5) [-]."""


def check(v: Inputs, at: At) -> None:
    """Check the flow and the outlets for what asks for oil, on the hitch or on the loader."""
    needed = arith.or_zero(v.remotes_needed)
    if v.remotes_needed is not None and not (isinstance(needed, float) and needed <= 0.0):
        if v.remotes is None:
            at.not_checked("remotes", "remotes")
        else:
            at.at_least("remotes", "remotes", "remotes_needed", "hitch/PRACTICE", close_band=0.0)
    if v.flow_needed is not None:
        if v.implement_flow is None:
            at.not_checked("flow", "implement_flow")
        else:
            least = FLOW_LEAST * v.flow_needed
            at.at_least("flow", "implement_flow", least, "hitch/FLOW-T5", strict="flow_needed")
    if v.flow_needed is None and v.remotes_needed is None:
        at.not_checked("flow", "flow_needed", if_asked=True)
        at.not_checked("remotes", "remotes_needed", if_asked=True)
