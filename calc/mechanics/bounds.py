"""What formulas refuse: values that no machine, road or load can have.

Each raises ValueError, whose sentence names the value. They are called in front of a formula, so
they take numbers or, while a finding is proved, intervals.
"""

from calc import arith


def check_above_zero(**values: float) -> None:
    """Raise ValueError, by name, for a value that isn't more than 0."""
    for name, value in values.items():
        if not value > 0.0:
            raise ValueError(f"The {_words(name)} must be more than 0, not {value}.")


def check_not_negative(**values: float) -> None:
    """Raise ValueError, by name, for a value that is below 0."""
    for name, value in values.items():
        if not value >= 0.0:
            raise ValueError(f"The {_words(name)} must be 0 or more, not {value}.")


def check_amount(**values: float) -> None:
    """Raise ValueError, by name, for a value that is below 0 or not finite."""
    for name, value in values.items():
        if not (value >= 0.0 and arith.isfinite(value)):
            raise ValueError(f"The {_words(name)} must be 0 or more and finite, not {value}.")


def check_geometry(wheelbase: float, *rest: float) -> None:
    """Raise ValueError unless the wheelbase is above 0 and every mass and distance 0 or more."""
    if wheelbase <= 0.0:
        raise ValueError("The wheelbase must be more than 0.")
    if arith.min(rest, default=0.0) < 0.0:
        raise ValueError("Masses and distances must be 0 or more.")


def _words(name: str) -> str:
    return name.replace("_", " ")
