"""What is typed into a worksheet: what somebody may give, and what nobody should."""

import random

from hypothesis import strategies as st

from calc import model, quantities, search

HOSTILE = (
    *(
        "nan",
        "inf",
        "-inf ft",
        "1e308 in",
        "1e999 lb",
        "1e-320 in",
        "-1",
        "0",
        "-0",
        "0x10",
        "٣ ft",
    ),
    *("about 0 in", "about 0", "0 to 0", "5 to 3 ft", "1/0 in", "0/1", "1e400/1 in", "1 ± 1e300"),
    *("90 deg", "-90 deg", "1:0", "1 in 0", "100 %", "<b>1</b>", "=1+1", "constructor"),
    *(
        "__proto__",
        "\u0000",
        "\ud800",
        "9" * 130,
        "1" * 100 + " lb",
        "½",
        "5 ft 5 ft",
        "+",
        ".",
        ",",
    ),
    *("'\"><script>", "…", "don't know", "?", "1,00,0 lb", "12 lb/", "%", "5 m ft", "‮5 lb"),
)
SIZES = ("11.2-24", "6-12", "280/85R24", "26x12.00-12", "14.9-24")  # of tires
hostile_texts = st.one_of(st.sampled_from(HOSTILE), st.text(max_size=30))


def _units(kind: str) -> list[quantities.Unit]:
    return [unit for unit in quantities.kind(kind).units if not unit.offset]


def quantity_texts(item: model.Field) -> st.SearchStrategy[str]:
    """A value or a range of a field, often at its limits, in any unit of its kind."""
    low, high = (quantities.base(end, item.kind) for end in (item.low, item.high))
    example = quantities.parse(item.example, item.kind) if item.example else None
    usual = None if callable(item.typical) else item.typical
    ends = [low, high] if low > 0.0 else [low, 0.0, high]
    anywhere = st.floats(low, high)
    if example:
        near = st.floats(0.5, 2.0).map(lambda times: min(max(low, example.middle * times), high))
        anywhere = st.one_of(near, near, anywhere)
    elif usual:
        anywhere = st.one_of(st.floats(usual.low, usual.high), anywhere)
    one = st.one_of(anywhere, anywhere, anywhere, st.sampled_from(ends))

    def text(values: list[float], unit: quantities.Unit) -> str:
        texts = [f"{unit.from_base(value):.12g}" for value in sorted(values)]
        return f"{' to '.join(texts)} {unit.symbol}".strip()

    units = st.sampled_from(_units(item.kind) or list(quantities.kind(item.kind).units))
    return st.builds(text, st.lists(one, min_size=1, max_size=2), units)


def texts_of(item: model.AnyField) -> st.SearchStrategy[str]:
    """What may be typed into a field that isn't left out."""
    if isinstance(item, model.Choice):
        return st.sampled_from([option.value for option in item.options])
    if isinstance(item, model.Field):
        return quantity_texts(item)
    return st.sampled_from([item.example, *SIZES] if item.example else SIZES)


def inputs_of(sheet: model.Worksheet) -> st.SearchStrategy[dict[str, str]]:
    """What somebody may give to a worksheet."""
    typed = {item.name: texts_of(item) for item in sheet.fields}

    @st.composite
    def inputs(draw: st.DrawFn) -> dict[str, str]:
        share = draw(st.sampled_from((0.1, 0.4, 0.7, 1.0)))
        evil = draw(st.sampled_from((0.0, 0.0, 0.0, 0.0, 0.1)))
        # A draw for each field takes longer than many an answer.
        wild = random.Random(draw(st.integers(0, 2**32)))
        given: dict[str, str] = {}
        for item in sheet.fields:
            if wild.random() < evil:
                given[item.name] = draw(hostile_texts)
            elif wild.random() < share or (item.needed and wild.random() < 0.9):
                given[item.name] = draw(typed[item.name])
        if wild.random() < 0.7:  # somebody who reads what is refused, and takes it out
            for _ in range(3):
                for name in search.read(sheet, given).errors:
                    given.pop(name, None)
        return given

    return inputs()
