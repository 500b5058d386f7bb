"""A tractor from the side with what hangs on it, to scale, and the loads as arrows."""

from __future__ import annotations

from calc import worksheet as ws
from calc.picture import Arrow, Dimension, Disc, Item, Label, Line, Scene, Shape


def side_view(
    *,
    wheelbase: float,
    hitch_distance: float,
    cg_distance: float,
    implement_mass: float,
    front_load: float,
    rear_load: float,
    front_ballast: float = 0.0,
    front_ahead: float = 0.0,
    front_ok: bool = True,
) -> Scene:
    """Return the side view; the rear axle stands at x = 0 and the tractor faces right.

    All lengths in m and masses in kg. The outline is a generic tractor scaled to the wheelbase;
    axles, balls, centers of gravity and arrows are to scale.
    """
    b, c, d = wheelbase, hitch_distance, cg_distance
    rear, front = 0.37 * b, 0.23 * b
    items: list[Item] = [
        Line([(-(c + 2 * d) - 0.15, 0), (b + max(front_ahead, front) + 0.25, 0)], "ground"),
        *_tractor(b, rear, front),
        *_implement(c, d, rear),
    ]
    if front_ballast > 0:
        items.append(
            Shape(
                [
                    (b + front_ahead - 0.1, 0.75 * rear),
                    (b + front_ahead + 0.1, 0.75 * rear),
                    (b + front_ahead + 0.1, 1.35 * rear),
                    (b + front_ahead - 0.1, 1.35 * rear),
                ],
                "accent",
            )
        )
    items += _loads(b, c, d, rear, implement_mass, front_load, rear_load, front_ok)
    return Scene(
        "Side view with the implement raised",
        ws.phrase(
            "The implement's {mass} acts {reach} behind the rear axle, the wheelbase is {base}; "
            "{front} is left on the front axle and {rear} stands on the rear axle.",
            mass=(implement_mass, "mass"),
            reach=(c + d, "length"),
            base=(b, "length"),
            front=(front_load, "mass"),
            rear=(rear_load, "mass"),
        ),
        items,
    )


def _tractor(b: float, rear: float, front: float) -> list[Item]:
    deck, hood = 1.15 * rear, 1.95 * rear
    return [
        Shape([(-0.1 * b, deck), (0.42 * b, 0.95 * deck), (0.42 * b, 0.6 * deck),
               (-0.1 * b, 0.7 * deck)], "fill"),
        Shape([(0.42 * b, 0.75 * deck), (1.16 * b, 0.85 * deck), (1.16 * b, hood * 0.86),
               (0.95 * b, hood), (0.42 * b, hood)], "fill"),
        Line([(-0.16 * b, 1.5 * rear), (-0.16 * b, 4.0 * rear), (-0.1 * b, 4.0 * rear)], "ink"),
        Shape([(-0.08 * b, 1.75 * rear), (0.16 * b, 1.75 * rear), (0.16 * b, 1.6 * rear),
               (-0.08 * b, 1.6 * rear)], "soft"),
        Line([(-0.08 * b, 1.7 * rear), (-0.12 * b, 2.3 * rear)], "soft"),
        Line([(0.42 * b, hood), (0.33 * b, 1.12 * hood)], "ink"),
        Disc((0, rear), rear, "tire"),
        Disc((0, rear), 0.55 * rear, "fill"),
        Disc((b, front), front, "tire"),
        Disc((b, front), 0.5 * front, "fill"),
    ]  # fmt: skip


def _implement(c: float, d: float, rear: float) -> list[Item]:
    ball, mast = (-c, 1.05 * rear), (-c - 0.05, 2.0 * rear)
    low, high = 0.75 * rear, 1.15 * rear
    return [
        Line([(0.05, 0.9 * rear), ball], "ink"),
        Line([(-0.05, 1.7 * rear), mast], "ink"),
        Line([ball, mast, (-c - 1.5 * d, high)], "soft"),
        Shape([(-c - 0.06, low), (-c - 2 * d, low), (-c - 2 * d, high), (-c - 0.06, high)],
              "implement"),
        Disc(ball, 0.03, "ink"),
        Disc((-c - d, (low + high) / 2), 0.045, "accent"),
    ]  # fmt: skip


def _loads(
    b: float,
    c: float,
    d: float,
    rear: float,
    implement_mass: float,
    front_load: float,
    rear_load: float,
    front_ok: bool,
) -> list[Item]:
    longest = 1.1 * rear
    scale = longest / max(rear_load, implement_mass, abs(front_load), 1e-9)
    cg = (-c - d, 0.95 * rear)
    foot = -0.12
    return [
        Arrow((cg[0], cg[1] + max(implement_mass * scale, 0.1) + 0.1), (cg[0], cg[1] + 0.06),
              ws.phrase("{m}", m=(implement_mass, "mass")), "accent thick"),
        Arrow((0, foot - max(rear_load * scale, 0.1)), (0, foot),
              ws.phrase("{m}", m=(rear_load, "mass")), "ink thick"),
        Arrow((b, foot - max(front_load * scale, 0.1)), (b, foot),
              ws.phrase("{m}", m=(front_load, "mass")), "good thick" if front_ok else "bad thick"),
        Label((b, foot - max(front_load * scale, 0.1)),
              "enough" if front_ok else "too light", "middle", "good" if front_ok else "bad", 2.0),
        Dimension((0, 4.4 * rear), (b, 4.4 * rear), ws.phrase("{b}", b=(b, "length"))),
        Dimension((-c - d, 3.2 * rear), (0, 3.2 * rear), ws.phrase("{r}", r=(c + d, "length"))),
    ]  # fmt: skip
