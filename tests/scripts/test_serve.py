"""The command that a newcomer runs first: it builds, serves, and says where."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path
from urllib.request import urlopen

from scripts import _setup

COMMAND = [_setup.venv_python(), "scripts/serve.py", "--no-open", "--port", "0"]
SHOP = "examples/shop"


def test_a_shops_site_is_served_at_the_address_that_is_printed() -> None:
    command = [*COMMAND, "--shop", SHOP]
    with subprocess.Popen(command, cwd=_setup.ROOT, stdout=subprocess.PIPE, text=True) as serving:
        try:
            assert serving.stdout
            lines = iter(serving.stdout.readline, "")
            found = (
                re.search(r"Yardstick is at (http://127\.0\.0\.1:\d+/)", each) for each in lines
            )
            address = next(each[1] for each in found if each)
            with urlopen(f"{address}pairing/", timeout=30) as answer:
                assert "Example Yard" in answer.read().decode()
        finally:
            serving.terminate()


def test_a_shop_that_is_not_there_is_one_sentence(tmp_path: Path) -> None:
    command = [*COMMAND, "--shop", str(tmp_path / "none")]
    done = subprocess.run(command, cwd=_setup.ROOT, capture_output=True, text=True)
    assert done.returncode == 1
    assert done.stderr == f"There is no folder {tmp_path / 'none'}.\n"
