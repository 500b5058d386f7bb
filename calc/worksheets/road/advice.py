"""What to do about it."""

from __future__ import annotations

from calc import model, quantities, tables
from calc.mechanics import lamps
from calc.search import Solver
from calc.search.rounding import solved
from calc.subjects import road_list as rl
from calc.worksheets.road.compute import _COUNTED

# --- advice ----------------------------------------------------------------------------------


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Give the lists to cross off, and solve for what would meet each check."""
    found = rl.situation(v)
    broken = {check.name for check in outcome.checks if check.margin < 0}
    lists = [
        rl.checklist(v, found, "tractor"),
        rl.checklist(v, found, "towed") if v.behind_kind != "none" else None,
        rl.conduct(v, found),
        rl.law_table(v.place),
    ]
    return model.Advice(
        [
            *_emblem_remedies(v, broken, solve),
            *_lamp_remedies(v, outcome, found, broken, solve),
            *_size_remedies(v, broken, solve, bool(found.facts["hides_rear"])),
        ],
        _cautions(v),
        [table for table in lists if table is not None],
        _notes(v, found),
        _headline(outcome),
    )


def _emblem_remedies(v: model.Inputs, broken: set[str], solve: Solver) -> list[model.Remedy]:
    remedies = []
    if "emblem" in broken:
        rule = lamps.emblem_rule_for(v.place)
        source = rule.source if rule else ""
        if v.emblem == "no":
            remedies.append(model.Remedy("Fit a new emblem.", {"emblem": "yes"}, source))
        else:
            remedies.append(
                model.Remedy("Take the emblem off or cover it.", {"emblem": "no"}, source)
            )
    if "emblem_height" in broken:
        low, high = lamps.emblem_window(v.place)
        all_low, all_high = lamps.emblem_height_for_all()
        target = min(max(all_low, low), high)
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Mount the emblem with its lower edge {low} to {high} above the road. Between "
                    "{all_low} and {all_high} it satisfies every height rule in our tables.",
                    low=(low, "length"),
                    high=(high, "length"),
                    all_low=(all_low, "length"),
                    all_high=(all_high, "length"),
                ),
                solved(solve, "emblem_height", target, ("emblem_height",), up=target <= low),
                "road/CALC-1",
            )
        )
    return remedies


def _lamp_remedies(
    v: model.Inputs, outcome: model.Outcome, found: rl.Situation, broken: set[str], solve: Solver
) -> list[model.Remedy]:
    remedies = []
    for item, title in _COUNTED:
        check = outcome.check(item)
        if check is not None and check.margin < 0:
            wanted = int(check.limit)
            remedies.append(
                model.Remedy(
                    f"{title}: have {wanted} on the tractor.", {item: str(wanted)}, check.source
                )
            )
        standard = outcome.check(f"{item}_standard")
        if standard is not None and not standard.margin:
            need = found.need("tractor", item)
            asked = rl.count_of(need, lamps.BASES, False) if need else 0
            remedies.append(
                model.Remedy(
                    f"{title}: the standard asks for {asked}; worth fitting.",
                    {item: str(asked)},
                    standard.source,
                )
            )
    for name, field_name, said in (
        ("tail_seen", "tail_height", "Raise the tail lamps to {h} and they show over it."),
        ("amber_seen", "flasher_height", "Raise the warning lamps to {h} and they show over it."),
    ):
        if name in broken:
            height = solve.smallest(field_name, getattr(v, field_name), 3.0, (name,))
            if height is not None:
                remedies.append(
                    model.Remedy(
                        model.phrase(said, h=(height, "length")),
                        solved(solve, field_name, height, (name,), up=True),
                        "road/CALC-1",
                    )
                )
    for name, field_name in (
        ("tail_lamps_height", "tail_height"),
        ("amber_flashers_height", "flasher_height"),
    ):
        check = outcome.check(name)
        if check is not None and check.margin < 0:
            target = min(max(check.value, check.limit), check.upper)
            middle = (check.limit + check.upper) / 2
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "{title}: between {low} and {high}.",
                        title=check.title,
                        low=(check.limit, "length"),
                        high=(check.upper, "length"),
                    ),
                    solved(solve, field_name, target, (name,), up=target < middle),
                    check.source,
                )
            )
    edges = [
        check.name
        for check in outcome.checks
        if check.name.partition("_edge")[1] and (check.name in broken or not check.margin)
    ]
    if edges:
        limits = [need.edge for need in found.needs if need.unit == "tractor" and need.edge]
        near = v.tractor_width - 2 * min(limits)
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Set the lamps {apart} apart, so that they show your width.",
                    apart=(near, "length"),
                ),
                solved(solve, "lamp_spread", near, edges, up=True),
                "road/CALC-1",
            )
        )
    return [*remedies, *_marking_remedies(v, outcome, broken, solve)]


def _marking_remedies(
    v: model.Inputs, outcome: model.Outcome, broken: set[str], solve: Solver
) -> list[model.Remedy]:
    names = tuple(broken & {"behind", "tail_seen", "amber_seen"})
    behind = outcome.check("behind")
    wanting = behind is not None and behind.margin <= 0
    if not names and not wanting:
        return []
    said = {
        "reflectors": "Put reflectors and strips on what is behind.",
        "emblem": "Put reflectors and an emblem of its own on what is behind.",
        "full": "Put a marking kit on what is behind: lamps, flashers, reflectors and an emblem, "
        "fed from the seven-terminal socket.",
    }
    for marking, text in said.items():
        after = solve.run(implement_marking=marking)
        marked = after.check("behind")
        enough = not wanting or marked is None or marked.margin > 0
        if marking != v.implement_marking and enough and (not names or after.margin(names) >= 0):
            return [model.Remedy(text, {"implement_marking": marking}, "road/WEB-1")]
    return []


def _size_remedies(
    v: model.Inputs, broken: set[str], solve: Solver, hidden_rear: bool
) -> list[model.Remedy]:
    remedies = []
    names = tuple(broken & {"width_limit", "carried", "daylight", "speed", "special_order"})
    if "daylight" in broken and solve.run(hours="day").margin(("daylight",)) >= 0:
        remedies.append(
            model.Remedy("Travel by daylight, in clear weather.", {"hours": "day"}, "road/CALC-1")
        )
    speeds = tuple(broken & {"speed", "rated_speed"})
    if speeds:
        speed = solve.largest("road_speed", 0.5, v.road_speed, speeds)
        if speed is not None:
            remedies.append(
                model.Remedy(
                    model.phrase("Drive {speed} or less.", speed=(speed, "speed")),
                    solved(solve, "road_speed", speed, speeds, up=False),
                    "road/CALC-1",
                )
            )
    if names:
        width = solve.largest("transport_width", 0.5, v.transport_width, names)
        if width is not None and width < v.transport_width:
            remedies.append(
                model.Remedy(
                    model.phrase("Fold, turn or split it to {w} or less.", w=(width, "length")),
                    solved(solve, "transport_width", width, names, up=False),
                    "road/CALC-1",
                )
            )
    if "mirror" in broken and v.mirror_reach is None and not hidden_rear:
        half = v.tractor_width / 2
        remedies.append(
            model.Remedy(
                "Fit a rear-view mirror.",
                solved(solve, "mirror_reach", half, ("mirror",), up=True),
                "road/CALC-1",
            )
        )
    elif "mirror" in broken:
        reach = solve.smallest("mirror_reach", v.mirror_reach or 0.1, 2.0, ("mirror",))
        if reach is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "A mirror that reaches {reach} from the middle shows the road behind.",
                        reach=(reach, "length"),
                    ),
                    solved(solve, "mirror_reach", reach, ("mirror",), up=True),
                    "road/CALC-1",
                )
            )
    return remedies


def _cautions(v: model.Inputs) -> list[model.Caution]:
    cautions = [
        model.Caution(
            "A summary for planning, not legal advice. Rules differ by state, county and road and "
            "change yearly. Check the current text, or ask the state police or the road "
            "department, before you travel.",
            "road/US-ALL-caution",
        ),
        model.Caution(
            "Being lawful isn't the same as being seen. Run the flashers by day too where that is "
            "allowed, and keep lamps and emblem clean.",
            "road/OEM-2",
        ),
        model.Caution(
            "On the road: implement raised and locked, shaft off, brake pedals locked together, "
            "roll-over bar up and belt on, no riders. The operator's manuals come first.",
            "road/ROAD-practice",
        ),
    ]
    return cautions


def _notes(v: model.Inputs, found: rl.Situation) -> list[model.Words]:
    notes: list[model.Words] = []
    name = lamps.place_row(v.place)["name"]
    country = lamps.place_row(v.place)["country"]
    if not lamps.has_own_rules(v.place):
        notes.append(
            f"No rule of {name} itself is in our tables. The list follows the standard"
            + (" and the common pattern of state law" if country == "US" else "")
            + "; look up your own code."
        )
    if country == "US":
        notes.append(
            "The federal rule (49 CFR part 562) asked the maker of this tractor for lamps and "
            "marking to the standard."
            if found.federal["tractor"]
            else "The federal rule does not reach this tractor: it binds makers of field machines "
            "made for sale from June 2017 and asks nobody to refit an older one. State law applies "
            "all the same."
        )
    hours = tables.by_key("road/lamp_hours", "place")
    row = hours.get(v.place) or (hours["US-UVC"] if country == "US" else None)
    if row is not None and v.hours == "dark":
        notes.append(f"When lamps are required here: {row['text']}.")
    if lamps.emblem_rule_for(v.place) is not None and v.emblem == "yes":
        failing = [p for p in lamps.emblem_fails(v.emblem_height) if not p.startswith("US-STD")]
        names = sorted(lamps.place_row(p)["name"] for p in failing)
        notes.append(
            model.phrase(
                "An emblem whose lower edge is at {h} is "
                + (
                    f"out of place in {quantities.joined(names)}."
                    if names
                    else "right under every height rule in our tables."
                ),
                h=(v.emblem_height, "length"),
            )
        )
    unasked = [
        f"{rl.item_row(need.item)['name']}"
        for need in found.needs
        if rl.item_row(need.item)["group"] == "fit"
        and need.unit == "tractor"
        and need.item not in {item for item, _ in _COUNTED} | {"mirrors"}
    ]
    if unasked:
        notes.append(
            f"On the list but not asked about above, so not part of the finding: "
            f"{quantities.joined(unasked)}."
        )
    return notes


def _headline(outcome: model.Outcome) -> model.Words:
    """What to say when nothing is broken."""
    if outcome.margin() < 0:
        return ""
    wanting = [
        check.title for check in outcome.checks if check.sense == "fits" and not check.margin
    ]
    if wanting:
        return f"No rule that was read is broken; still to look at: {quantities.joined(wanting)}."
    return "No rule that was read is broken. Go through the lists below at the machine."
