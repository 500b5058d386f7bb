"""Stands in for dataclasses: each class has an __init__ of its own; the rest is made of its fields.

An __init__ is written as text and handed to `exec`, as there: the build compiles it beforehand.
"""

from _operator import attrgetter

_FIELDS = "__dataclass_fields__"
MISSING = type("MISSING", (), {})()
KW_ONLY = type("KW_ONLY", (), {})()


class FrozenInstanceError(AttributeError):
    """Raised where somebody sets an attribute of what doesn't change."""


class Field:
    """What is known of a field."""

    __slots__ = ("compare", "default", "default_factory", "init", "kw_only", "name", "repr")

    def __init__(self, default, default_factory, init, repr, compare):
        self.name, self.kw_only = "", False
        self.default, self.default_factory = default, default_factory
        self.init, self.repr, self.compare = init, repr, compare


def field(*, default=MISSING, default_factory=MISSING, init=True, repr=True, compare=True, **_):
    """Say more of a field than its default."""
    return Field(default, default_factory, init, repr, compare)


def fields(of):
    """Return the fields of a class, or of what is one of its kind."""
    return tuple(getattr(of, _FIELDS).values())


def replace(one, /, **changes):
    """Return the same with some fields changed."""
    for each in fields(one):
        if each.init:
            changes.setdefault(each.name, getattr(one, each.name))
    return type(one)(**changes)


def dataclass(of=None, /, *, frozen=False, slots=False, **_):
    """Make the class below hold the fields that it annotates."""

    def made(of):
        return _made(of, frozen, slots)

    return made if of is None else made(of)


def _made(of, frozen, slots):
    found = {}
    for base in of.__mro__[-1:0:-1]:
        found |= getattr(base, _FIELDS, {})
    own = {}
    only = False
    for name, kind in _annotated(of).items():
        if kind is KW_ONLY or str(kind).endswith("KW_ONLY"):
            only = True
            continue
        given = of.__dict__.get(name, MISSING)
        item = given if isinstance(given, Field) else field(default=given)
        item.name, item.kw_only = name, only
        own[name] = item
        if given is item and item.default is not MISSING:
            setattr(of, name, item.default)
        elif given is item:
            delattr(of, name)
    found |= own
    own_names = of.__dict__
    setattr(of, _FIELDS, found)
    named = [each for each in found.values() if each.init]
    of.__match_args__ = tuple(each.name for each in named if not each.kw_only)
    of.__init__ = _init(of, list(found.values()), frozen)
    compared = [each.name for each in found.values() if each.compare]
    if "__repr__" not in own_names:
        of.__repr__ = _repr([each.name for each in found.values() if each.repr])
    if own_names.get("__hash__") is None:
        of.__hash__ = _hash(compared) if frozen else None
    if "__eq__" not in own_names:
        of.__eq__ = _eq(compared)
    if frozen:
        of.__setattr__, of.__delattr__ = _refuse, _refuse
    return _slotted(of, found) if slots else of


def _annotated(of):
    return vars(of).get("__annotations__", {})


def _slotted(of, found):
    """Return the class anew, with no room for anything but its fields."""
    inherited = {name for base in of.__mro__[1:] for name in getattr(base, "__slots__", ())}
    rest = {k: v for k, v in vars(of).items() if k not in ("__dict__", "__weakref__", *found)}
    rest["__slots__"] = tuple(name for name in found if name not in inherited)
    made = type(of)(of.__name__, of.__bases__, rest)
    made.__qualname__ = of.__qualname__
    return made


def _init(of, found, frozen):
    taken = [each for each in found if each.init]
    first = [_parameter(each) for each in taken if not each.kw_only]
    last = [_parameter(each) for each in taken if each.kw_only]
    given = ", ".join(["self", *first, *(["*", *last] if last else [])])
    lines = [line for each in found if (line := _taken(each, frozen))]
    lines += ["self.__post_init__()"] if hasattr(of, "__post_init__") else []
    body = "\n  ".join(lines) or "pass"
    named = {f"_{each.name}": each.default for each in found}
    named |= {f"_make_{each.name}": each.default_factory for each in found}
    used = {name: value for name, value in named.items() if value is not MISSING}
    used |= {"_MISSING": MISSING, "_set": object.__setattr__}
    text = (
        f"def __create_fn__({', '.join(used)}):\n"
        f" def __init__({given}):\n  {body}\n"
        " return __init__"
    )
    written = {}
    exec(text, _globals(of), written)
    init = written["__create_fn__"](**used)
    init.__qualname__ = f"{of.__qualname__}.__init__"
    return init


def _globals(of):
    from sys import modules

    return vars(modules[of.__module__])


def _parameter(each):
    if each.default is not MISSING:
        return f"{each.name}=_{each.name}"
    return f"{each.name}=_MISSING" if each.default_factory is not MISSING else each.name


def _taken(each, frozen):
    """Return the line that sets a field; none where its default is the class's own."""
    name, value = each.name, each.name
    if each.default_factory is not MISSING:
        made = f"_make_{name}()"
        value = f"{made} if {name} is _MISSING else {name}" if each.init else made
    elif not each.init:
        if each.default is MISSING:
            return ""
        value = f"_{name}"
    return f"_set(self, {name!r}, {value})" if frozen else f"self.{name} = {value}"


def _values(names):
    """Return what gives the values of fields as something to compare: one, or a tuple."""
    return attrgetter(*names) if names else lambda one: ()


def _repr(names):
    def __repr__(self):
        told = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
        return f"{type(self).__qualname__}({told})"

    return __repr__


def _eq(names):
    values = _values(names)

    def __eq__(self, other):
        if other.__class__ is not self.__class__:
            return NotImplemented
        return self is other or values(self) == values(other)

    return __eq__


def _hash(names):
    values = _values(names)

    def __hash__(self):
        return hash((values(self),))

    return __hash__


def _refuse(self, name, *_):
    raise FrozenInstanceError(f"cannot assign to field {name!r}")
