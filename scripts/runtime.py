"""The Python that the browser runs: the npm runtime, trimmed, with the calculation package.

These parts come out of it, all in one folder named after their content:

* the runtime itself, made smaller (`scripts/smaller.py`), and gzipped for a slow link from a host
  that does not compress what it sends;
* `library.gz`: the standard library, trimmed to what answering every worksheet imports, and calc
  from a wheel, with htpy and MarkupSafe, all of it byte-compiled. Modules that the runtime imports
  at its start for what is never done here (an event loop, packages fetched, text run) are replaced
  by the few names that it takes of them, in `scripts/instead`;
* `library-NAME.gz` for each calculator: the half of that which its page can reach, for a first
  visit on a slow link (`scripts/shares.py`);
* `memory.gz`: what the memory of a Python with the whole library holds once it has started and has
  answered.

The library is a zip whose members are stored plainly, gzipped as a whole: that is smaller, it does
not rest on the host's own compression, and the browser unpacks it much faster than Python would.
Python imports straight from the zip, which is faster than unpacking it into files. The methods that
dataclasses write for calc's classes are compiled here too, as a module of their own: done at
every start, that took most of the time of importing calc.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import importlib.util
import json
import os
import secrets
import shutil
import sys
import tempfile
import zlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from calc import worksheets
from calc.model import wording
from calc.render import live
from scripts import _node, _setup, client_sources, digests, shares, smaller, vectors
from scripts.archives import Members, pack, packed, read_zip, write_zip
from scripts.beforehand import dataclass_methods

FOLDER = _setup.WORK / "runtime"
LIBRARY = "library.gz"
# Modules of our own that stand in for the largest ones that only the runtime itself imports.
INSTEAD = _setup.ROOT / "scripts" / "instead"
PROBE = _setup.ROOT / "scripts" / "runtime_node.mjs"
SLIMMER = _setup.ROOT / "scripts" / "slim_node.mjs"
PYTHON_OF_THE_RUNTIME = (3, 13)
LIBRARIES = ("htpy", "markupsafe")
# Parts of them that are for other programs, or for reading their types.
LEFT_OUT = {"htpy/django.py", "htpy/starlette.py", "htpy/html2htpy.py"}
# Imported only when something goes wrong, which no worksheet does on purpose.
KEPT_ANYHOW = {"traceback", "warnings", "contextlib"}
# Inside the runtime already; importlib says that they are read from here, but takes those.
FROZEN = {"importlib/_bootstrap.py", "importlib/_bootstrap_external.py"}
WORKER = "worker.ts"
SCRIPT = "python.js"
SNAPSHOT = "memory.gz"
WASM = smaller.WASM
PACKED_WASM = f"{WASM}.gz"
# What only the site's build and the command line need stays at home, unless it is used.
BUILD_ONLY = (
    "calc/__main__",
    "calc/capability",
    "calc/matrix",
    "calc/render/capability",
    "calc/reading/finding",
    "calc/render/facts/",
    "calc/render/index",
    "calc/render/round_up",
    "calc/render/page",
    "calc/render/tables/",
    "calc/render/yard",
    "calc/tables/words/published_checks",
    "calc/tables/words/questions",
    "yardstick_calc-",
)


@dataclass(frozen=True)
class Runtime:
    """Where the finished parts lie, and what the client needs to know of them."""

    folder: Path
    manifest: dict[str, object]


def _library_sources() -> Members:
    """Return the pure-Python sources of the packages that calc stands on."""
    members: Members = {}
    for name in LIBRARIES:
        spec = importlib.util.find_spec(name)
        if spec is None or spec.origin is None:
            raise _setup.SetupError(f"The package {name} is not installed in .venv.")
        base = Path(spec.origin).parent
        for path in sorted(base.rglob("*.py")):
            inside = (Path(name) / path.relative_to(base)).as_posix()
            if inside not in LEFT_OUT:
                members[inside] = path.read_bytes()
    return members


def calc_wheel() -> Path:
    """Build calc as a wheel from a copy of its sources, and return the wheel's path.

    The words of the worksheets go in as modules: the browser parses no file.
    """
    copy = _setup.WORK / "wheel"
    shutil.rmtree(copy, ignore_errors=True)
    hidden = shutil.ignore_patterns("__pycache__", "*.pyc")
    shutil.copytree(_setup.ROOT / "calc", copy / "calc", ignore=hidden)
    for name in ("pyproject.toml", "LICENSE"):
        shutil.copyfile(_setup.ROOT / name, copy / name)
    for words in (copy / "calc").rglob(wording.FILE):
        compiled = wording.compiled(words.read_text(encoding="utf-8"))
        words.with_name(f"{wording.COMPILED}.py").write_text(compiled, encoding="utf-8")
        words.unlink()
    command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", "out"]
    _setup.run(command, cwd=copy)
    return next((copy / "out").glob("*.whl"))


def byte_compile(archive: Path, *, inside_runtime: bool | None = None, strip: bool = False) -> Path:
    """Return the path of `archive` with every module compiled for the runtime's Python.

    pyodide-build does it where the environment's Python is the runtime's; elsewhere the runtime
    itself does, under node. With `strip` docstrings are left out. Where in a line each step stands
    is always left out: a traceback names the line all the same, and it was a third of the library.
    """
    if inside_runtime is None:
        inside_runtime = sys.version_info[:2] != PYTHON_OF_THE_RUNTIME
    if inside_runtime:
        target = archive.with_name(f"compiled-{archive.name}")
        _node.node(PROBE, "compile", archive, target, "2" if strip else "0")
        return target
    environment = {
        **os.environ,
        # Content decides the compiled file, not the moment at which it was made.
        "SOURCE_DATE_EPOCH": "1577836800",
        "PYTHONNODEBUGRANGES": "1",
        "PYTHONOPTIMIZE": "2" if strip else "",
    }
    work = archive.parent / "compile"
    shutil.rmtree(work, ignore_errors=True)
    work.mkdir()
    shutil.copyfile(archive, work / archive.name)
    pyodide = Path(sys.executable).with_name("pyodide")
    options = ("--silent", "--no-keep", "--compression-level", "1")
    _setup.run([pyodide, "py-compile", *options, work], env=environment)
    return next(path for path in work.iterdir() if path.suffix in {".zip", ".whl"})


def _sources_of_packages() -> tuple[Path, Path]:
    """Return the wheel of calc and a zip of its libraries, both as sources."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    libraries = FOLDER / "libraries.zip"
    libraries.write_bytes(write_zip(_library_sources()))
    return calc_wheel(), libraries


def _made_of() -> Iterator[bytes]:
    """Give everything that the packages are made of, without making them."""
    own = [_setup.ROOT / name for name in ("pyproject.toml", "LICENSE")]
    calc = (path for path in (_setup.ROOT / "calc").rglob("*") if path.suffix != ".pyc")
    for path in sorted([*own, *filter(Path.is_file, calc)]):
        yield path.relative_to(_setup.ROOT).as_posix().encode()
        yield path.read_bytes()
    for name, data in _library_sources().items():
        yield name.encode()
        yield data


def package_sources() -> bytes:
    """Return calc and its libraries as a plain zip of sources."""
    wheel, libraries = _sources_of_packages()
    return write_zip({**read_zip(libraries), **read_zip(wheel)})


def standard_library(npm: Path) -> Members:
    """Return the runtime's standard library as sources, with `INSTEAD` in its place."""
    ours = {
        path.relative_to(INSTEAD).as_posix(): path.read_bytes() for path in INSTEAD.rglob("*.py")
    }
    # A package is found before a module of its name.
    packages = tuple(name.replace(".py", "/") for name in ours)
    whole = read_zip(npm / "pyodide" / "python_stdlib.zip")
    return {n: data for n, data in whole.items() if not n.startswith(packages)} | ours


@dataclass(frozen=True)
class Questions:
    """What Python is asked at a build, and what the untouched runtime answers to it."""

    probes: tuple[str, ...]
    """Known requests, which reach every module."""
    seed: int
    """Of requests that are drawn anew at each build."""
    answers: tuple[str, ...] = ()
    """To the known ones, then to the others."""

    @property
    def drawn(self) -> list[str]:
        """Return the requests of the seed."""
        return vectors.fresh(self.seed)

    def are_answered(self, answers: Iterable[str]) -> bool:
        """Whether these answers, to both kinds, are the untouched runtime's."""
        return list(self.answers) == list(answers)


def used(library: Path, packages: Path, questions: Questions) -> dict[str, list[str]]:
    """Return what answering takes of the two archives: files of "library" and of "packages".

    Every worksheet is really answered, with the untrimmed `library`, by the runtime as it comes;
    "answers" are what it answers. "written" are the sources of the methods that dataclasses write
    for calc's classes.
    """
    probes = _write_requests(questions.probes)
    drawn = _write_requests(questions.drawn, "drawn.json")
    printed = _node.node(PROBE, "modules", library, packages, probes, drawn)
    found: dict[str, list[str]] = json.loads(printed.strip().splitlines()[-1])
    return found


def _write_requests(
    requests: Iterable[str], name: str = "requests.json", place: Path = FOLDER
) -> Path:
    path = place / name
    path.write_text(json.dumps(list(requests)))
    return path


def trimmed_library(whole: Members, used: Iterable[str]) -> Members:
    """Return the members of the standard library that are used, or needed to start at all."""
    wanted = (set(used) | {f"{name}.py" for name in KEPT_ANYHOW}) - FROZEN
    return {name: data for name, data in whole.items() if name in wanted}


def _digest(parts: Iterable[bytes]) -> str:
    return digests.digest(parts).hex()[:12]


def build(*, inside_runtime: bool | None = None) -> Runtime:
    """Make the runtime's folder, or take the one made before from the same sources."""
    npm = _node.ensure_npm_packages()
    key = _digest(
        [
            *_made_of(),
            (_node.CLIENT / "package-lock.json").read_bytes(),
            Path(__file__).read_bytes(),
            PROBE.read_bytes(),
            PROBE.with_name("watching.py").read_bytes(),
            PROBE.with_name("vectors.py").read_bytes(),
            PROBE.with_name("beforehand.py").read_bytes(),
            PROBE.with_name("archives.py").read_bytes(),
            Path(shares.__file__).read_bytes(),
            SLIMMER.read_bytes(),
            *(path.read_bytes() for path in smaller.sources()),
            *(path.read_bytes() for path in sorted(INSTEAD.rglob("*.py"))),
            client_sources.digest_of(WORKER),
            repr((sys.version_info[:2], inside_runtime)).encode(),
        ]
    )
    record = FOLDER / f"made-{key}.json"
    if record.is_file():
        manifest = json.loads(record.read_text())
        folder = FOLDER / manifest["folder"].rstrip("/").split("/")[-1]
        if folder.is_dir():
            return Runtime(folder, manifest)
    _setup.say("Trimming and compiling the browser's Python ...")
    wheel, libraries = _sources_of_packages()
    sources = {**read_zip(libraries), **read_zip(wheel)}
    whole = FOLDER / "packages-source.zip"
    whole.write_bytes(write_zip(sources, stored=True))
    standard = standard_library(npm)
    untrimmed = FOLDER / "library-whole.zip"
    untrimmed.write_bytes(write_zip(standard, stored=True))
    library_source = FOLDER / "library-source.zip"
    asked = Questions(tuple(vectors.probes()), secrets.randbits(32))
    taken = used(untrimmed, whole, asked)
    sources_of_library = {
        **trimmed_library(standard, taken["library"]),
        "dataclass_methods.py": dataclass_methods(taken["written"]).encode(),
    }
    library_source.write_bytes(write_zip(sources_of_library))
    library: Members = {}
    for archive in (library_source, wheel, libraries):
        members = read_zip(byte_compile(archive, inside_runtime=inside_runtime, strip=True))
        library |= {
            name: data
            for name, data in members.items()
            if name.replace(".pyc", ".py") in taken["packages"] or not name.startswith(BUILD_ONLY)
        }
    answered = replace(asked, answers=tuple(taken["answers"]))
    for request, answer in zip((*asked.probes, *asked.drawn), answered.answers, strict=True):
        # Some requests are no JSON, which is a fault everywhere.
        if '"fault":' in answer and answer != live.respond(request):
            raise _setup.SetupError(f"The browser's Python breaks off: {answer[:500]}")
    own = shares.Shares(sources)
    packs = {LIBRARY: pack(library)} | {
        shares.name_of(name): pack(own.of(name, library)) for name in worksheets.names()
    }
    runtime = _smaller_if_alike(npm, packs, answered)
    record.write_text(json.dumps(runtime.manifest))
    return runtime


def _script(source: Path) -> bytes:
    """Return the runtime's two scripts as one: a worker takes one after the other."""
    slim = FOLDER / "pyodide.asm.js"
    _node.node(SLIMMER, slim)
    version = json.loads((source / "package.json").read_text())["version"]
    notice = f"/* pyodide {version}, MPL-2.0, from npm; shortened when this site was built. */"
    both = [notice.encode(), slim.read_bytes(), (source / "pyodide.js").read_bytes()]
    return b"\n".join(both).replace(b"//# sourceMappingURL=", b"//")


def part(name: str, data: bytes) -> dict[str, object]:
    """Return what the client needs in order to know one of the runtime's files.

    A host may unpack a gzipped file on the way, so the marks are of what is in it: its length, the
    start of its SHA-256 in base64, and its CRC-32 for where browsers work out no SHA-256.
    """
    content = gzip.decompress(data) if name.endswith(".gz") else data
    digest = base64.b64encode(hashlib.sha256(content).digest()).decode("ascii")
    return {
        "name": name,
        "size": len(data),
        "length": len(content),
        "digest": digest[:22],
        "crc": zlib.crc32(content),
    }


def _smaller_if_alike(npm: Path, packs: Members, questions: Questions) -> Runtime:
    """Write the parts with the runtime made smaller, or as it comes if that answers otherwise."""
    script = FOLDER / SCRIPT
    script.write_bytes(_script(npm / "pyodide"))
    wasm = smaller.made_smaller(script)
    if wasm:
        runtime, answers = _write(npm, packs, script, wasm, questions.probes)
        answers += answer_all(questions.drawn, runtime, from_memory=True)
        if questions.are_answered(answers):
            return runtime
        _setup.say(f"The runtime is used as it comes: smaller it differs (seed {questions.seed}).")
    return _write(npm, packs, script, smaller.whole(), questions.probes)[0]


def _write(
    npm: Path, packs: Members, script: Path, wasm: Mapping[str, bytes], probes: Iterable[str]
) -> tuple[Runtime, list[str]]:
    """Write the finished parts into a folder named after their content.

    Returns also what this Python, started from its library, answers to the probes.
    """
    files = {
        **packs,
        **wasm,
        PACKED_WASM: packed(wasm[WASM]),
        SCRIPT: script.read_bytes(),
    }
    # The worker's own script lies in the same folder, so it has a say in the name.
    own = client_sources.digest_of(WORKER)
    made = FOLDER / "made"
    shutil.rmtree(made, ignore_errors=True)
    made.mkdir()
    for name, data in files.items():
        (made / name).write_bytes(data)
    info = json.loads((npm / "pyodide" / "pyodide-lock.json").read_text())["info"]
    manifest: dict[str, object] = {
        "worker": "worker.js",
        "wasm": {**part(WASM, wasm[WASM]), "packed": len(files[PACKED_WASM])},
        "cold": part(smaller.COLD, wasm[smaller.COLD]) if smaller.COLD in wasm else None,
        "whole": part(smaller.WHOLE, wasm[smaller.WHOLE]) if smaller.WHOLE in wasm else None,
        "library": part(LIBRARY, packs[LIBRARY]),
        "shares": {
            name: part(shares.name_of(name), packs[shares.name_of(name)])
            for name in worksheets.names()
        },
        "index": json.dumps({"info": info, "packages": {}}),
    }
    known = vectors.known()
    manifest["known"] = {"request": known, "answer": zlib.crc32(live.respond(known).encode())}
    files[SNAPSHOT], answers = _snapshot(made, manifest, probes)
    digest = _digest([*(files[name] for name in sorted(files)), own])
    folder = FOLDER / digest
    for old in [*FOLDER.glob("made-*.json"), *(each for each in FOLDER.iterdir() if each.is_dir())]:
        shutil.rmtree(old, ignore_errors=True) if old.is_dir() else old.unlink()
    folder.mkdir(parents=True)
    for name, data in files.items():
        (folder / name).write_bytes(data)
    manifest["folder"] = f"runtime/{digest}/"
    manifest["memory"] = part(SNAPSHOT, files[SNAPSHOT])
    return Runtime(folder, manifest), answers


def _snapshot(
    folder: Path, manifest: Mapping[str, object], probes: Iterable[str]
) -> tuple[bytes, list[str]]:
    """Return the memory of a Python that has started and has answered, gzipped; and its answers.

    A browser that fills its memory with it has calc imported and every table read at once.
    """
    questions = _write_requests(probes)
    described = FOLDER / "manifest.json"
    described.write_text(json.dumps(manifest))
    target = FOLDER / "memory"
    printed = _node.node(PROBE, "snapshot", folder / SCRIPT, described, questions, target)
    answers: list[str] = json.loads(printed.strip().splitlines()[-1])
    return packed(target.read_bytes()), answers


def answer_all(
    requests: Iterable[str], runtime: Runtime, *, from_memory: bool = False
) -> list[str]:
    """Return what the finished runtime, under node, answers to each request.

    It starts from its library, or from the memory that the build made.
    """
    memory = [runtime.folder / SNAPSHOT] if from_memory else []
    with tempfile.TemporaryDirectory() as place:
        questions = _write_requests(requests, place=Path(place))
        manifest = Path(place) / "manifest.json"
        manifest.write_text(json.dumps(runtime.manifest))
        printed = _node.node(PROBE, "answer", runtime.folder / SCRIPT, manifest, questions, *memory)
    answers: list[str] = json.loads(printed.strip().splitlines()[-1])
    return answers
