"""An answer as HTML: the verdict and what to do about it; the depth is folded below it."""

from __future__ import annotations

from collections.abc import Callable

import htpy as h

from calc import links, model
from calc.model import Answer, check_text, leading, sentences, words
from calc.render import concerns, fitting_caution, parts, svg
from calc.render.depth import depth_html
from calc.render.marks import shape
from calc.render.notes import Notes

UNCHECKED_SHOWN = 3
REMEDIES_SHOWN = 3
BAR_PLACE = "ys-bar-place"
ODDS_PARTS = 10

Extra = Callable[[model.Remedy], str]


def answer_html(answer: Answer, system: str = "us") -> str:
    """Return the whole answer as HTML. The same inputs give the same bytes everywhere."""
    return str(_answer(answer, system))


def first_html(answer: Answer, system: str = "us") -> str:
    """Return a first look as HTML: how it stands, which takes the place of what stood so far."""
    return str(_finding(answer, system, Notes(f"ys-{answer.worksheet.name}")))


def _answer(answer: Answer, system: str) -> h.Element:
    notes = Notes(f"ys-{answer.worksheet.name}")
    pictures = [svg.draw(picture, system, i) for i, picture in enumerate(answer.pictures)]
    return h.div(".ys-body", data_finding=answer.finding)[
        h.div(".ys-first")[
            _finding(answer, system, notes),
            h.div(".ys-beside")[pictures[:1]] if pictures else None,
            h.div(".ys-beside")[
                _remedies(answer, system, notes),
                _also(answer, system, notes),
                _unchecked(answer),
                _find_next(answer, system),
                h.div(".ys-odds", hidden=True) if answer.finding == model.UNKNOWN else None,
            ],
        ],
        _caution(answer, notes),
        h.div(class_=BAR_PLACE),
        depth_html(answer, system, notes, pictures[1:]),
    ]


def _finding(answer: Answer, system: str, notes: Notes) -> h.Element:
    said = leading.lead(answer, system)
    deciding = answer.deciding
    why = _why(answer, said)
    source = deciding.check.source if deciding and not answer.missing else ""
    name = answer.worksheet.name
    return h.div(
        ".ys-finding", id=f"ys-{name}-finding", data_finding=answer.finding, tabindex="-1"
    )[
        h.p(".ys-finding-word")[
            shape(answer.finding), h.strong[answer.worksheet.finding_words(answer.finding)], " "
        ],
        h.h2(".ys-lead")[said, notes.mark(source) if source else None, " "] if said else None,
        h.p(".ys-why")[f"{why} "] if why else None,
        h.p(".ys-standing")[f"{sentences.standing_sentence(answer)} "]
        if sentences.standing_sentence(answer)
        else None,
        h.p(".ys-passing")["A first look at the middle values; the ranges are being searched."]
        if not answer.final
        else None,
    ]


STAKES = "At stake: "
SAID = 0.7  # of the words of a reason: a lead that has so many of them has told it


def _why(answer: Answer, lead: str) -> str:
    """What happens when the deciding check is broken, where the lead hasn't said so.

    Of a limit that isn't broken it is what is at stake; what fits or doesn't tells its own state.
    """
    if answer.deciding is None or answer.finding == model.WITHIN:
        return ""
    why, said = answer.deciding.check.why, fitting_caution.stems(lead)
    about = fitting_caution.stems(why)
    if not why or (about and len(about & said) >= SAID * len(about)):
        return ""
    of_money = answer.worksheet.compares_money
    broken = answer.finding not in (model.CLOSE, model.UNKNOWN)
    return why if broken or of_money or answer.deciding.check.sense == "fits" else f"{STAKES}{why}"


def sight_html(answer: Answer, system: str = "us") -> str:
    """Return the line that stays in sight while a field is edited."""
    return str(
        h.span(data_finding=answer.finding)[
            shape(answer.finding),
            h.strong[answer.worksheet.finding_words(answer.finding)],
            " ",
            h.span[leading.sight(answer, system)],
        ]
    )


def odds_html(answer: Answer) -> str:
    """Return how the machines that fit what was given divide, as a bar and a sentence."""
    odds = answer.odds
    if odds is None or not odds.tried:
        return ""
    share = odds.pass_all / odds.tried
    filled = round(share * ODDS_PARTS)
    filled = min(max(filled, 1 if odds.pass_all else 0), ODDS_PARTS - (share < 1))
    parts = [h.b(class_="ys-odd" if i < filled else "") for i in range(ODDS_PARTS)]
    return str(
        h.fragment[
            h.h3["Of machines that fit what you gave"],
            h.div(".ys-odds-bar", aria_hidden="true")[parts],
            h.p[sentences.odds_sentence(answer)],
        ]
    )


def _remedies(answer: Answer, system: str, notes: Notes) -> h.Element | None:
    remedies = answer.advice.remedies
    if not remedies:
        return None
    own = concerns.helping(answer)
    shown = own[:REMEDIES_SHOWN]
    told = set(map(id, shown))
    more = [remedy for remedy in remedies if id(remedy) not in told]
    aside = f"{len(more)} for what wasn't asked"
    return h.div(".ys-remedies")[
        [
            h.h3["What would do it"],
            h.ul[[_remedy(answer, remedy, system, notes) for remedy in shown]],
        ]
        if shown
        else None,
        h.details[
            h.summary[f"{len(more)} more" if shown else aside],
            h.ul[[_remedy(answer, remedy, system, notes) for remedy in more]],
        ]
        if more
        else None,
    ]


def _remedy(answer: Answer, remedy: model.Remedy, system: str, notes: Notes) -> h.Element:
    mends, sold = sentences.mends(answer, remedy), parts.said(remedy)
    return h.li[
        h.div[
            words(remedy.text, system),
            notes.mark(remedy.source) if remedy.source else None,
            h.small(".ys-part")[sold] if sold else None,
            h.small[mends] if mends else None,
        ],
        h.a(".ys-try", href=f"#{links.encoded(remedy.set)}")["Try it"] if remedy.set else None,
    ]


def _also(answer: Answer, system: str, notes: Notes) -> h.Element | None:
    """What else is broken, by harm; the deciding check is in the verdict already."""
    broken = [v for v in answer.verdicts if v.finding == model.OVER and v is not answer.deciding]
    if not broken:
        return None
    broken.sort(key=model.rank)
    # A page of money has no limits, and advice is none.
    limits = [v for v in broken if v.check.grade != model.ADVICE]
    own = "over" in answer.worksheet.words.get("findings", {})
    is_over = limits and not own and answer.finding != model.COMPARED
    return h.div(".ys-also")[
        h.h3["Also over" if is_over else "To note as well"],
        h.ul[
            [
                h.li[
                    h.strong[f"{v.check.heading(v.finding)}. "],
                    check_text.check_said(v, system),
                    notes.mark(v.check.source),
                    h.small[" Advice."] if v.check.grade == model.ADVICE else None,
                ]
                for v in broken
            ]
        ],
    ]


def _unchecked(answer: Answer) -> h.Element | None:
    governs = [item for item in answer.unchecked if item.governs]
    if not governs:
        return None
    shown = [*governs[:UNCHECKED_SHOWN]]
    more = len(governs) - len(shown)
    return h.div(".ys-unchecked")[
        h.h3["Not checked"],
        h.ul[
            [
                h.li[
                    h.strong[f"{item.title}. "],
                    f"It needs “{answer.worksheet.field(item.field).label}”. ",
                    answer.worksheet.field(item.field).help,
                ]
                for item in shown
            ],
            h.li[f"And {more} more, listed with the checks."] if more else None,
        ],
    ]


def _find_next(answer: Answer, system: str) -> h.Element | None:
    """The needed fields that are blank, or the two numbers that would settle most."""
    if answer.missing:
        return h.div(".ys-next")[
            h.h3["Say first"],
            h.ul[
                [h.li[h.strong[item.label.rstrip("?")], ". ", item.help] for item in answer.missing]
            ],
        ]
    if not answer.settles:
        return None
    then = sentences.then_sentence(answer)
    return h.div(".ys-next")[
        h.h3["To find next"],
        h.p(".ys-settle")[f"{sentences.settle_sentence(answer, system)} "],
        h.p[then] if then else None,
    ]


def _caution(answer: Answer, notes: Notes) -> h.Element | None:
    """The caution that fits best stands in sight; the others are folded."""
    cautions = answer.advice.cautions
    if not cautions:
        return None
    first = cautions[0]
    return h.p(".ys-care")[
        h.strong["Take care: "], first.text, notes.mark(first.source) if first.source else None
    ]
