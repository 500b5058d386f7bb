"""Storage that is full, locked, denied or damaged: nothing says that it is saved unless it is."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.browser.conftest import LIVE
from tests.browser.talk import field, until

# The format of the file and the most that a device keeps, as the page about machines says.
MOST = 2000
LONGEST_TEXT = 120
# The site's headers refuse code made from text, so the action is put in before.
STORE = """() => new Promise((resolve, reject) => {
    const asked = indexedDB.open('yardstick');
    asked.onupgradeneeded = () => asked.result.createObjectStore('machines');
    asked.onsuccess = () => {
        const store = asked.result.transaction('machines', 'readwrite').objectStore('machines');
        ACTION;
        store.transaction.oncomplete = () => { asked.result.close(); resolve(); };
        store.transaction.onerror = () => reject(store.transaction.error);
    };
})"""
FULL = """
IDBObjectStore.prototype.put = function () {
    const full = new DOMException('The quota has been exceeded.', 'QuotaExceededError');
    throw full;
};"""
SILENT = "indexedDB.open = () => new EventTarget();"
DENIED = "indexedDB.open = () => { throw new DOMException('denied', 'SecurityError'); };"


def tractors(count: int, **inputs: str) -> dict[str, Any]:
    """A file of so many tractors."""
    given = inputs or {"pto_power": "20 hp"}
    machines = [{"name": f"T{n}", "role": "tractor", "inputs": given} for n in range(count)]
    return {"format": "yardstick-machines", "version": 1, "machines": machines}


def store_directly(page: Page, action: str) -> None:
    """Run a statement on the `store` in which the browser keeps the machines."""
    page.evaluate(STORE.replace("ACTION", action))


def bring(page: Page, content: dict[str, Any]) -> None:
    """Take a file in."""
    data = json.dumps(content).encode()
    chosen = {"name": "in.json", "mimeType": "application/json", "buffer": data}
    page.set_input_files("#ys-machines input[type=file]", [chosen])  # type: ignore[list-item]


def open_machines(page: Page, address: str) -> None:
    """Open the page of the kept machines."""
    page.goto(f"{address}machines/")
    page.wait_for_selector("#ys-machines .ys-tools")


def save_tractor(page: Page, name: str) -> None:
    """Ask to keep the tractor that is filled in."""
    page.get_by_role("button", name="Save this tractor").click()
    page.get_by_label("Name for this tractor").fill(name)
    page.get_by_label("Name for this tractor").press("Enter")


def said_of_saving(page: Page) -> str:
    """What stands under the tractor once saving it has come to an end."""
    return page.locator(".ys-pick[data-role=tractor]").inner_text()


def names(page: Page) -> list[str]:
    """The names that the page of the kept machines lists."""
    return page.locator(".ys-machines strong").all_text_contents()


@pytest.mark.parametrize(("held", "saved"), [(MOST - 1, True), (MOST, False)])
def test_the_device_keeps_2000_machines_and_the_next_is_not_said_to_be_saved(
    page: Page, address: str, held: int, saved: bool
) -> None:
    open_machines(page, address)
    bring(page, tractors(held))
    expect(page.locator(".ys-machines li")).to_have_count(held)
    page.goto(f"{address}pairing/")
    save_tractor(page, "One more")
    place = page.locator(".ys-pick[data-role=tractor]")
    if saved:
        expect(place).to_contain_text("is saved on this device")
    else:
        expect(place).to_contain_text("It could not be saved. This device keeps 2,000 machines")
        expect(place).not_to_contain_text("is saved")
        assert page.get_by_label("Name for this tractor").input_value() == "One more"
    open_machines(page, address)
    expect(page.locator(".ys-machines li")).to_have_count(min(held + 1, MOST))
    assert ("One more" in names(page)) is saved
    expect(page.locator("#ys-machines .ys-summary")).to_have_count(0)


@pytest.mark.parametrize(("length", "saved"), [(LONGEST_TEXT, True), (LONGEST_TEXT + 1, False)])
def test_a_text_that_the_list_cannot_hold_is_not_said_to_be_saved(
    page: Page, address: str, length: int, saved: bool
) -> None:
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    field(page, "pto_power").fill("9" * (length - len(" hp")) + " hp")
    save_tractor(page, "Long")
    place = page.locator(".ys-pick[data-role=tractor]")
    expected = "is saved on this device" if saved else "its field “pto_power” can't be read"
    expect(place).to_contain_text(expected)
    open_machines(page, address)
    expect(page.locator("#ys-machines h3").first).to_be_visible()
    assert names(page) == (["Long"] if saved else [])


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        (FULL, "no room left for it on this device"),
        (DENIED, "lets the page keep nothing"),
    ],
)
def test_storage_that_refuses_is_said_and_the_name_stays(
    page: Page, address: str, fault: str, words: str
) -> None:
    page.add_init_script(fault)
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    save_tractor(page, "Mine")
    place = page.locator(".ys-pick[data-role=tractor]")
    expect(place).to_contain_text(f"It could not be saved. {'There is' if 'room' in words else ''}")
    expect(place).to_contain_text(words)
    expect(place).not_to_contain_text("is saved")
    assert "[object" not in said_of_saving(page)
    assert page.get_by_label("Name for this tractor").input_value() == "Mine"


def test_storage_that_does_not_answer_is_said(page: Page, address: str) -> None:
    page.add_init_script(SILENT)
    page.clock.install()
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    save_tractor(page, "Mine")
    place = page.locator(".ys-pick[data-role=tractor]")
    page.clock.run_for(6_000)
    expect(place).to_contain_text("It could not be saved. The browser's storage does not answer")
    expect(place).not_to_contain_text("is saved")
    open_machines(page, address)
    page.clock.run_for(6_000)
    expect(page.locator("#ys-machines")).to_contain_text("The browser's storage does not answer")


def test_what_another_tab_locks_is_not_done_later_after_all(
    context: BrowserContext, page: Page, address: str
) -> None:
    """What was said not to be saved is not saved when the lock ends."""
    other = context.new_page()
    open_machines(other, address)
    page.clock.install()
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    other.evaluate(
        """() => new Promise((locked) => {
            const asked = indexedDB.open('yardstick');
            asked.onsuccess = () => {
                const store = asked.result.transaction('machines', 'readwrite')
                    .objectStore('machines');
                const hold = () => { if (!window.free) store.get('x').onsuccess = hold; };
                hold();
                store.transaction.oncomplete = () => { window.done = true; };
                locked();
            };
        })"""
    )
    save_tractor(page, "Mine")
    place = page.locator(".ys-pick[data-role=tractor]")
    page.clock.run_for(6_000)
    expect(place).to_contain_text("It could not be saved. The browser's storage does not answer")
    other.evaluate("window.free = true")
    until(other, "() => window.done")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(place).to_contain_text("“Mine” is saved on this device")
    open_machines(page, address)
    expect(page.locator(".ys-machines strong")).to_have_text(["Mine"])


def test_a_name_that_is_being_typed_survives_what_another_tab_does(
    context: BrowserContext, page: Page, address: str
) -> None:
    open_machines(page, address)
    bring(page, tractors(3))
    page.get_by_role("button", name="Rename T1").click()
    name = page.get_by_role("textbox", name="New name")
    name.fill("Old faithful")
    name.press("Home")
    page.keyboard.type("The ")
    other = context.new_page()
    open_machines(other, address)
    other.get_by_role("button", name="Delete T0").click()
    expect(page.locator(".ys-machines strong")).to_have_text(["T2"])
    assert name.input_value() == "The Old faithful"
    # The reader types on where they were.
    page.bring_to_front()
    page.keyboard.type("very ")
    name.press("Enter")
    expect(page.locator(".ys-machines strong")).to_have_text(["T2", "The very Old faithful"])
    expect(other.locator(".ys-machines strong")).to_have_text(["T2", "The very Old faithful"])


def test_a_new_name_for_a_machine_that_is_gone_is_not_lost_silently(
    context: BrowserContext, page: Page, address: str
) -> None:
    open_machines(page, address)
    bring(page, tractors(2))
    page.get_by_role("button", name="Rename T1").click()
    page.get_by_role("textbox", name="New name").fill("Old faithful")
    other = context.new_page()
    open_machines(other, address)
    other.get_by_role("button", name="Delete T1").click()
    said = page.locator("#ys-machines > .ys-notice")
    expect(said).to_have_text(
        "The machine that was to be called “Old faithful” was deleted in another tab."
    )
    expect(page.locator(".ys-machines strong")).to_have_text(["T0"])


NAMES = ["constructor", "__proto__", "toString", "hasOwnProperty"]


@pytest.mark.parametrize("name", NAMES)
def test_a_name_that_every_object_knows_is_only_a_name(page: Page, address: str, name: str) -> None:
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    save_tractor(page, name)
    place = page.locator(".ys-pick[data-role=tractor]")
    expect(place).to_contain_text(f"“{name}” is saved on this device")
    open_machines(page, address)
    bring(page, tractors(1, constructor=name, tractor_kind=name))
    expect(page.locator(".ys-machines li")).to_have_count(2)
    shown = page.locator("#ys-machines").inner_text()
    assert f"constructor: {name}" in shown
    assert "undefined" not in shown and "native code" not in shown
    page.get_by_role("button", name=f"Rename {name}").click()
    page.get_by_role("textbox", name="New name").fill("valueOf")
    page.get_by_role("textbox", name="New name").press("Enter")
    expect(page.locator(".ys-machines strong")).to_have_text(["T0", "valueOf"])


def test_a_list_that_holds_anything_can_be_saved_to_a_file(
    page: Page, address: str, tmp_path: Path
) -> None:
    open_machines(page, address)
    store_directly(
        page,
        """const wreck = {format: 'yardstick-machines', version: 1n, n: 12345678901234567890n,
            when: new Date(NaN), map: new Map([['a', new Set([1, 2])]]), far: Infinity,
            bytes: new Uint8Array([1, 2]), role: {toString: 1, valueOf: 1}, machines: [
            {id: 'x', role: {toString: 1, valueOf: 1}, name: {toString: 1}}]};
        wreck.self = wreck;
        store.put(wreck, 'machines');""",
    )
    page.reload()
    box = page.locator("#ys-machines .ys-summary")
    expect(box).to_contain_text("Nothing of it was deleted")
    with page.expect_download() as coming:
        box.get_by_role("button", name="Save it to a file").click()
    path = tmp_path / "aside.json"
    coming.value.save_as(path)
    written = json.loads(path.read_text(encoding="utf-8"))
    assert written["n"] == "12345678901234567890n"
    assert written["map"] == [["a", [1, 2]]]
    assert written["self"] == "the whole of this again"


def test_lists_set_aside_in_the_same_moment_are_all_there(page: Page, address: str) -> None:
    """A clock that stands, or is put back, gives two of them the same time."""
    page.clock.set_fixed_time("1999-01-01T00:00:00Z")
    open_machines(page, address)
    for wreck in ("'one'", "'two'"):
        store_directly(page, f"store.put({wreck}, 'machines')")
        page.reload()
        page.wait_for_selector("#ys-machines .ys-summary")
    expect(page.locator("#ys-machines .ys-summary")).to_have_count(2)
    expect(page.locator("#ys-machines .ys-summary").first).to_contain_text("1999")
