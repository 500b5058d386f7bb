"""Firefox and WebKitGTK, driven by what they speak themselves, and Chromium in the same words.

Firefox takes WebDriver's commands over Marionette, a socket of its own; WebKitGTK takes them over
HTTP from its driver. All three are used through `Window`.
"""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import Any, Protocol

from playwright.sync_api import Playwright

from scripts import _browsers

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # how WebDriver names one, by its standard
PATIENCE = 60.0  # s: the machine may be busy with other tests
LOOK = 100  # ms for which the page itself waits between two answers
SCRIPT_LIMIT = 30_000  # ms

# Waits inside of the page, so that nobody outside of it has to guess how long. The expression
# stands in it as it is: the site's headers refuse to have a text run.
LOOKING = """
const [pause, done] = arguments;
const look = () => (EXPRESSION);
const end = performance.now() + pause;
(function again() {
  let found = false;
  try { found = Boolean(look()); } catch (error) { /* not there yet */ }
  if (found || performance.now() > end) done(found);
  else setTimeout(again, 10);
})();
"""


class DriverError(Exception):
    """The browser refused a command, in its own words."""


class Window(Protocol):
    """What the tests do in a browser, whichever it is."""

    def open(self, address: str) -> None:
        """Open an address anew."""

    def run(self, script: str, *given: object) -> Any:
        """Run the body of a function in the page, and return what it returns."""

    def click(self, selector: str) -> None:
        """Click the first that fits."""

    def fill(self, selector: str, text: str) -> None:
        """Type a text over what stands in a field."""

    def until(self, expression: str) -> None:
        """Wait until an expression is true in the page."""


class Driven:
    """A window of a browser that takes WebDriver's commands."""

    def __init__(self, send: Callable[[str, str, dict[str, Any]], Any]) -> None:
        """Take what sends a command: its name in Marionette, its path over HTTP, what it needs."""
        self._send = send
        send("WebDriver:SetTimeouts", "timeouts", {"script": SCRIPT_LIMIT, "pageLoad": 60_000})

    def open(self, address: str) -> None:
        """Open an address anew."""
        # Another hash alone would be no new page.
        self._send("WebDriver:Navigate", "url", {"url": "about:blank"})
        self._send("WebDriver:Navigate", "url", {"url": address})

    def run(self, script: str, *given: object) -> Any:
        """Run the body of a function in the page, and return what it returns."""
        parameters = {"script": script, "args": list(given)}
        return self._send("WebDriver:ExecuteScript", "execute/sync", parameters)

    def _find(self, selector: str) -> str:
        wanted = {"using": "css selector", "value": selector}
        found: str = self._send("WebDriver:FindElement", "element", wanted)[ELEMENT]
        return found

    def click(self, selector: str) -> None:
        """Click the first that fits."""
        self.run("document.querySelector(arguments[0]).scrollIntoView({block: 'center'})", selector)
        element = self._find(selector)
        self._send("WebDriver:ElementClick", f"element/{element}/click", {"id": element})

    def fill(self, selector: str, text: str) -> None:
        """Type a text over what stands in a field."""
        element = self._find(selector)
        self._send("WebDriver:ElementClear", f"element/{element}/clear", {"id": element})
        typed = {"id": element, "text": text, "value": list(text)}
        self._send("WebDriver:ElementSendKeys", f"element/{element}/value", typed)

    def until(self, expression: str) -> None:
        """Wait until an expression is true in the page."""
        end = time.monotonic() + PATIENCE
        script = LOOKING.replace("EXPRESSION", expression)
        parameters = {"script": script, "args": [LOOK]}
        while time.monotonic() < end:
            # A page that is just being left has no answer.
            with suppress(DriverError):
                if self._send("WebDriver:ExecuteAsyncScript", "execute/async", parameters):
                    return
        raise AssertionError(f"never true: {expression}\n{self._told()}")

    def _told(self) -> str:
        with suppress(DriverError):
            return str(self.run("return location.href + '\\n' + document.body.innerText"))[:1500]
        return ""


class Chromium:
    """A window of Chromium, in the same words."""

    def __init__(self, page: Any) -> None:
        """Take a page of Playwright's."""
        self._page = page

    def open(self, address: str) -> None:
        """Open an address anew."""
        self._page.goto("about:blank")
        self._page.goto(address)

    def run(self, script: str, *given: object) -> Any:
        """Run the body of a function in the page, and return what it returns."""
        return self._page.evaluate(
            f"(given) => (function () {{ {script} }}).apply(null, given)", list(given)
        )

    def click(self, selector: str) -> None:
        """Click the first that fits."""
        self._page.locator(selector).first.click()

    def fill(self, selector: str, text: str) -> None:
        """Type a text over what stands in a field."""
        self._page.locator(selector).first.fill(text)

    def until(self, expression: str) -> None:
        """Wait until an expression is true in the page."""
        from tests.browser import talk

        talk.until(self._page, f"(() => {{ try {{ return {expression}; }} catch {{}} }})()")


@contextmanager
def _process(command: list[str], **environment: str) -> Iterator[subprocess.Popen[bytes]]:
    """Run a program in a group of its own, and end all of it."""
    with subprocess.Popen(
        command,
        env={**os.environ, **environment},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    ) as running:
        try:
            yield running
        finally:
            with suppress(ProcessLookupError):
                os.killpg(running.pid, 15)
            try:
                running.wait(10)
            except subprocess.TimeoutExpired:
                os.killpg(running.pid, 9)


def _once(made: Callable[[], Any], running: subprocess.Popen[bytes]) -> Any:
    """Return what can be had as soon as a program is up."""
    end = time.monotonic() + PATIENCE
    while True:
        try:
            return made()
        except (OSError, ValueError):
            if running.poll() is not None or time.monotonic() > end:
                raise
            _pause()


def _pause() -> None:
    """Let other programs run before the next look at a program that is starting."""
    with suppress(subprocess.TimeoutExpired):
        subprocess.run(["cat"], stdin=subprocess.PIPE, timeout=0.05)


class Marionette:
    """The socket over which a Firefox takes commands: a length, a colon, and JSON."""

    def __init__(self, port: int) -> None:
        """Connect, and begin a session."""
        self._socket = socket.create_connection(("127.0.0.1", port), timeout=PATIENCE * 2)
        self._count = 0
        self._receive()
        self("WebDriver:NewSession", "", {})

    def _receive(self) -> Any:
        length = b""
        while not length.endswith(b":"):
            length += self._some(1)
        content = b""
        while len(content) < int(length[:-1]):
            content += self._some(int(length[:-1]) - len(content))
        return json.loads(content)

    def _some(self, most: int) -> bytes:
        part = self._socket.recv(most)
        if not part:
            raise DriverError("Firefox has ended.")
        return part

    def __call__(self, name: str, _: str, parameters: dict[str, Any]) -> Any:
        """Send one command, and return its value."""
        self._count += 1
        sent = json.dumps([0, self._count, name, parameters]).encode()
        self._socket.sendall(b"%d:%s" % (len(sent), sent))
        _, _, error, found = self._receive()
        if error:
            raise DriverError(f"{error.get('error')}: {error.get('message')}")
        return found.get("value", found) if isinstance(found, dict) else found

    def close(self) -> None:
        """Let go of the browser."""
        self._socket.close()


PREFERENCES = {
    "marionette.port": 0,
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.page": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "app.update.enabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "services.settings.server": "data:,#remote-settings-dummy/v1",
    "javascript.options.wasm_optimizingjit": False,
}


@contextmanager
def firefox(home: Path, _: Playwright) -> Iterator[Window]:
    """A Firefox with a fresh profile in `home`."""
    program = shutil.which("firefox-esr") or shutil.which("firefox") or "firefox"
    lines = [f"user_pref({json.dumps(key)}, {json.dumps(to)});" for key, to in PREFERENCES.items()]
    (home / "user.js").write_text("\n".join(lines), encoding="utf-8")
    command = [program, "--headless", "--marionette", "--no-remote", "--profile", str(home)]
    with _process(command, HOME=str(home), MOZ_CRASHREPORTER_DISABLE="1") as running:
        port = _once(lambda: int((home / "MarionetteActivePort").read_text()), running)
        session = Marionette(port)
        try:
            yield Driven(session)
        finally:
            session.close()


class OverHttp:
    """A driver that takes commands over HTTP."""

    def __init__(self, port: int, capabilities: dict[str, Any]) -> None:
        """Begin a session."""
        self._base = f"http://127.0.0.1:{port}/session"
        wanted = {"capabilities": {"alwaysMatch": capabilities}}
        self._base += f"/{self._ask('POST', '', wanted)['sessionId']}"

    def _ask(self, method: str, path: str, parameters: dict[str, Any] | None) -> Any:
        content = None if parameters is None else json.dumps(parameters).encode()
        request = urllib.request.Request(f"{self._base}{path}", content, method=method)
        request.add_header("Content-Type", "application/json")
        try:
            with urllib.request.urlopen(request, timeout=PATIENCE * 2) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            told = json.load(error)["value"]
            raise DriverError(f"{told.get('error')}: {told.get('message')}") from None

    def __call__(self, _: str, path: str, parameters: dict[str, Any]) -> Any:
        """Send one command, and return its value."""
        return self._ask("POST", f"/{path}", parameters)

    def close(self) -> None:
        """End the session, and the browser with it."""
        with suppress(DriverError, OSError):
            self._ask("DELETE", "", None)


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@contextmanager
def _screen(home: Path) -> Iterator[str]:
    """A screen that nobody sees."""
    told = home / "screen"
    with told.open("wb") as number:
        descriptor = number.fileno()
        with subprocess.Popen(
            [
                "Xvfb",
                "-displayfd",
                str(descriptor),
                "-screen",
                "0",
                "1300x900x24",
                "-nolisten",
                "tcp",
            ],
            pass_fds=[descriptor],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        ) as running:
            try:
                yield f":{_once(lambda: int(told.read_text()), running)}"
            finally:
                running.terminate()


@contextmanager
def webkit(home: Path, _: Playwright) -> Iterator[Window]:
    """A WebKitGTK that keeps what it keeps in `home`."""
    port = _free_port()
    (home / "run").mkdir(mode=0o700)
    places = {
        "HOME": str(home),
        "XDG_RUNTIME_DIR": str(home / "run"),
        "XDG_DATA_HOME": str(home / "data"),
        "XDG_CACHE_HOME": str(home / "cache"),
        "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1",
        # A second, slower compiler pays only in visits longer than a test.
        "JSC_useOMGJIT": "false",
        "GDK_BACKEND": "x11",
        "LIBGL_ALWAYS_SOFTWARE": "1",
        "NO_AT_BRIDGE": "1",
    }
    with _screen(home) as screen:
        command = ["WebKitWebDriver", f"--port={port}", "--host=127.0.0.1"]
        with _process(command, DISPLAY=screen, **places) as running:
            session = _once(lambda: OverHttp(port, {}), running)
            try:
                yield Driven(session)
            finally:
                session.close()


@contextmanager
def chromium(home: Path, driver: Playwright) -> Iterator[Window]:
    """A Chromium that keeps what it keeps in `home`; one process has one driver of it."""
    from tests.browser.conftest import FLAGS

    with ExitStack() as stack:
        context = driver.chromium.launch_persistent_context(
            str(home), executable_path=_browsers.find_browser(), args=FLAGS
        )
        stack.callback(context.close)
        context.set_default_timeout(PATIENCE * 1000)
        yield Chromium(context.pages[0])


BROWSERS: dict[str, Callable[[Path, Playwright], Any]] = {
    "Chromium": chromium,
    "Firefox": firefox,
    "WebKitGTK": webkit,
}
