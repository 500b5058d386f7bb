"""What a built site contains besides the project's own, with its licenses: one list for all uses.

The list is made from what was built: the packages that the bundler took in, the packages that the
theme's own scripts and style sheets were made of, and the parts that show in the compiled runtime.
"""

from __future__ import annotations

import csv
import html
import importlib.util
import json
import re
import uuid
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from importlib.metadata import Distribution, distribution
from pathlib import Path, PurePath

from scripts import _node, _setup, client

FILE = "licenses.txt"
LICENSES = _setup.ROOT / "scripts" / "licenses"
OWN = "yardstick"
THEME = "mkdocs-material"
PACKAGE_FOLDER = re.compile(r"node_modules/((?:@[^/]+/)?[^/]+)/")
RULE = "=" * 100
FILES_OF_LICENSES = ("LICENSE", "LICENCE")
# What each package of the project's own choosing does here, for the page about software.
DOES = {
    "htpy": "writes the HTML of forms and answers",
    "markupsafe": "keeps what you type from being taken for HTML",
    THEME: "the layout, the navigation and the search of the pages",
    "pyodide": "makes Python run in a browser; its script is shortened when the site is built",
    "idb-keyval": "keeps your machines on your device",
    "uqr": "draws the square code on printed sheets",
    "iframe-worker": "lets the search work in the offline copy",
}


@dataclass(frozen=True)
class Component:
    """Other people's software in the site."""

    name: str
    version: str  # "" where the files don't tell
    license: str  # an SPDX expression
    notice: str  # who holds the rights, and the license's text where it is the package's own
    does: str
    registry: str  # "npm", "pypi" or "generic", as a package URL names it


def components(*, offline: bool = False) -> list[Component]:
    """Return what was built into the site, or into its offline copy."""
    npm = _node.ensure_npm_packages()
    taken = {"pyodide", *_bundled(), *(["iframe-worker"] if offline else [])}
    found = [_npm(npm / name) for name in sorted(taken)]
    found += [_python(name) for name in ("htpy", "markupsafe", THEME)]
    return [*found, *_parts(npm)]


def _bundled() -> set[str]:
    """Return the packages that the bundler took into any of the client's scripts."""
    return {
        name
        for path in client.BUNDLES.glob("*.packages.json")
        for name in json.loads(path.read_text(encoding="utf-8"))
    }


def _npm(folder: Path) -> Component:
    stated = json.loads((folder / "package.json").read_text(encoding="utf-8"))
    texts = [
        path for path in sorted(folder.iterdir()) if path.stem.upper() in ("LICENSE", "LICENCE")
    ]
    notice = texts[0].read_text(encoding="utf-8") if texts else _source(stated)
    name = stated["name"]
    return Component(name, stated["version"], stated["license"], notice, DOES[name], "npm")


def _source(stated: dict[str, object]) -> str:
    """Return where the source of a package without a license file is, as its license asks."""
    where = stated.get("repository")
    address = str(where["url"] if isinstance(where, dict) else where)
    return f"Its source: {address.removeprefix('git+')}\n"


def _python(name: str) -> Component:
    found = distribution(name)
    stated = found.metadata.get("License-Expression") or found.metadata.get("License") or ""
    return Component(name, found.version, stated, _license_text(found), DOES[name], "pypi")


def _license_text(found: Distribution) -> str:
    for name in found.metadata.get_all("License-File") or []:
        # Since version 2.4 of the metadata they lie in a folder of their own.
        text = found.read_text(f"licenses/{name}") or found.read_text(name)
        if text and PurePath(name).stem.upper() in FILES_OF_LICENSES:
            return text
    raise _setup.SetupError(f"The package {found.metadata['Name']} has no license beside it.")


def theme_folder() -> Path:
    """Return the folder of the theme's package."""
    spec = importlib.util.find_spec("material")
    if spec is None or spec.origin is None:
        raise _setup.SetupError(f"The package {THEME} is not installed in .venv.")
    return Path(spec.origin).parent


def theme_packages() -> set[str]:
    """Return the packages that the theme's scripts and styles were made of, by their own maps."""
    found: set[str] = set()
    for path in (theme_folder() / "templates" / "assets").rglob("*.map"):
        if "lunr" not in path.parts:  # other languages, which are left out
            for source in json.loads(path.read_text(encoding="utf-8"))["sources"]:
                found.update(PACKAGE_FOLDER.findall(source))
    return found


def part_rows() -> list[dict[str, str]]:
    """Return the rows of the list of parts inside the theme and the runtime."""
    with (LICENSES / "parts.csv").open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


def _parts(npm: Path) -> Iterator[Component]:
    """Give each part of the theme and the runtime that shows in their files."""
    runtime = [npm / "pyodide" / name for name in ("pyodide.asm.wasm", "pyodide.js")]
    pages = (theme_folder() / "templates" / "assets" / "stylesheets").glob("*.css")
    icons = (theme_folder() / "templates" / ".icons" / "material").glob("menu.svg")
    within = {
        "runtime": b"\n".join(path.read_bytes() for path in runtime),
        "pages": b"\n".join(path.read_bytes() for path in (*pages, *icons)),
    }
    packages = theme_packages()
    python = json.loads((npm / "pyodide" / "pyodide-lock.json").read_text())["info"]["python"]
    for row in part_rows():
        version = python if row["name"] == "cpython" else row["version"]
        if row["within"] == "theme":
            if row["mark"] not in packages:
                raise _gone(row)
        else:
            shown = re.search(row["mark"].encode(), within[row["within"]])
            if shown is None:
                raise _gone(row)
            version = shown[1].decode() if shown.groups() else version
        text = (theme_folder() / row["text"]).read_text(encoding="utf-8") if row["text"] else ""
        notice = f"{row['copyright']}\n\n{text}".rstrip() + "\n"
        yield Component(row["name"], version, row["license"], notice, row["does"], "generic")


def _gone(row: dict[str, str]) -> _setup.SetupError:
    return _setup.SetupError(
        f"{row['name']} doesn't show in the {row['within']} any more: scripts/licenses/parts.csv "
        "must be looked at."
    )


def texts_of(expression: str) -> list[str]:
    """Return the names of the license texts that an SPDX expression speaks of."""
    return re.split(r" (?:WITH|AND|OR) ", expression)


def licenses(found: Iterable[Component]) -> str:
    """Return every license of the site as one text: the project's, each part's, then the texts."""
    listed = list(found)
    parts = [
        "The calculations, the pages and the drawings of this site:\n\n"
        + (_setup.ROOT / "LICENSE").read_text(encoding="utf-8")
    ]
    for each in listed:
        heading = f"{each.name} {each.version}".rstrip() + f" ({each.license}): {each.does}"
        parts.append(f"{heading}\n\n{each.notice}")
    for name in sorted({name for each in listed for name in texts_of(each.license)}):
        path = LICENSES / f"{name}.txt"
        if path.is_file():
            parts.append(f"The text of {name}\n\n{path.read_text(encoding='utf-8')}")
    return f"\n{RULE}\n\n".join(part.rstrip() + "\n" for part in parts)


def table_html(found: Iterable[Component]) -> str:
    """Return the list for the page about software."""
    rows = "".join(
        "<tr>"
        f"<td><code>{html.escape(each.name)}</code></td><td>{html.escape(each.version)}</td>"
        f"<td>{html.escape(each.does)}</td><td>{html.escape(each.license)}</td></tr>"
        for each in found
    )
    head = "<tr><th>Package</th><th>Version</th><th>What it does here</th><th>License</th></tr>"
    return f"<table><thead>{head}</thead><tbody>{rows}</tbody></table>"


def notice_for_theme() -> str:
    """Return the comment that the theme's scripts carry, whose makers left out most notices."""
    theme = distribution(THEME)
    inside = ", ".join(
        f"{row['name']} ({row['license']})" for row in part_rows() if row["within"] == "theme"
    )
    return f"/*! {THEME} {theme.version} (MIT), with {inside}: see {FILE} */\n"


def bill(found: Iterable[Component], version: str) -> str:
    """Return the list in the form that CycloneDX sets down, as JSON; `version` names the build."""
    from cyclonedx.contrib.license.factories import LicenseFactory
    from cyclonedx.model.bom import Bom
    from cyclonedx.model.component import Component as Listed
    from cyclonedx.model.component import ComponentType
    from cyclonedx.output import make_outputter
    from cyclonedx.schema import OutputFormat, SchemaVersion
    from packageurl import PackageURL

    factory = LicenseFactory()
    bom = Bom()
    own = Listed(
        name=OWN,
        version=version,
        type=ComponentType.APPLICATION,
        licenses=[factory.make_from_string("MIT")],
        bom_ref=OWN,
    )
    bom.metadata.component = own
    bom.serial_number = uuid.uuid5(uuid.NAMESPACE_URL, f"{OWN} {version}")
    for each in found:
        group, _, name = each.name.rpartition("/")
        url = PackageURL(each.registry, group or None, name, each.version or None)
        listed = Listed(
            name=name,
            group=group or None,
            version=each.version or None,
            description=each.does,
            type=ComponentType.LIBRARY,
            licenses=[factory.make_from_string(each.license)],
            purl=url,
            bom_ref=str(url),
        )
        bom.components.add(listed)
        bom.register_dependency(own, [listed])
    return make_outputter(bom, OutputFormat.JSON, SchemaVersion.V1_6).output_as_string(indent=1)


def is_our_bill(path: Path) -> bool:
    """Say whether a file is the list of an earlier build."""
    try:
        told = json.loads(path.read_text(encoding="utf-8"))
        ours: bool = told["metadata"]["component"]["name"] == OWN
    except (OSError, ValueError, KeyError, TypeError):
        return False
    return ours
