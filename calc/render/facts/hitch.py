"""Numbers about hitch categories and couplers for prose."""

from collections.abc import Callable
from functools import cache

from calc import quantities, search, worksheets
from calc.mechanics import hitch, hitch_fit, quick_coupler
from calc.model import Answer


@cache
def _example() -> Answer:
    return search.answer(worksheets.load("hitch"), {}, example=True)


def _output(name: str) -> Callable[[], str]:
    return lambda: quantities.show_both(
        next(o.value for o in _example().outputs if o.name == name), "length"
    )


def _size(item: str, category: str) -> Callable[[], str]:
    return lambda: quantities.show_both(hitch.size(item, category), "length")


def _pin(item: str, category: str) -> Callable[[], str]:
    return lambda: f"{hitch_fit.sixteenths(hitch.size(item, category))} in"


def _play(pin: str, ball: str) -> Callable[[], str]:
    return lambda: quantities.show_both(
        hitch_fit.pin_slack(hitch.size("lower_pin", pin), hitch.size("lower_bore", ball)), "length"
    )


def _old_mast(category: str) -> Callable[[], str]:
    return lambda: quantities.show_both(
        hitch.size("mast_height", category) - hitch.size("mast_height_old", category), "length"
    )


def _sleeve(use: str, place: str, pin: str, side: str) -> Callable[[], str]:
    def text() -> str:
        row = hitch_fit.sleeve(use, place, pin)
        assert row is not None
        return f"{row[f'{side}_in']} in"

    return text


def _step(item: str) -> float:
    return hitch.size(item, "2") - hitch.size(item, "1")


def _setback() -> str:
    back = quick_coupler.coupler_setback()
    inches = quantities.show(back, "length", figures=1)
    return f"{inches} ({quantities.show(back, 'length', 'metric')})"


def _smallest_play() -> str:
    plays = [
        hitch_fit.pin_slack(hitch.size("lower_pin", n), hitch.size("lower_bore", n))
        for n in "01234"
    ]
    return quantities.show_range(min(plays), max(plays), "length", "metric", figures=2)


FACTS: dict[str, Callable[[], str]] = {
    "hitch-pin-1": _pin("lower_pin", "1"),
    "hitch-pin-2": _pin("lower_pin", "2"),
    "hitch-pin-3": _pin("lower_pin", "3"),
    "hitch-top-1": _pin("upper_pin", "1"),
    "hitch-top-2": _pin("upper_pin", "2"),
    "hitch-top-3": _pin("upper_pin", "3"),
    "hitch-hole-1": _size("lower_bore", "1"),
    "hitch-hole-2": _size("lower_bore", "2"),
    "hitch-span-1": _size("shoulder_span", "1"),
    "hitch-span-2": _size("shoulder_span", "2"),
    "hitch-centers-1": _size("ball_spacing", "1"),
    "hitch-play-normal": _smallest_play,
    "hitch-play-1-in-2": _play("1", "2"),
    "hitch-span-step": lambda: quantities.show_both(_step("ball_spacing"), "length"),
    "hitch-mast-2": _size("mast_height", "2"),
    "hitch-mast-2-old": _size("mast_height_old", "2"),
    "hitch-mast-gap-2": _old_mast("2"),
    "hitch-travel-1": _size("lift_range_min", "1"),
    "hitch-travel-limited": _size("lift_range_min", "1L"),
    "hitch-coupler-height-1": lambda: quantities.show_both(
        quick_coupler.coupler_hook_height("1"), "length"
    ),
    "hitch-coupler-height-3": lambda: quantities.show_both(
        quick_coupler.coupler_hook_height("3"), "length"
    ),
    "hitch-setback": _setback,
    "hitch-sleeve-coupler-1-in": _sleeve("coupler", "lower", "1", "inside"),
    "hitch-sleeve-coupler-1-out": _sleeve("coupler", "lower", "1", "outside"),
    "hitch-sleeve-ball-1-out": _sleeve("ball", "lower", "1", "outside"),
    "hitch-sleeve-top-1-out": _sleeve("ball", "upper", "1", "outside"),
    "hitch-example-pin": _output("lower_pin_size"),
    "hitch-example-hole": _output("hole"),
    "hitch-example-play": _output("slack"),
    "hitch-example-implement-span": _output("span"),
    "hitch-example-tractor-span": _output("tractor_span"),
}
