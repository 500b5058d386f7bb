"""A dealer's own lists: a folder with tractors.csv, implements.csv and shop.toml."""

from __future__ import annotations

import json
import os
import re
import tomllib
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path
from typing import Any

from scripts import _setup

# The build tells MkDocs' process which folder to read.
FOLDER_VARIABLE = "YARDSTICK_SHOP"
# ... and where the site will stand.
ADDRESS_VARIABLE = "YARDSTICK_SITE_URL"
SETTINGS = "shop.toml"
TEXTS = ("name", "contact", "region", "units")
LONGEST_TEXT = 200
DEMO_TITLE = "Examples"


@dataclass(frozen=True)
class Shop:
    """What the folder says, less what was wrong in it."""

    name: str
    contact: str
    region: str  # a place of the road tables, or ""
    units: str  # "us" or "metric"
    notes: tuple[str, ...]
    page_notes: dict[str, str]  # by page, such as "lift/lift-and-ballast"
    tractors: tuple[Any, ...]  # of calc.machines.Machine
    implements: tuple[Any, ...]
    problems: tuple[str, ...]
    round_up: tuple[Any, ...] = ()  # of calc.render.round_up.Kept
    parts: tuple[Any, ...] = ()  # of calc.render.parts.Part


ROUND_UP = "round_up.csv"


def read(folder: Path) -> Shop:
    """Return the shop in `folder`, with a sentence for everything that can't be used."""
    from calc import machines

    problems: list[str] = []
    settings = _settings(folder, problems)
    lists: dict[str, tuple[machines.Machine, ...]] = {}
    for role in machines.ROLES:
        path = folder / f"{role}s.csv"
        content = _text(path, problems)
        lists[role] = ()
        if content is not None:
            system = settings["units"] or "us"
            lists[role], found = machines.read_machines(content, role, str(path), system)
            problems += found
    kept = _round_up(folder / ROUND_UP, problems)
    return Shop(
        settings["name"],
        settings["contact"],
        settings["region"],
        settings["units"] or "us",
        tuple(settings["notes"]),
        settings["page_notes"],
        lists["tractor"],
        lists["implement"],
        tuple(problems),
        kept,
        tuple(settings["parts"]),
    )


def _round_up(path: Path, problems: list[str]) -> tuple[Any, ...]:
    """Return the questions of the shop's round-up; a shop needs none."""
    from calc.render import round_up

    content = _text(path, problems) if path.exists() else None
    if content is None:
        return ()
    found, wrong = round_up.read(content, str(path))
    problems += wrong
    return found


def _text(path: Path, problems: list[str]) -> str | None:
    """Return the text of a file, or None with a sentence among the problems."""
    from calc.errors import InputError
    from calc.machines import lists

    try:
        return lists.read_text(path)
    except InputError as error:
        problems.append(str(error))
    return None


def _settings(folder: Path, problems: list[str]) -> dict[str, Any]:
    """Return the settings, each of its right type; what is wrong is left out and named."""
    path = folder / SETTINGS
    settings: dict[str, Any] = {
        **dict.fromkeys(TEXTS, ""),
        "notes": [],
        "page_notes": {},
        "parts": [],
    }
    text = _text(path, problems)
    if text is None:
        return settings
    try:
        given = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        problems.append(f"{path}: {error}.")
        return settings
    except (ValueError, RecursionError):
        # What is allowed in this format and still can't be taken in; neither error names a place.
        problems.append(f"{path}{_too_much(text)}.")
        return settings
    for key, value in given.items():
        where = f"{path}, {key}"
        if key in TEXTS:
            if _is_line(value):
                settings[key] = " ".join(value.split())
            else:
                problems.append(f"{where}: a text of up to {LONGEST_TEXT} characters is expected.")
        elif key == "notes":
            if not isinstance(value, list):
                problems.append(f"{where}: a list of texts is expected.")
                continue
            settings[key] = [each for each in value if _is_line(each)]
            problems += [
                f"{where}, note {count}: a text of up to {LONGEST_TEXT} characters is expected."
                for count, each in enumerate(value, 1)
                if not _is_line(each)
            ]
        elif key == "page_notes":
            if not isinstance(value, dict):
                problems.append(f"{where}: a text for each page is expected.")
                continue
            settings[key] = {page: text for page, text in value.items() if _is_line(text)}
            problems += [
                f"{where}, {page}: a text of up to {LONGEST_TEXT} characters is expected."
                for page in value
                if page not in settings[key]
            ]
        elif key == "parts":
            settings[key] = _parts(value, where, problems)
        else:
            problems.append(f"{where}: there is no such setting.")
    _check(settings, path, problems)
    return settings


def _parts(value: object, where: str, problems: list[str]) -> list[Any]:
    """Return the parts that are attached to remedies; each that can't be used is named."""
    from calc.render import parts

    if not isinstance(value, list):
        problems.append(f"{where}: each part stands under [[parts]].")
        return []
    found = []
    for count, item in enumerate(value, 1):
        part = parts.read(item)
        if part is None or not part.sentence():
            problems.append(
                f"{where}, part {count}: “for” names a remedy, and number, name, price or stock "
                "says what there is."
            )
            continue
        problems += [
            f"{where}, part {count}: no page has a remedy called “{key}”."
            for key in parts.unknown(part.remedies)
        ]
        found.append(part)
    return found


# Far beyond what a settings file needs, and short of what the reader of the format gives up at.
DEEP = re.compile(r"(?:[\[{][^\[\]{}]*){100}")
LONG_NUMBER = re.compile(r"[0-9_]{1000}")


def _too_much(text: str) -> str:
    """Return where a text has a number or a nesting that nobody means, and which it is."""
    for pattern, what in (
        (LONG_NUMBER, "a number has more than a thousand digits"),
        (DEEP, "lists or tables stand inside each other too deep"),
    ):
        found = pattern.search(text)
        if found:
            return f", line {text.count(chr(10), 0, found.start()) + 1}: {what}"
    return ": it can't be read as TOML"


def _is_line(value: object) -> bool:
    return isinstance(value, str) and len(value) <= LONGEST_TEXT


def _check(settings: dict[str, Any], path: Path, problems: list[str]) -> None:
    """Give up a setting whose value means nothing here."""
    from calc import tables

    if not settings["name"]:
        problems.append(f"{path}, name: the shop has no name.")
    if settings["units"] not in ("", "us", "metric"):
        problems.append(f"{path}, units: “{settings['units']}” is neither “us” nor “metric”.")
        settings["units"] = ""
    wanted = settings["region"].lower()
    if wanted:
        places = {
            text.lower(): row["place"]
            for row in tables.rows("road/road_places")
            for text in (row["place"], row["name"])
        }
        if wanted not in places:
            problems.append(
                f"{path}, region: “{settings['region']}” is no place of the road pages; write a "
                "state or province, such as “Ohio” or “OH”."
            )
        settings["region"] = places.get(wanted, "")
    pages = {
        page.relative_to(_setup.ROOT / "docs").with_suffix("").as_posix()
        for page in (_setup.ROOT / "docs").rglob("*.md")
    }
    for page in [page for page in settings["page_notes"] if page not in pages]:
        problems.append(f"{path}, page_notes: there is no page “{page}”.")
        del settings["page_notes"][page]


@cache
def current() -> Shop | None:
    """Return the shop that this build is for, if any; its parts are then on the shelf."""
    from calc.render import parts

    folder = os.environ.get(FOLDER_VARIABLE)
    found = read(Path(folder)) if folder else None
    parts.stock(found.parts if found else ())
    return found


def units() -> str:
    """Return the units in which this site's pages are written."""
    found = current()
    return found.units if found else "us"


def round_up() -> tuple[Any, ...]:
    """Return the questions of the shop's round-up; none on a site that is no shop's."""
    found = current()
    return found.round_up if found else ()


def _listed(machine: Any) -> dict[str, Any]:
    """Return a machine of a list, with what a reply says of it beside its name."""
    return {**asdict(machine), "told": machine.told}


def lists_script() -> str:
    """Return the script that gives the pages their lists of machines, and the shop's lines."""
    from calc import machines
    from calc.render import parts

    found = current()
    demo = [machine for role in machines.ROLES for machine in machines.demo(role)]
    groups = [{"title": DEMO_TITLE, "machines": [_listed(machine) for machine in demo]}]
    shop: dict[str, Any] | None = None
    if found:
        own = [_listed(machine) for machine in (*found.tractors, *found.implements)]
        groups.insert(0, {"title": found.name or "Our machines", "machines": own})
        shop = {name: getattr(found, name) for name in TEXTS}
        shop["parts"] = [parts.as_data(part) for part in found.parts]
    address = os.environ.get(ADDRESS_VARIABLE, "")
    address = f"{address.rstrip('/')}/" if address else ""
    folders = os.environ.get("YARDSTICK_DIRECTORY_URLS", "true") == "true"
    page = "machines/" if folders else "machines.html"
    lists = {"shop": shop, "address": address, "page": page, "groups": groups}
    return f"window.yardstickLists = {json.dumps(lists, ensure_ascii=False)};\n"


def banner(page: str) -> str:
    """Return the lines of the shop that stand on `page`, as HTML; "" without a shop."""
    import htpy as h

    found = current()
    if found is None:
        return ""
    note = found.page_notes.get(page)
    return str(
        h.aside(".ys-shop", aria_label="About this shop")[
            h.p(".ys-shop-line")[
                h.strong[found.name] if found.name else None,
                " · " if found.name and found.contact else None,
                found.contact or None,
            ],
            [h.p[text] for text in (*found.notes, *([note] if note else []))],
        ]
    )


def matrix_html(pairing_href: str) -> str:
    """Return the matrix of this site's lists: the shop's, or without one the examples."""
    from calc import machines
    from calc.render import yard

    found = current()
    tractors = found.tractors if found else machines.demo("tractor")
    implements = found.implements if found else machines.demo("implement")
    return yard.matrix_block(tractors, implements, pairing_href, units())


def capability_html(page_href: str) -> str:
    """Return the capability sheet of every tractor of this site's list."""
    from calc import machines
    from calc.render import capability

    found = current()
    tractors = found.tractors if found else machines.demo("tractor")
    return capability.block(tractors, page_href, units())
