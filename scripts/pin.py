"""Pin the requirement lists anew: change or add NAME==VERSION in one of them, then run this.

It adds what those packages need besides, and the hashes of every file of every package, for each
system and each Python that the project runs on.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import re
import subprocess

from scripts import _environment, _setup

# Each list with the lists that are installed before it.
RESTS_ON = {"build": (), "test": ("build",), "node": (), "pin": ()}
OPTIONS = (
    *("--universal", "--generate-hashes", "--no-annotate", "--no-header", "--quiet"),
    *("--no-emit-index-url", "--no-emit-find-links"),
)


def pins(text: str) -> dict[str, str]:
    """Return each package of a list with the whole of its entry, hashes included."""
    entries = re.split(r"\n(?=\S)", text.strip())
    return {each.split("==")[0]: each for each in entries if not each.startswith("#")}


def _resolved(entries: list[str]) -> dict[str, str]:
    bare = "\n".join(each.split(" \\\n")[0] for each in entries)
    oldest = ".".join(str(part) for part in _python.OLDEST)
    command = [sys.executable, "-m", "uv", "pip", "compile", "--python-version", oldest, *OPTIONS]
    done = subprocess.run([*command, "-"], input=bare, capture_output=True, text=True)
    if done.returncode != 0:
        raise _setup.SetupError(f"The lists can't be pinned.\n{done.stderr.strip()}")
    return pins(done.stdout)


def main() -> int:
    """Write every list anew."""
    _environment.ensure_environment("pin")
    for group, path in _environment.REQUIREMENTS.items():
        before = [
            each
            for name in RESTS_ON[group]
            for each in pins(_environment.REQUIREMENTS[name].read_text(encoding="utf-8")).items()
        ]
        text = path.read_text(encoding="utf-8")
        own = pins(text)
        found = _resolved([*(entry for _, entry in before), *own.values()])
        kept = [found[name] for name in sorted(found) if name not in dict(before)]
        heading = text.partition("\n")[0]
        path.write_text("\n".join([heading, *kept, ""]), encoding="utf-8")
        _setup.say(f"{path.name}: {len(kept)} packages")
    return 0


if __name__ == "__main__":
    _setup.command(main)
