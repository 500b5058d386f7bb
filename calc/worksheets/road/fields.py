"""What is asked."""

from __future__ import annotations

from collections.abc import Callable

from calc import model, si, tables
from calc.machines.vocabulary import field

_COUNTRIES = {"US": "United States: ", "Canada": "Canada: "}
PLACES = tuple(
    model.Option(row["place"], _COUNTRIES.get(row["country"], "") + row["name"])
    for row in tables.rows("road/road_places")
)
_TRACTOR, _BEHIND, _LAMPS = "Tractor", "Behind the tractor", "Lamps and emblem on the tractor"


FASTEST = 25 * si.MPH  # m/s: few compacts are built for more


def _typical(low: float, high: float, of: str = "compact tractors") -> model.Typical:
    return model.Typical(low, high, "road/SIZE-practice", of)


_YES_NO = (model.Option("yes", "Yes"), model.Option("no", "No"))


def _fastest(known: model.KnownSoFar) -> float:
    """What few compacts are built to pass: what is 25 mph here is sold as 40 km/h elsewhere."""
    place = tables.by_key("road/road_places", "place").get(str(known.get("place")))
    return 40 * si.KMH if place and place["country"] != "US" else FASTEST


def _usual_speed(known: model.KnownSoFar) -> model.Typical:
    """No faster than the machine can go."""
    top = known.get("top_speed")
    high = min(_fastest(known), top.high) if top is not None else _fastest(known)
    return _typical(min(10 * si.MPH, high), high)


def _usual_top(known: model.KnownSoFar) -> model.Typical:
    """No slower than it is driven."""
    driven = known.get("road_speed")
    low = max(12 * si.MPH, driven.high) if driven is not None else 12 * si.MPH
    return _typical(low, max(_fastest(known), low))


def _lamps(height: str) -> Callable[[model.KnownSoFar], model.Typical]:
    """How many lamps: who says how high they are has some."""
    some, any_ = _typical(1.0, 2.0), _typical(0.0, 2.0)
    return lambda known: any_ if known.get(height) is None else some


FIELDS = (
    model.Choice(
        "place", PLACES, example="OH", essential=True, group="Where and when", needed=True
    ),
    model.Choice(
        "hours",
        (
            model.Option("dark", "Also at dusk, in the dark or in poor light"),
            model.Option("day", "Only by day, in clear weather"),
        ),
        example="dark",
        essential=True,
        group="Where and when",
    ),
    model.Field(
        "top_speed",
        "speed",
        "5 mph",
        "45 mph",
        example="18 mph",
        essential=True,
        group=_TRACTOR,
        typical=_usual_top,
    ),
    model.Field(
        "road_speed",
        "speed",
        "1 mph",
        "45 mph",
        example="15 mph",
        group=_TRACTOR,
        typical=_usual_speed,
    ),
    model.Choice("speed_symbol", _YES_NO, example="no", group=_LAMPS),
    model.Field("symbol_speed", "speed", "5 mph", "45 mph", optional=True, group=_LAMPS),
    field(
        "tractor_width",
        example="56 in",
        high="240 in",
        essential=True,
        optional=False,
        typical=_typical(1.1, 1.8),
    ),
    model.Field(
        "tractor_made",
        "year",
        "1930",
        "2100",
        example="2012",
        group=_TRACTOR,
        typical=_typical(1990.0, 2024.0, "tractors at work"),
    ),
    model.Choice(
        "use",
        (
            model.Option("field", "A farm or utility tractor"),
            model.Option("lawn", "A lawn and garden machine"),
        ),
        example="field",
        group=_TRACTOR,
        usual="field",
    ),
    model.Choice(
        "duals",
        (model.Option("no", "No"), model.Option("yes", "Yes")),
        example="no",
        group=_TRACTOR,
        usual="no",
    ),
    model.Field(
        "overall_height",
        "length",
        "3 ft",
        "20 ft",
        example="92 in",
        group=_TRACTOR,
        typical=_typical(2.1, 2.7),
    ),
    model.Field(
        "lane_width",
        "length",
        "7 ft",
        "15 ft",
        example="10 ft",
        group="Where and when",
        unit_us="ft",
        unit_metric="m",
        typical=_typical(2.7, 3.7, "country roads"),
    ),
    model.Field(
        "head_lamps", "count", "0", "6", example="2", group=_LAMPS, typical=_typical(0.0, 2.0)
    ),
    model.Field(
        "tail_lamps",
        "count",
        "0",
        "6",
        example="2",
        essential=True,
        group=_LAMPS,
        typical=_lamps("tail_height"),
    ),
    field("tail_height", example="40 in", group=_LAMPS),
    model.Field(
        "amber_flashers",
        "count",
        "0",
        "6",
        example="2",
        essential=True,
        group=_LAMPS,
        typical=_lamps("flasher_height"),
    ),
    model.Field(
        "flasher_height",
        "length",
        "10 in",
        "140 in",
        example="64 in",
        group=_LAMPS,
        typical=_typical(1.0, 2.0),
    ),
    field("lamp_spread", example="44 in", group=_LAMPS),
    model.Field(
        "stop_lamps", "count", "0", "4", example="0", group=_LAMPS, typical=_typical(0.0, 2.0)
    ),
    model.Choice(
        "bucket",
        (
            model.Option("none", "No loader, or carried below the lamps"),
            model.Option("front", "A bucket or load in front of the head lamps"),
        ),
        example="none",
        usual="none",
        group=_LAMPS,
    ),
    model.Field(
        "turn_signals", "count", "0", "4", example="2", group=_LAMPS, typical=_typical(0.0, 2.0)
    ),
    model.Field(
        "rear_reflectors", "count", "0", "6", example="2", group=_LAMPS, typical=_typical(0.0, 2.0)
    ),
    model.Choice(
        "emblem",
        (model.Option("yes", "Yes, bright and clean"), model.Option("no", "No, or faded")),
        example="yes",
        unsure=("yes", "no"),
        told_by=(("emblem_height", "yes"),),  # who measured its height has one
        essential=True,
        group=_LAMPS,
    ),
    model.Field(
        "emblem_height",
        "length",
        "6 in",
        "140 in",
        example="30 in",
        essential=True,
        group=_LAMPS,
        typical=_typical(0.6, 1.2),
    ),
    model.Field("mirror_reach", "length", "4 in", "80 in", optional=True, group=_TRACTOR),
    model.Field(
        "combination_length",
        "length",
        "5 ft",
        "120 ft",
        example="16 ft",
        group=_BEHIND,
        unit_us="ft",
        unit_metric="m",
        typical=_typical(3.0, 9.0),
    ),
    model.Choice(
        "behind_kind",
        (
            model.Option("none", "Nothing"),
            model.Option("mounted", "An implement on the three-point hitch"),
            model.Option("trailed", "An implement towed on its own wheels"),
            model.Option("trailer", "A farm trailer built for the road"),
            model.Option("carried", "A machine carried on a trailer"),
        ),
        example="mounted",
        essential=True,
        group=_BEHIND,
        usual="none",
        unless=("transport_width", "implement_top", "implement_bottom", "lamps_to_implement"),
    ),
    field(
        "transport_width",
        example="66 in",
        essential=True,
        optional=False,
        group=_BEHIND,
        typical=_typical(1.2, 2.4, "implements for compact tractors"),
    ),
    model.Field(
        "offset_left",
        "length",
        "-100 in",
        "100 in",
        example="0 in",
        group=_BEHIND,
        typical=_typical(-0.2, 0.2),
    ),
    model.Field(
        "behind_hitch",
        "length",
        "4 in",
        "80 ft",
        example="72 in",
        essential=True,
        group=_BEHIND,
        typical=_typical(0.8, 2.2, "implements for compact tractors"),
    ),
    field("implement_top", example="44 in", essential=True, group=_BEHIND),
    model.Field(
        "implement_bottom",
        "length",
        "0 in",
        "10 ft",
        example="14 in",
        group=_BEHIND,
        typical=_typical(0.25, 0.5),
    ),
    model.Choice(
        "see_through",
        (
            model.Option("solid", "No: a deck, a tank, a bale, a box"),
            model.Option("open", "Yes: forks, a boom, tines"),
        ),
        example="solid",
        group=_BEHIND,
        usual="solid",
    ),
    field("lamps_to_implement", example="60 in", group=_BEHIND),
    model.Choice(
        "implement_marking",
        (
            model.Option("none", "Nothing"),
            model.Option("reflectors", "Reflectors and strips"),
            model.Option("emblem", "Reflectors and an emblem"),
            model.Option("full", "A marking kit: lamps, flashers, reflectors, emblem"),
        ),
        example="none",
        unsure=("none", "reflectors", "emblem", "full"),
        essential=True,
        group=_BEHIND,
    ),
    model.Field("rated_speed", "speed", "5 mph", "45 mph", optional=True, group=_BEHIND),
    model.Field(
        "implement_made",
        "year",
        "1930",
        "2100",
        example="2015",
        group=_BEHIND,
        typical=_typical(1990.0, 2024.0, "implements at work"),
    ),
    model.Choice("escort", _YES_NO, example="no", usual="no", group="Where and when"),
    model.Choice("permit", _YES_NO, example="no", usual="no", group="Where and when"),
)

OUTPUTS = (
    model.Shown("items", "count"),
    model.Shown("width", "length", unit_us="ft"),
    model.Shown("reach", "length"),
    model.Shown("emblem_speed", "speed", hidden=True),
    model.Shown("clear_tail", "length", hidden=True),
    model.Shown("left", "length", hidden=True),
    model.Shown("mirror_needed", "length", hidden=True),
    model.Shown("tallest", "length", hidden=True),
    model.Shown("inward", "length", hidden=True),
)


def review(known: model.KnownSoFar) -> dict[str, str]:
    """A machine travels no faster than it can."""
    top, driven = known.get("top_speed"), known.get("road_speed")
    if top is not None and driven is not None and driven.low > top.high * (1 + 1e-9):
        return {"road_speed": "Your speed on the road is more than the top speed of the tractor."}
    return {}
