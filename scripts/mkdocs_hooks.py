"""What MkDocs does beyond its own settings: our blocks, and the built client in the site."""

from __future__ import annotations

import os
import re
import shutil
import sys
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

ROOT = Path(__file__).resolve().parent.parent
# Before the folder of the hooks, where a command has the name of the package.
sys.path.insert(0, str(ROOT))

from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files

from scripts import _setup, client, contents, markdown_ext, shop

BUILT = Path(os.environ.get("YARDSTICK_ASSETS") or _setup.WORK / "assets")
OFFLINE = os.environ.get("YARDSTICK_OFFLINE") == "true"
# What a page counts in the search beside one that only lists.
ANSWERS, ABOUT = 4.0, 0.1
_source = markdown_ext.Source()


def on_config(config: Any) -> Any:
    """Add our Markdown; give up what can't work on pages opened from a file."""
    config.markdown_extensions.append(markdown_ext.YardstickExtension(_source))
    if OFFLINE:
        config.theme["features"].remove("navigation.instant")
    else:
        config.extra["polyfills"] = []
        config.extra["first_script"] = client.first_script()
        config.extra["build"] = client.built()
    return config


def on_files(files: Files, config: Any) -> Files:
    """Put what the build made (client script, runtime) beside the pages."""
    for path in sorted(BUILT.rglob("*")):
        if path.is_file():
            name = (Path("assets") / path.relative_to(BUILT)).as_posix()
            files.append(File.generated(config, name, abs_src_path=str(path)))
    files.append(File.generated(config, "assets/machines.js", content=shop.lists_script()))
    return files


def on_page_markdown(markdown: str, page: Any, **_: Any) -> str:
    """Remember which page is being read, so that an error can name it."""
    _source.name = page.file.src_uri
    _source.path = Path(page.file.abs_src_path) if page.file.abs_src_path else None
    page.meta.setdefault("search", {}).setdefault("boost", _boost(page.file.src_uri, markdown))
    # The heading asks in a reader's words; the search also knows what the menu calls the page.
    page.meta.setdefault("tags", [page.meta["title"]] if "title" in page.meta else [])
    return markdown


def _boost(name: str, markdown: str) -> float:
    """Return what a page counts in the search: first what answers, last what tells of the site."""
    if name.startswith("about/"):
        return ABOUT
    return ANSWERS if "\n::: worksheet" in markdown else 1.0


def on_page_content(html: str, page: Any, **_: Any) -> str:
    """Put the shop's lines on top of a page, on a site that is built for one."""
    return f"{shop.banner(page.file.src_uri.removesuffix('.md'))}{html}"


# Whatever on a page asks Python.
ASKING = re.compile(r'<section[^>]* class="ys[" ][^>]*>|id="ys-(?:find|messages)"')
WORKSHEET = re.compile(r'data-worksheet="([a-z-]+)"')


def on_page_context(context: Any, page: Any, **_: Any) -> Any:
    """Tell the page if it asks about one calculator alone; no address where the host is unknown."""
    asking = ASKING.findall(page.content)
    found = WORKSHEET.search(asking[0]) if len(asking) == 1 else None
    context["only"] = found[1] if found else ""
    if (urlsplit(page.canonical_url or "").hostname or "").endswith(".invalid"):
        page.canonical_url = None
    return context


def on_post_page(output: str, **_: Any) -> str:
    """Name the theme's search dialog for those who can't see it."""
    return output.replace('role="dialog"', 'role="dialog" aria-label="Search"')


def on_post_template(output_content: str, template_name: str, **_: Any) -> str:
    """Do the same for the page that says that there is none; a copy on a disk has none."""
    if template_name != "404.html":
        return output_content
    return "" if OFFLINE else on_post_page(output_content)


def on_build_error(error: Exception, **_: Any) -> None:
    """Say what a page asks for in vain as one sentence, without a traceback."""
    if isinstance(error, markdown_ext.PageError):
        raise PluginError(str(error)) from error


# The theme takes a link for one of the site's only at the very address that the settings name.
SITE_ADDRESS = re.compile(
    r"function (\w+)\((\w+),(\w+)\)"
    r"\{return \2\.protocol=\3\.protocol,\2\.hostname=\3\.hostname,\2\}"
)


def _at_any_address(script: str, site_url: str) -> str:
    """Return the theme's script with instant navigation at whatever address the site stands."""
    length = len(urlsplit(site_url).path or "/")
    changed, count = SITE_ADDRESS.subn(
        rf"function \1(\2,\3){{return new URL(\2.pathname.slice({length})+\2.search,\3)}}", script
    )
    if count != 1:
        raise PluginError("The theme's script has changed: instant navigation must be looked at.")
    return changed


# The theme reads the search index at once, except on pages opened from a file, where it waits until
# the search is opened.
SEARCH_AT_ONCE = re.compile(r'location\.protocol!=="file:"(?=\),\w+\("search"\))')


def _search_when_opened(script: str) -> str:
    """Return the theme's script with the search index read no earlier than it is wanted."""
    changed, count = SEARCH_AT_ONCE.subn("!1", script)
    if count != 1:
        raise PluginError("The theme's script has changed: the search must be looked at.")
    return changed


def on_post_build(config: Any) -> None:
    """Fit the theme's scripts to us, and leave out what it brings for other languages."""
    scripts = Path(config.site_dir) / "assets" / "javascripts"
    shutil.rmtree(scripts / "lunr", ignore_errors=True)
    for path in [*scripts.rglob("*.map"), *(scripts.parent / "stylesheets").rglob("*.map")]:
        path.unlink()
    for path in scripts.rglob("*.js"):
        text = path.read_text(encoding="utf-8").partition("//# sourceMappingURL=")[0]
        if path.name.startswith("bundle."):
            text = _search_when_opened(_at_any_address(text, config.site_url))
        path.write_text(f"{contents.notice_for_theme()}{text}", encoding="utf-8")
    told = contents.licenses(contents.components(offline=OFFLINE))
    (Path(config.site_dir) / contents.FILE).write_text(told, encoding="utf-8")
