"""The site as a device keeps it: without a network, damaged, and while its version changes."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from scripts import _setup
from tests.browser.conftest import LIVE, PATIENCE, WINDOW
from tests.browser.hosted import Host, Stalling, hosted, next_version
from tests.browser.talk import ANSWERED, field, finding, given, settle, until

KEPT = "Kept on this device for use without signal"
LATER = "A heading of the later version"
# What a script in the page does to the kept files.
DELETE = """async (part) => {
  let count = 0;
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const each of await cache.keys())
      if (each.url.includes(part)) { await cache.delete(each); count += 1; }
  }
  return count;
}"""
DAMAGE = """async (part) => {
  let count = 0;
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const each of await cache.keys()) {
      if (!each.url.endsWith(part)) continue;
      const { headers } = await cache.match(each);
      await cache.put(each, new Response("<p>half a pa", { headers }));
      count += 1;
    }
  }
  return count;
}"""
# The one file in the version that was kept first.
LOSE_IN_FIRST = """async (part) => {
  const [name] = await caches.keys();
  const cache = await caches.open(name);
  const lost = (await cache.keys()).find((each) => each.url.endsWith(part));
  return cache.delete(lost);
}"""
# Tell the version in use to leave, while the page goes on asking for so many files; how many it had
# when the version said that it left.
LEAVE = """async (files) => {
  const { active } = await navigator.serviceWorker.getRegistration();
  const { port1, port2 } = new MessageChannel();
  let had = 0;
  const left = new Promise((resolve) => (port1.onmessage = () => resolve(had)));
  await fetch(location.href);
  active.postMessage({ kind: "leave" }, [port2]);
  for (; had < files; had += 1) {
    await fetch(location.href);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  return left;
}"""
KEPT_FILES = """async () => {
  let count = 0;
  for (const name of await caches.keys())
    count += (await (await caches.open(name)).keys()).length;
  return count;
}"""


@pytest.fixture
def host(site: Path) -> Iterator[Host]:
    """The site on a host, in a folder."""
    with hosted(site) as running:
        yield running


@pytest.fixture
def visitor(browser: Browser) -> Iterator[BrowserContext]:
    """A visitor whose browser may keep the site."""
    fresh = browser.new_context(viewport=WINDOW)  # type: ignore[arg-type]
    fresh.set_default_timeout(PATIENCE)
    yield fresh
    fresh.close()


def visit(visitor: BrowserContext, host: Host, page: str = "pairing/") -> Page:
    """Open a page and wait until the whole site is kept."""
    opened = visitor.new_page()
    opened.goto(f"{host.address}{page}")
    expect(opened.locator(".ys-kept")).to_contain_text(KEPT, timeout=PATIENCE)
    return opened


def stop_worker(page: Page) -> None:
    """End the service worker, so that it looks at every file anew when it starts again."""
    session = page.context.new_cdp_session(page)
    session.send("ServiceWorker.enable")
    session.send("ServiceWorker.stopAllWorkers")
    session.detach()


def test_after_one_visit_every_page_opens_and_answers_without_a_network(
    visitor: BrowserContext, host: Host, site: Path
) -> None:
    page = visit(visitor, host)
    # The reader's own answer came first.
    parts = [
        n for n, each in enumerate(host.asked) if each.endswith(("library-pairing.gz", "worker.js"))
    ]
    assert host.asked.index("/service-worker.js") > min(parts)
    visitor.set_offline(True)
    with host.unplugged():
        count = len(host.asked)
        page.get_by_role("link", name="Post hole digger").first.click()
        page.wait_for_url("**/fit/post-hole-digger/")
        for path in (
            "",
            f"pairing/#{given(working_width='48 in')}",
            "tires/swap/",
            "about/sources/",
        ):
            fresh = visitor.new_page()
            fresh.goto(f"{host.address}{path}")
            expect(fresh.locator("h1").first).to_be_visible()
            if path.startswith("pairing"):
                fresh.wait_for_selector(ANSWERED)
                settle(fresh)
                assert finding(fresh) != "over"
                field(fresh, "working_width").fill("60 in")
                settle(fresh)
                assert finding(fresh) == "over"
            fresh.close()
        # Without the slash at its end the address leads to the same page.
        page.goto(f"{host.address}tires/swap")
        assert page.url == f"{host.address}tires/swap/"
        page.goto(f"{host.address}pairing/")
        page.keyboard.press("/")
        page.keyboard.type("ballast")
        expect(page.locator(".md-search-result__item").first).to_be_visible()
        page.goto(f"{host.address}no/such/page/")
        expect(page.locator("body")).to_contain_text("not among the pages kept on this device")
        assert len(host.asked) == count


def test_what_is_damaged_or_missing_is_fetched_again(visitor: BrowserContext, host: Host) -> None:
    page = visit(visitor, host)
    whole = page.evaluate(KEPT_FILES)
    assert whole > 40
    assert page.evaluate(DAMAGE, "somewhere/tires/swap/") == 1
    # The runtime, and the part of it that is hardly ever called.
    assert page.evaluate(DAMAGE, ".wasm") == 2
    assert page.evaluate(DELETE, "/assets/stylesheets/") >= 1
    stop_worker(page)
    page.goto(f"{host.address}tires/swap/")
    expect(page.locator("h1").first).to_be_visible()
    page.wait_for_selector(LIVE, state="attached")
    expect(page.locator(".ys-kept")).to_contain_text(KEPT)
    assert page.evaluate(KEPT_FILES) == whole
    with host.unplugged():
        stop_worker(page)
        page.goto(f"{host.address}pairing/#working_width=48+in")
        page.wait_for_selector(ANSWERED)


def test_damage_without_a_network_is_said_and_healed_once_there_is_one(
    visitor: BrowserContext, host: Host
) -> None:
    page = visit(visitor, host)
    page.evaluate(DAMAGE, "somewhere/tires/swap/")
    page.evaluate(DELETE, "somewhere/tires/duals/")
    stop_worker(page)
    with host.unplugged():
        page.goto(f"{host.address}pairing/")
        said = "2 files of the copy on this device are missing or damaged, and there is no network"
        expect(page.locator(".ys-kept")).to_contain_text(said)
        for path in ("tires/swap/", "tires/duals/"):
            page.goto(f"{host.address}{path}")
            expect(page.locator("body")).to_contain_text("there is no network to fetch it again")
            expect(page.locator("body")).not_to_contain_text("half a pa")
        page.get_by_role("link", name="Go to the first page").click()
        page.wait_for_url(host.address)
    page.evaluate("window.dispatchEvent(new Event('online'))")
    expect(page.locator(".ys-kept")).to_contain_text(KEPT)
    with host.unplugged():
        page.goto(f"{host.address}tires/swap/")
        expect(page.locator("h1").first).to_be_visible()
        page.wait_for_selector(LIVE, state="attached")


def test_a_new_version_comes_whole_and_only_when_it_is_wanted(
    visitor: BrowserContext, host: Host, site: Path, tmp_path: Path
) -> None:
    with _setup.one_at_a_time():
        later = next_version(site, tmp_path / "later", LATER)
    page = visit(visitor, host)
    field(page, "working_width").fill("48 in")
    page.wait_for_url("**/pairing/#v=2&working_width=48+in")
    other = visit(visitor, host, "tires/swap/")
    host.exchange(later)
    # Still the first version: the page in use, and every page that is opened beside it.
    assert not other.evaluate("getComputedStyle(document.body).getPropertyValue('--later')")
    third = visitor.new_page()
    third.goto(f"{host.address}pairing/")
    expect(third.locator("h1").first).to_be_visible()
    assert LATER not in third.content()
    expect(page.locator(".ys-newer")).to_contain_text("A new version is ready")
    assert LATER not in third.content()
    fourth = visitor.new_page()
    fourth.goto(f"{host.address}pairing/")
    assert LATER not in fourth.content()
    # A browser doesn't end an idle worker that a driver of tests looks at: no page may ask for more
    # just then.
    for each in (third, fourth):
        each.wait_for_selector(LIVE, state="attached")
        expect(each.locator(".ys-kept")).to_contain_text(KEPT)
    assert not fourth.evaluate("getComputedStyle(document.body).getPropertyValue('--later')")
    page.locator(".ys-newer").get_by_role("button", name="Reload").click()
    expect(page.get_by_text(LATER).first).to_be_attached()
    page.wait_for_selector(ANSWERED)
    assert LATER in page.content()
    assert page.evaluate("getComputedStyle(document.body).getPropertyValue('--later')")
    assert field(page, "working_width").input_value() == "48 in"
    # The other pages of the old version changed with it.
    until(other, "getComputedStyle(document.body).getPropertyValue('--later')")
    with host.unplugged():
        again = visitor.new_page()
        again.goto(f"{host.address}pairing/")
        assert LATER in again.content()
        assert len(again.evaluate("caches.keys()")) == 1


def test_a_new_version_waits_for_nothing_that_the_old_one_still_fetches(
    visitor: BrowserContext, site: Path, tmp_path: Path
) -> None:
    with _setup.one_at_a_time():
        later = next_version(site, tmp_path / "later", LATER)
    with hosted(site, Stalling) as host:
        page = visit(visitor, host)
        host.exchange(later)
        page.evaluate("navigator.serviceWorker.getRegistration().then((each) => each.update())")
        expect(page.locator(".ys-newer")).to_contain_text("A new version is ready")
        assert page.evaluate(LOSE_IN_FIRST, "/tires/swap/")
        with host.stalled("/tires/swap/") as waiting:
            # Every page that opens has the version that is in use look for what it lacks.
            visitor.new_page().goto(f"{host.address}pairing/")
            assert waiting.wait(PATIENCE)
            page.locator(".ys-newer").get_by_role("button", name="Reload").click()
            expect(page.get_by_text(LATER).first).to_be_attached()


def test_a_version_leaves_in_a_pause_of_what_pages_ask_for(
    visitor: BrowserContext, host: Host
) -> None:
    # A page that asks while the browser ends the old version starts it again: the new one waits.
    assert visit(visitor, host, "tires/swap/").evaluate(LEAVE, 80) == 80


def test_damage_that_only_a_new_version_can_mend_lets_it_in(
    visitor: BrowserContext, host: Host, site: Path, tmp_path: Path
) -> None:
    with _setup.one_at_a_time():
        later = next_version(site, tmp_path / "later", LATER)
    page = visit(visitor, host, "tires/swap/")
    page.evaluate(DAMAGE, "somewhere/pairing/")
    stop_worker(page)
    host.exchange(later)
    page.goto(f"{host.address}pairing/")
    page.get_by_text(LATER).wait_for()
    assert page.evaluate("getComputedStyle(document.body).getPropertyValue('--later')")


def test_a_half_copied_version_never_takes_over(
    visitor: BrowserContext, host: Host, site: Path, tmp_path: Path
) -> None:
    with _setup.one_at_a_time():
        later = next_version(site, tmp_path / "later", LATER)
    # The host has the new list already, and still the old page.
    (later / "pairing" / "index.html").write_bytes((site / "pairing" / "index.html").read_bytes())
    page = visit(visitor, host)
    host.exchange(later)
    page.evaluate("navigator.serviceWorker.getRegistration().then((each) => each.update())")
    until(page, "navigator.serviceWorker.getRegistration().then((each) => !each.installing)")
    registered = "navigator.serviceWorker.getRegistration().then((each) => Boolean(each.waiting))"
    assert page.evaluate(registered) is False
    expect(page.locator(".ys-newer")).to_have_count(0)
    with host.unplugged():
        page.goto(f"{host.address}tires/swap/")
        expect(page.locator("h1").first).to_be_visible()


def test_what_is_kept_can_be_given_up(visitor: BrowserContext, host: Host) -> None:
    page = visit(visitor, host, "about/offline/")
    with page.expect_navigation():
        page.get_by_role("button", name="Remove it from this device").click()
    expect(page.locator("#ys-keep")).to_contain_text("Not kept on this device, as you chose.")
    assert page.evaluate("caches.keys()") == []
    page.goto(f"{host.address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    page.wait_for_timeout(1500)
    assert page.evaluate("navigator.serviceWorker.getRegistrations()") == []
    page.goto(f"{host.address}about/offline/")
    page.get_by_role("button", name="Keep it on this device").click()
    expect(page.locator("#ys-keep")).to_contain_text(KEPT, timeout=PATIENCE)


def test_a_site_built_not_to_be_kept_gives_up_what_was_kept(
    visitor: BrowserContext, host: Host, site: Path, tmp_path: Path
) -> None:
    import shutil

    from scripts import finish

    page = visit(visitor, host)
    plain = tmp_path / "plain"
    shutil.copytree(site, plain)
    for path in plain.rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        path.write_text(finish.MARK.sub("<html ", text, count=1), encoding="utf-8")
    finish.finish(plain, kept=False)
    host.exchange(plain)
    page.evaluate("window.earlier = true")
    page.evaluate("navigator.serviceWorker.getRegistration().then((each) => each.update())")
    # The worker that takes over gives up what was kept, and opens the page anew.
    until(page, "!window.earlier && document.readyState === 'complete'")
    until(page, "navigator.serviceWorker.getRegistrations().then((each) => !each.length)")
    page.goto(f"{host.address}tires/swap/")
    page.wait_for_selector(LIVE, state="attached")
    assert page.evaluate("caches.keys()") == []
    expect(page.locator(".ys-kept")).to_have_count(0)


def test_the_offline_copy_registers_nothing(page: Page, offline: Path) -> None:
    page.goto((offline / "pairing.html").as_uri())
    page.wait_for_selector(LIVE, state="attached")
    expect(page.locator(".ys-kept")).to_have_count(0)
    assert not (offline / "service-worker.js").exists()
    assert "manifest.webmanifest" not in page.content()
