"""Which port is served at, and what is said about one that can't be."""

from __future__ import annotations

import socket
import subprocess
from pathlib import Path

import pytest

from scripts import _environment, _setup, serve

COMMAND = [_environment.venv_python(), "scripts/serve.py", "--no-open"]


@pytest.mark.parametrize("port", ["80000", "65536", "-1", "eight", "8e3", "", "٣", "9" * 5000])
def test_a_number_that_is_no_port_is_one_sentence(port: str) -> None:
    done = subprocess.run(
        [*COMMAND, f"--port={port}"], cwd=_setup.ROOT, capture_output=True, text=True
    )
    assert done.returncode == 2 and "Traceback" not in done.stderr
    assert "a number from 0 to 65535" in done.stderr


@pytest.mark.parametrize("port", ["0", "65535", "8000"])
def test_a_port_is_read(port: str) -> None:
    assert serve.port_number(port) == int(port)


def test_a_port_that_is_taken_gives_way_to_the_next(capsys: pytest.CaptureFixture[str]) -> None:
    with serve.take_port(0) as first:
        taken = first.server_address[1]
        with serve.take_port(taken) as second:
            assert second.server_address[1] > taken
        assert f"Port {taken} is taken." in capsys.readouterr().err


def test_when_none_is_free_a_sentence_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serve, "PORTS_TRIED", 1)
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        with pytest.raises(_setup.SetupError, match=f"No port from {port} on is free"):
            serve.take_port(port)


def test_the_first_ports_are_not_for_everybody(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(folder: Path, port: int) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(serve, "server", refuse)
    with pytest.raises(_setup.SetupError, match="Try --port 8000"):
        serve.take_port(80)
