"""A tractor from the side, implement raised, with the loads on it: to scale.

The rear axle stands at x = 0 and the tractor faces right. Axles, hitch balls, centers of
gravity and distances are to scale; the outlines are a sketch in proportion to the wheelbase.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from calc import model
from calc.mechanics import quick_coupler
from calc.model.pictures import Arrow, Dimension, Disc, Item, Label, Line, Scene, Shape
from calc.subjects.hung import hangs, hung_at, hung_mass
from calc.subjects.standing import stand

LINE = 0.038  # height of a line of text as a share of the picture's width, on a phone
LOWERED = 0.14  # an implement that stands on the ground [m]
STATES = {
    "carried": "implement raised",
    "down": "implement on the ground",
    "nothing": "nothing behind",
    "in front": "the implement raised in front",
    "between": "the mower deck between the axles",
}
GAP = 0.02  # between an arrow and what it points at [m]


def loads_view(
    *,
    wheelbase: float,
    hitch_distance: float,
    cg_distance: float,
    raised_height: float,
    link_length: float,
    tractor_mass: float,
    tractor_cg: tuple[float, float],
    implement_mass: float,
    front_load: float,
    rear_load: float,
    front_ok: bool = True,
    rear_ok: bool = True,
    front_ballast: float = 0.0,
    front_ahead: float = 0.0,
    payload: float | None = None,
    payload_ahead: float = 0.0,
    setback: float = 0.0,
    behind: str = "carried",
    title: str = "Side view with the loads",
) -> Scene:
    """Return the side view. Lengths in m, masses in kg; `tractor_cg` is (ahead, up).

    `behind` is "carried", "down" (the ground carries the implement) or "nothing".
    """
    b, ball = wheelbase, -(hitch_distance + setback)
    at = ball - cg_distance
    reach = max(
        0.4, front_ahead + 0.3 if front_ballast else 0.0, payload_ahead + 0.45 if payload else 0.0
    )
    left, right = at - cg_distance - 0.15, b + reach
    line = LINE * (right - left)
    items: list[Item] = [Line([(left, 0.0), (right, 0.0)], "ground")]
    if behind == "down":
        raised_height = LOWERED
    items += _links(b, -hitch_distance, raised_height, link_length)
    if behind in ("carried", "down"):
        items += _implement(ball, cg_distance, raised_height, setback)
    items += _front(b, front_ballast, front_ahead, payload, payload_ahead)
    items += _tractor(b)
    items += _ground_loads(b, front_load, rear_load, front_ok, rear_ok)
    items += _weight(tractor_cg, 1.17 * b, model.phrase("tractor {m}", m=(tractor_mass, "mass")), b)
    crowded = at + 3.5 * line > -0.24 * b
    top = max(raised_height, 0.2 * b) + 0.5 * b
    if behind == "carried":
        said = model.phrase("implement {m}", m=(implement_mass, "mass"))
        items += _weight((at, raised_height), top, said, b, "end" if crowded else "middle")
    lowest = _foot(b, max(front_load, rear_load), front_load, rear_load) - 4.2 * line
    items += _dimensions(b, ball, at, front_ahead if front_ballast else 0.0, lowest, 1.5 * line)
    return Scene(
        title,
        model.phrase(
            f"To scale, {STATES[behind]}"
            + (", {payload} in the bucket" if payload else "")
            + ": "
            + ("{front} on the front axle" if front_load > 0 else "the front axle off the ground")
            + " and {rear} on the rear axle"
            + (
                ", the implement of {mass} with its center of gravity {d} behind the hitch balls"
                if behind == "carried"
                else ""
            )
            + ". The outlines of the machines are only a sketch.",
            front=(front_load, "load"),
            rear=(rear_load, "load"),
            mass=(implement_mass, "mass"),
            d=(cg_distance, "length"),
            payload=(payload or 0.0, "mass"),
        ),
        items,
    )


def inputs_view(v: model.Inputs, *, front_load: float, rear_load: float, **more: Any) -> Scene:
    """Return the side view of the machines that the inputs describe; `more` as for `loads_view`."""
    stands = stand(v)
    ahead = {"front_ballast": stands.weights, "front_ahead": v.front_ballast_distance}
    if hangs(v) == "front" and more.get("behind") == "in front":
        ahead = {"front_ballast": hung_mass(v), "front_ahead": v.cg_ahead}
    return loads_view(
        wheelbase=v.wheelbase,
        hitch_distance=v.hitch_distance,
        cg_distance=hung_at(v),
        raised_height=v.raised_height,
        link_length=v.link_length,
        tractor_mass=stands.own,
        tractor_cg=(stands.base * stands.own_front / stands.own, v.cg_height),
        implement_mass=hung_mass(v),
        front_load=front_load,
        rear_load=rear_load,
        **ahead,
        setback=quick_coupler.coupler_setback() if v.quick_coupler != "none" else 0.0,
        **more,
    )


def states(v: model.Inputs, outcome: model.Outcome) -> list[Scene]:
    """Return the tractor as it stands in each state that applies, to one scale."""
    broken = {check.name for check in outcome.checks if check.margin < 0}
    hung = hangs(v) in ("hitch", "towed")
    payload = v.loader_payload or None
    front, rear = FRONT_CHECKS, REAR_CHECKS
    found: list[tuple[str, str, str, str, float | None, Any, Any]] = []
    if hung:
        found.append(("Carried", "carried", "front", "rear", None, front & broken, rear & broken))
    mounted = {"front": ("Raised in front", "in front"), "mid": ("With the deck", "between")}
    if hangs(v) in mounted:
        title, place = mounted[hangs(v)]
        found.append((title, place, "front", "rear", None, front & broken, rear & broken))
    down = "down" if hung else "nothing"
    found.append(
        (
            "Implement down" if hung else "As it stands",
            down,
            "down_front",
            "down_rear",
            None,
            {"front_axle"} & broken,
            {"rear_alone", "rear_loader"} & broken,
        )
    )
    if payload and hung:
        found.append(
            (
                "Carried, loader full",
                "carried",
                "loader_front",
                "loader_rear",
                payload,
                LOADER_FRONT & broken,
                {"loader_rear"} & broken,
            )
        )
    if payload:
        found.append(
            (
                "Loader full, nothing behind",
                "nothing",
                "alone_front",
                "alone_rear",
                payload,
                LOADER_FRONT & broken,
                {"loader_rear"} & broken if not hung else set(),
            )
        )
    return [
        inputs_view(
            v,
            front_load=outcome.output(at_front),
            rear_load=outcome.output(at_rear),
            front_ok=not bad_front,
            rear_ok=not bad_rear,
            payload=load,
            payload_ahead=v.loader_reach or 0.0,
            behind=behind,
            title=title,
        )
        for title, behind, at_front, at_rear, load, bad_front, bad_rear in found
    ]


FRONT_CHECKS = frozenset({"steering", "climb", "front_axle", "front_tires"})
REAR_CHECKS = frozenset({"rear_axle", "rear_tires", "rear_front"})
LOADER_FRONT = frozenset({"loader_front", "front_tires"})


def _tractor(b: float) -> list[Item]:
    """Return a tractor that is nobody's."""
    rear, front = 0.31 * b, 0.2 * b
    return [
        Line([(-0.2 * b, 0.46 * b), (-0.24 * b, 1.05 * b)], "ink thick"),
        Shape(
            [
                (-0.22 * b, 0.3 * b),
                (-0.22 * b, 0.5 * b),
                (0.38 * b, 0.44 * b),
                (0.38 * b, 0.26 * b),
            ],
            "fill",
        ),
        Shape(
            [
                (0.38 * b, 0.24 * b),
                (0.38 * b, 0.67 * b),
                (1.02 * b, 0.6 * b),
                (1.14 * b, 0.52 * b),
                (1.14 * b, 0.28 * b),
            ],
            "fill",
        ),
        Line([(0.62 * b, 0.56 * b), (1.02 * b, 0.52 * b)], "soft"),
        Line([(0.62 * b, 0.5 * b), (1.02 * b, 0.46 * b)], "soft"),
        Shape(
            [
                (-0.08 * b, 0.5 * b),
                (-0.13 * b, 0.84 * b),
                (-0.07 * b, 0.84 * b),
                (-0.01 * b, 0.62 * b),
                (0.16 * b, 0.62 * b),
                (0.16 * b, 0.5 * b),
            ],
            "ink",
        ),
        Line([(0.4 * b, 0.66 * b), (0.3 * b, 0.8 * b)], "ink"),
        Line([(0.26 * b, 0.77 * b), (0.34 * b, 0.84 * b)], "ink thick"),
        Disc((0.0, rear), rear, "ink"),
        Disc((0.0, rear), 0.58 * rear, "fill"),
        Disc((0.0, rear), 0.02 * b, "ink"),
        Disc((b, front), front, "ink"),
        Disc((b, front), 0.55 * front, "fill"),
        Disc((b, front), 0.02 * b, "ink"),
    ]


def _links(b: float, ball: float, height: float, link: float) -> list[Item]:
    pin = (min(ball + link, 0.0), 0.22 * b)
    return [
        Line([pin, (ball, height)], "ink thick"),
        Line([(-0.2 * b, 0.44 * b), (ball, height + 0.27 * b)], "ink"),
    ]


def _implement(ball: float, d: float, height: float, setback: float) -> list[Item]:
    """Return a plain implement whose middle is its center of gravity."""
    near, far = ball - 0.15 * d, ball - 1.85 * d
    low, high, mast = height - 0.11, height + 0.09, height + 0.44
    items: list[Item] = [
        Line([(ball, height), (ball, mast), (ball - d, high)], "ink thick"),
        Line([(ball, height), (near, height)], "ink thick"),
        Shape([(near, low), (near, high), (far, high - 0.02), (far, low)], "fill"),
        Disc((ball, height), 0.03, "ink"),
    ]
    if setback:
        items.append(
            Shape(
                [
                    (ball + setback, height - 0.03),
                    (ball, height - 0.03),
                    (ball, mast),
                    (ball + setback, mast),
                ],
                "accent",
            )
        )
    return items


def _front(
    b: float, ballast: float, ahead: float, payload: float | None, payload_ahead: float
) -> list[Item]:
    items: list[Item] = []
    if ballast:
        x = b + ahead
        items += [
            Line([(1.1 * b, 0.36 * b), (x, 0.36 * b)], "ink thick"),
            Shape(
                [
                    (x - 0.09, 0.24 * b),
                    (x - 0.09, 0.48 * b),
                    (x + 0.09, 0.48 * b),
                    (x + 0.09, 0.24 * b),
                ],
                "ink",
            ),
            Label((x - 0.09, 0.24 * b), model.phrase("{m}", m=(ballast, "mass")), "start", dy=0.9),
        ]
    if payload:
        tip = b + payload_ahead
        items += [
            Line([(0.44 * b, 0.74 * b), (0.85 * b, 0.8 * b), (tip - 0.2, 0.66 * b)], "ink thick"),
            Shape(
                [
                    (tip - 0.28, 0.78 * b),
                    (tip - 0.28, 0.54 * b),
                    (tip + 0.3, 0.54 * b),
                    (tip + 0.05, 0.78 * b),
                ],
                "fill",
            ),
            Label((tip, 0.78 * b), model.phrase("{m}", m=(payload, "mass")), dy=-0.8),
        ]
    return items


def _ground_loads(b: float, front: float, rear: float, front_ok: bool, rear_ok: bool) -> list[Item]:
    """Return what the ground pushes up with at each axle; an arrow is as long as its load."""
    items: list[Item] = []
    for x, load, name, ok in (
        (0.0, rear, "rear axle", rear_ok),
        (b, front, "front axle", front_ok),
    ):
        foot = _foot(b, load, front, rear)
        style = "ink" if ok else "bad"
        if load > 0:
            items.append(Arrow((x, foot), (x, -GAP), style=f"{style} thick"))
        said = model.phrase("{m}", m=(load, "mass")) if load > 0 else "off the ground"
        items.append(Label((x, foot), said, style=style, dy=0.9))
        items.append(Label((x, foot), name, style="soft", dy=1.9))
        if not ok and load > 0:
            items.append(Label((x, foot), "out of limits", style="bad", dy=2.9))
    return items


def _foot(b: float, load: float, front: float, rear: float) -> float:
    """Return how low the arrow of a load starts."""
    whole = max(front, 0.0) + max(rear, 0.0) or 1.0
    return -(0.14 * b + 0.32 * b * max(load, 0.0) / whole)


def _weight(
    at: tuple[float, float], top: float, text: model.Words, b: float, anchor: str = "middle"
) -> list[Item]:
    """Return a weight as an arrow down onto a center of gravity."""
    x, height = at
    mark = 0.03 * b
    return [
        Arrow((x, top), (x, height + mark + GAP), style="ink"),
        Label((x, top), text, anchor, dy=-0.7),
        Disc((x, height), mark, "accent"),
    ]


def _dimensions(
    b: float, ball: float, at: float, ahead: float, low: float, row: float
) -> list[Item]:
    """Return the distances along the tractor, in two rows so that their texts keep apart."""
    marks = [at, ball, 0.0, b] + ([b + ahead] if ahead else [])
    items: list[Item] = []
    for index, (start, end) in enumerate(pairwise(marks)):
        y = low - row * (index % 2)
        said = model.phrase("{l}", l=(end - start, "length"))
        items.append(Dimension((start, y), (end, y), said))
    return items
