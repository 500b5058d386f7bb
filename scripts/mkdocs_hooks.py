"""What MkDocs does beyond its own settings: our blocks, and the built client in the site."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

ROOT = Path(__file__).resolve().parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files

from scripts import _setup, markdown_ext

BUILT = _setup.WORK / "assets"
_source = markdown_ext.Source()


def on_config(config: Any) -> Any:
    """Add our Markdown."""
    config.markdown_extensions.append(markdown_ext.YardstickExtension(_source))
    return config


def on_files(files: Files, config: Any) -> Files:
    """Put what the build made (client script, runtime) beside the pages."""
    for path in sorted(BUILT.rglob("*")):
        if path.is_file():
            name = (Path("assets") / path.relative_to(BUILT)).as_posix()
            files.append(File.generated(config, name, abs_src_path=str(path)))
    return files


def on_page_markdown(markdown: str, page: Any, **_: Any) -> str:
    """Remember which page is being read, so that an error can name it."""
    _source.name = page.file.src_uri
    _source.path = Path(page.file.abs_src_path) if page.file.abs_src_path else None
    return markdown


def on_page_context(context: Any, page: Any, **_: Any) -> Any:
    """Give no address of its own to a page whose host is not known."""
    if (urlsplit(page.canonical_url or "").hostname or "").endswith(".invalid"):
        page.canonical_url = None
    return context


def on_build_error(error: Exception, **_: Any) -> None:
    """Say what a page asks for in vain as one sentence, without a traceback."""
    if isinstance(error, markdown_ext.PageError):
        raise PluginError(str(error)) from error


def on_post_build(config: Any) -> None:
    """Leave out what the theme brings for other languages and for debugging."""
    scripts = Path(config.site_dir) / "assets" / "javascripts"
    shutil.rmtree(scripts / "lunr", ignore_errors=True)
    for path in [*scripts.rglob("*.map"), *(scripts.parent / "stylesheets").rglob("*.map")]:
        path.unlink()
    for path in scripts.rglob("*.js"):
        text = path.read_text(encoding="utf-8")
        path.write_text(text.partition("//# sourceMappingURL=")[0], encoding="utf-8")
