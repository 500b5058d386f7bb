"""What one tire carries at its pressure and speed, and limits as sidewalls print them."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc import arith, model, si
from calc.mechanics import tire_load, tire_rating
from calc.mechanics.tire_size import Designation

TRAVEL = 30 / 3.6  # a compact's speed on the road, 19 mph, common practice, no source [m/s]
HALF_PSI = 0.5 * si.PSI


def printed_load(limit: float, count: int = 1) -> float:
    """Return what so many tires carry as it is printed, in halves of the third figure [kg].

    Parameters
    ----------
    limit
        What they carry [kg].
    count
        How many tires [-].

    Returns
    -------
    float
        The same as it is printed, or itself where that is less [kg].

    Examples
    --------
    >>> round(printed_load(1360.0) / si.POUND), round(printed_load(2 * 2120.0, 2) / si.POUND)
    (3000, 9350)
    """
    step = count * tire_rating.PRINTED_LOAD
    few, many = (arith.below(limit, count * pounds * si.POUND) for pounds in (1e3, 1e4))
    step = arith.where(few, step / 10, arith.where(many, step, step * 10))
    return arith.number(arith.max(limit, arith.round(limit / step) * step))


def as_printed(value: float, limit: float, printed: float) -> float:
    """Return a value, or its limit where it passes that by no more than the limit as printed.

    240 kPa is printed as 35 psi and 40 km/h as 25 mph: who keeps to what is printed keeps to the
    limit.
    """
    kept = arith.below(value, printed * (1 + 1e-9))
    return arith.number(arith.where(kept, arith.min(value, limit), value))


def speed_as_printed(speed: float, limit: float) -> float:
    """Return a speed [m/s], or its limit where that is printed as so much."""
    return as_printed(speed, limit, tire_rating.printed_speed(limit))


@dataclass(frozen=True, slots=True)
class Carried:
    """What one tire carries [kg], or which of its numbers is missing for that.

    `missing` is "" with a load, "load" where the sidewall's line has to be read, and "pressure"
    where a pressure was given but not the one that the rating holds at. With `too_fast` the
    rating holds at a lower speed than the tire is driven: more is too much, less may be.
    """

    load: float | None
    rating: tire_rating.Rating | None
    missing: str = ""
    at_pressure: bool = False
    too_fast: bool = False
    read: bool = False  # off the sidewall, and so as it stands

    def check_pressure(
        self, at: model.At, name: str, pressure: str, rated_pressure: float | None
    ) -> None:
        """Hold the pressure in a tire against that of its sidewall's line, or of its row. [Pa]"""
        most, room = rated_pressure, 0.0  # what was typed is as it stands
        if most is None and self.rating is not None:
            # Gauges and sidewalls show whole psi, the rows tens of kPa.
            most, room = self.rating.pressure, HALF_PSI
        if most is None or not self.at_pressure:
            return
        setattr(at, f"{name}_most", most)
        held = as_printed(at.number(pressure), most, most + room)
        at.at_most(name, held, f"{name}_most", "tires/practice", close_band=0.0)

    def against(self, load: float, count: int = 1) -> Carried:
        """Return it as it is held against a load [kg] on so many tires.

        Where the pressure of its rating is missing, or which of two patterns it is, that rating is
        the most it carries; and the weaker pattern carries enough for both.
        """
        if self.load is not None or self.rating is None:
            return self
        weaker = self.rating.weaker if self.missing == "load" else None
        if weaker is not None and load <= count * weaker.load:
            return replace(self, load=weaker.load, rating=weaker, missing="")
        most = printed_load(count * self.rating.load, count)
        return replace(self, load=self.rating.load, missing="") if load > most else self

    def most(self, count: int = 1) -> float | None:
        """Return what so many tires carry as it is printed, or as it was typed [kg]."""
        if self.load is None:
            return None
        return count * self.load if self.read else printed_load(count * self.load, count)

    @property
    def source(self) -> str:
        """Where the load comes from."""
        return self.rating.source if self.rating else "tires/derived"


def carried(
    designation: Designation | None,
    typed: float | None,
    pressure: float | None = None,
    rated_pressure: float | None = None,
    speed: float | None = None,
) -> Carried:
    """Return what one tire carries at the pressure in it.

    Parameters
    ----------
    designation
        The tire with all that stands beside its size; None where it isn't known [-].
    typed
        Load read off the sidewall, which comes before any table; None where nobody gave it [kg].
    pressure, rated_pressure
        Pressure in it, and the one its rating holds at; None where nobody gave them [Pa].
    speed
        Fastest it is driven; None where nobody gave it, which may be as fast as tractors travel
        [m/s].
    """
    marked = None if designation is None else tire_rating.rating(designation, speed)
    if typed is not None:
        read = tire_rating.Rating(typed, marked.speed if marked else None, "tires/derived")
        found = _at_pressure(designation, read, pressure, rated_pressure, speed)
        return replace(found, read=True)
    if marked is None:
        return Carried(None, None, "load")
    if pressure is None and marked.weaker is not None:  # two patterns, and nothing tells which
        found = Carried(None, marked, "load")
    else:
        found = _at_pressure(designation, marked, pressure, rated_pressure, speed)
    driven = TRAVEL if speed is None else speed
    return replace(found, too_fast=not marked.holds_at(driven))


def _at_pressure(
    designation: Designation | None,
    rated: tire_rating.Rating,
    pressure: float | None,
    rated_pressure: float | None,
    speed: float | None,
) -> Carried:
    if pressure is None:
        return Carried(rated.load, rated)
    if rated_pressure is not None:
        used = arith.min(pressure, rated_pressure)
        load = tire_load.load_at_pressure(rated.load, used, rated_pressure)
        return Carried(load, rated, at_pressure=True)
    if rated.pressure is None or designation is None:
        return Carried(None, rated, "pressure")
    # 210 kPa of a row is printed as 30 psi: who keeps to that has the row's pressure.
    printed = arith.below(rated.pressure - HALF_PSI, pressure)
    used = arith.where(printed, arith.max(pressure, rated.pressure), pressure)
    load = tire_rating.load_in_row(designation, arith.number(used), speed)
    return Carried(load, rated, at_pressure=True)
