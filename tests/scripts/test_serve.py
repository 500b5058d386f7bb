"""The command that a newcomer runs first: it builds, serves, and says where."""

from __future__ import annotations

import re
import signal
import subprocess
import threading
from collections.abc import Iterator
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest

from scripts import _environment, _setup, serve

COMMAND = [_environment.venv_python(), "scripts/serve.py", "--no-open", "--port", "0"]
SHOP = "scripts/example-shop"


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


def served(lines: Iterator[str]) -> str:
    """Return the address that is printed."""
    found = (re.search(r"Yardstick is at (http://127\.0\.0\.1:\d+/)", each) for each in lines)
    return next(each[1] for each in found if each)


def test_a_second_one_on_the_same_port_leaves_the_first_alone() -> None:
    with subprocess.Popen(COMMAND, cwd=_setup.ROOT, stdout=subprocess.PIPE, text=True) as first:
        assert first.stdout
        address = served(iter(first.stdout.readline, ""))
        again = [*COMMAND[:-1], address.rstrip("/").rpartition(":")[2]]
        with subprocess.Popen(again, cwd=_setup.ROOT, stdout=subprocess.PIPE, text=True) as second:
            assert second.stdout
            other = served(iter(second.stdout.readline, ""))
            assert other != address
            for each in (address, other):
                with urlopen(f"{each}pairing/", timeout=30) as answer:
                    sent = answer.headers
                    assert "frame-ancestors 'self'" in sent["Content-Security-Policy"]
            second.send_signal(signal.SIGINT)
            assert second.wait(30) == 0
        with urlopen(f"{address}pairing/", timeout=30) as answer:
            assert answer.status == 200
        first.send_signal(signal.SIGINT)
        assert first.wait(30) == 0
    folders = [
        _setup.WORK / f"served-{each.rstrip('/').rpartition(':')[2]}" for each in (address, other)
    ]
    assert not any(each.exists() for each in folders)


def test_a_shop_that_is_not_there_is_one_sentence(tmp_path: Path) -> None:
    command = [*COMMAND, "--shop", str(tmp_path / "none")]
    done = subprocess.run(command, cwd=_setup.ROOT, capture_output=True, text=True)
    assert done.returncode == 1
    assert done.stderr == f"There is no folder {tmp_path / 'none'}.\n"


def test_where_nothing_is_found_the_sites_own_page_says_so(tmp_path: Path) -> None:
    (tmp_path / "404.html").write_text("<h1>Not here</h1>", encoding="utf-8")
    serving = serve.server(tmp_path)
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    try:
        with pytest.raises(HTTPError) as missing:
            urlopen(f"http://127.0.0.1:{serving.server_address[1]}/none/", timeout=30)
        assert missing.value.code == 404
        assert missing.value.read() == b"<h1>Not here</h1>"
    finally:
        serving.shutdown()
        serving.server_close()
