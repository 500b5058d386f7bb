"""Picking machines, and keeping one's own: on one page, on others, in two tabs, in a file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, expect

from tests.browser.conftest import LIVE
from tests.browser.talk import field, finding, inputs, link, settle

LIGHT, HEAVY = "Compact, 25 hp, light frame", "Compact, 25 hp, heavier frame"
CUTTER = "60 in rotary cutter, light duty"


@pytest.fixture
def pairing(page: Page, address: str) -> Page:
    """The pairing page, its example's numbers given, on a device that keeps no machine yet."""
    page.goto(link(address))
    page.wait_for_selector(LIVE, state="attached")
    return page


def picker(page: Page, role: str) -> Locator:
    """The list to pick a tractor or an implement from."""
    return page.locator(f".ys-pick[data-role={role}] > select")


def picked(page: Page, role: str) -> str:
    """The machine that the form says it describes."""
    shown: str = picker(page, role).evaluate("(list) => list.selectedOptions[0].label")
    return shown


def save(page: Page, role: str, name: str) -> None:
    """Keep the machine that is filled in."""
    page.get_by_role("button", name=f"Save this {role}").click()
    page.get_by_label(f"Name for this {role}").fill(name)
    page.get_by_label(f"Name for this {role}").press("Enter")
    expect(page.locator(f".ys-pick[data-role={role}]")).to_contain_text("is saved on this device")


def kept(page: Page) -> list[str]:
    """The names on the page of the reader's machines."""
    return page.locator(".ys-machines strong").all_inner_texts()


def held(page: Page) -> dict[str, object]:
    """Everything that the device holds for the site."""
    found: dict[str, object] = page.evaluate(
        """() => new Promise((resolve, reject) => {
            const asked = indexedDB.open('yardstick');
            asked.onerror = () => reject(asked.error);
            asked.onsuccess = () => {
                const store = asked.result.transaction('machines').objectStore('machines');
                const [keys, values] = [store.getAllKeys(), store.getAll()];
                store.transaction.oncomplete = () => {
                    asked.result.close();
                    resolve(Object.fromEntries(keys.result.map((k, n) => [k, values.result[n]])));
                };
            };
        })"""
    )
    return found


def put(page: Page, value: object) -> None:
    """Write something else where the site keeps the machines."""
    page.evaluate(
        """(value) => new Promise((resolve, reject) => {
            const asked = indexedDB.open('yardstick');
            asked.onerror = () => reject(asked.error);
            asked.onsuccess = () => {
                const store = asked.result.transaction('machines', 'readwrite')
                    .objectStore('machines');
                store.put(value, 'machines');
                store.transaction.oncomplete = () => { asked.result.close(); resolve(); };
            };
        })""",
        value,
    )


def test_pick_both_read_the_finding_change_the_width(pairing: Page) -> None:
    """The first thing that a newcomer does."""
    picker(pairing, "tractor").select_option(label=HEAVY)
    settle(pairing)
    assert finding(pairing) != "over"
    picker(pairing, "tractor").select_option(label=LIGHT)
    picker(pairing, "implement").select_option(label=CUTTER)
    field(pairing, "loader").select_option("off")
    settle(pairing)
    expect(pairing.locator(".ys-finding-word")).to_have_text("Over a limit")
    field(pairing, "working_width").fill("48 in")
    settle(pairing)
    expect(pairing.locator(".ys-finding-word")).not_to_have_text("Over a limit")
    assert picked(pairing, "implement") == "48 in rotary cutter, light duty"
    field(pairing, "working_width").fill("50 in")
    expect(pairing.locator(".ys-pick[data-role=implement]")).to_contain_text(
        "Changed from “48 in rotary cutter, light duty”"
    )
    assert picked(pairing, "tractor") == LIGHT


def test_the_form_says_which_machines_its_example_is_about(pairing: Page) -> None:
    assert (picked(pairing, "tractor"), picked(pairing, "implement")) == (LIGHT, CUTTER)
    pairing.get_by_role("button", name="Clear all fields").click()
    assert picked(pairing, "tractor") == "Pick one"
    pairing.get_by_role("button", name="Show the example").click()
    assert picked(pairing, "tractor") == LIGHT


def test_picking_fills_its_role_blanks_what_it_lacks_and_keeps_the_job(pairing: Page) -> None:
    field(pairing, "material").select_option("heavy")
    field(pairing, "slope").evaluate("(control) => control.value = '12 %'")
    field(pairing, "rear_axle_limit").evaluate("(control) => control.value = '3,000 lb'")
    field(pairing, "implement_mass").fill("480 lb")
    picker(pairing, "tractor").select_option(label="Utility, 75 hp")
    now = inputs(pairing)
    assert now["tractor_mass"] == "6,000 lb" and now["hitch_category"] == "2"
    assert now["rear_axle_limit"] == ""
    assert (now["material"], now["slope"]) == ("heavy", "12 %")
    assert now["implement_mass"] == "480 lb" and now["working_width"] == "60 in"
    settle(pairing)
    assert "tractor_mass=6%2C000+lb" in pairing.url


def test_a_saved_machine_fills_another_page(pairing: Page, address: str) -> None:
    picker(pairing, "tractor").select_option(label=HEAVY)
    field(pairing, "tractor_mass").fill("2,710 lb")
    settle(pairing)
    save(pairing, "tractor", "Weighed on Saturday")
    assert picked(pairing, "tractor") == "Weighed on Saturday"
    pairing.goto(f"{address}lift/lift-and-ballast/")
    pairing.wait_for_selector(LIVE, state="attached")
    picker(pairing, "tractor").select_option(label="Weighed on Saturday")
    assert field(pairing, "tractor_mass").input_value() == "2,710 lb"
    assert field(pairing, "wheelbase").input_value() == "67 in"


def test_saving_again_replaces_this_pages_fields_and_keeps_the_others(
    pairing: Page, address: str
) -> None:
    picker(pairing, "tractor").select_option(label=HEAVY)
    save(pairing, "tractor", "Mine")
    pairing.goto(f"{address}fit/driveline/")
    pairing.wait_for_selector(LIVE, state="attached")
    picker(pairing, "tractor").select_option(label="Mine")
    pairing.locator(".ys-more").evaluate("(each) => { each.open = true; }")
    field(pairing, "pto_power").fill("20.5 hp")
    pairing.get_by_role("button", name="Save this tractor").click()
    name = pairing.get_by_label("Name for this tractor")
    assert name.input_value() == "Mine"
    pairing.get_by_role("button", name="Replace").click()
    expect(pairing.locator(".ys-pick[data-role=tractor]")).to_contain_text("is saved")
    [machine] = held(pairing)["machines"]["machines"]  # type: ignore[index]
    assert machine["inputs"]["pto_power"] == "20.5 hp"
    assert machine["inputs"]["tractor_mass"] == "2,600 lb"


def test_a_machine_needs_a_name_and_nothing_typed_is_lost(pairing: Page) -> None:
    field(pairing, "working_width").fill("54 in")
    pairing.get_by_role("button", name="Save this implement").click()
    pairing.get_by_role("button", name="Save", exact=True).click()
    expect(pairing.locator(".ys-pick-save").nth(1)).to_contain_text("Give this implement a name")
    pairing.get_by_role("button", name="Cancel").click()
    assert field(pairing, "working_width").input_value() == "54 in"


def test_two_tabs_lose_no_save(context: BrowserContext, pairing: Page, address: str) -> None:
    other = context.new_page()
    other.goto(f"{address}pairing/")
    other.wait_for_selector(LIVE, state="attached")
    tabs = {"A": pairing, "B": other}
    for number in range(3):
        for tab, page in tabs.items():
            page.get_by_role("button", name="Save this tractor").click()
            page.get_by_label("Name for this tractor").fill(f"{tab}{number}")
        for page in tabs.values():
            page.get_by_label("Name for this tractor").press("Enter")
        for page in tabs.values():
            expect(page.get_by_label("Name for this tractor")).to_be_hidden()
    mine = "optgroup[label='My machines'] option"
    for page in tabs.values():
        names = picker(page, "tractor").locator(mine)
        expect(names).to_have_text(["A0", "A1", "A2", "B0", "B1", "B2"])


def test_writes_that_race_from_two_tabs_are_all_kept(
    context: BrowserContext, page: Page, address: str
) -> None:
    """Two hundred machines brought in by two tabs in the same instant."""
    pages = [page, context.new_page()]
    for each in pages:
        each.goto(f"{address}machines/")
        each.wait_for_selector("#ys-machines .ys-tools")
    for tab, each in zip("AB", pages, strict=True):
        machines = [
            {"name": f"{tab}{n}", "role": "tractor", "inputs": {"pto_power": "20 hp"}}
            for n in range(20)
        ]
        each.evaluate(
            """(machines) => {
                const input = document.querySelector('#ys-machines input[type=file]');
                window.bring = async () => {
                    for (const machine of machines) {
                        const held = new DataTransfer();
                        const text = JSON.stringify(
                            {format: 'yardstick-machines', version: 1, machines: [machine]});
                        held.items.add(new File([text], 'one.json'));
                        input.files = held.files;
                        input.dispatchEvent(new Event('change'));
                    }
                };
            }""",
            machines,
        )
    for each in pages:
        each.evaluate("void window.bring()")
    for each in pages:
        expect(each.locator(".ys-machines li")).to_have_count(40)


def test_rename_delete_and_undo(pairing: Page, address: str) -> None:
    save(pairing, "tractor", "First")
    save(pairing, "implement", "Cutter")
    pairing.locator(".ys-pick").get_by_role("link", name="My machines").last.click()
    expect(pairing.locator(".ys-machines strong")).to_have_count(2)
    pairing.get_by_role("button", name="Rename First").click()
    pairing.get_by_role("textbox", name="New name").fill("Second")
    pairing.get_by_role("textbox", name="New name").press("Enter")
    expect(pairing.locator(".ys-machines strong").first).to_have_text("Second")
    pairing.get_by_role("button", name="Delete Second").click()
    expect(pairing.locator(".ys-machines strong")).to_have_text(["Cutter"])
    pairing.get_by_role("button", name="Undo").click()
    expect(pairing.locator(".ys-machines strong")).to_have_text(["Second", "Cutter"])
    pairing.get_by_role("link", name="Open in the pairing").first.click()
    pairing.wait_for_selector(LIVE, state="attached")
    assert picked(pairing, "tractor") == "Second"


def test_a_name_that_is_taken_is_refused(pairing: Page, address: str) -> None:
    save(pairing, "tractor", "One")
    save(pairing, "tractor", "Two")
    pairing.goto(f"{address}machines/")
    pairing.get_by_role("button", name="Rename One").click()
    pairing.get_by_role("textbox", name="New name").fill("two")
    pairing.get_by_role("button", name="Save the new name").click()
    expect(pairing.get_by_role("alert")).to_contain_text("Another tractor is called that")


def test_out_to_a_file_and_back_in(pairing: Page, address: str, tmp_path: Path) -> None:
    save(pairing, "tractor", "Kept")
    pairing.goto(f"{address}machines/")
    with pairing.expect_download() as coming:
        pairing.get_by_role("button", name="Export to a file").click()
    path = tmp_path / "machines.json"
    coming.value.save_as(path)
    written = json.loads(path.read_text(encoding="utf-8"))
    assert (written["format"], written["version"]) == ("yardstick-machines", 1)
    assert written["machines"][0]["inputs"]["pto_power"] == "20 hp"
    assert path.read_text(encoding="utf-8").startswith('{\n  "format"')

    def bring(content: str | bytes) -> Locator:
        data = content.encode() if isinstance(content, str) else content
        chosen = {"name": "in.json", "mimeType": "application/json", "buffer": data}
        pairing.set_input_files("#ys-machines input[type=file]", [chosen])
        return pairing.locator("#ys-machines > .ys-notice")

    expect(bring(path.read_text())).to_contain_text("1 were here already")
    assert kept(pairing) == ["Kept"]
    written["machines"][0]["inputs"]["pto_power"] = "22 hp"
    expect(bring(json.dumps(written))).to_contain_text("1 machines")
    expect(pairing.locator(".ys-machines strong")).to_have_text(["Kept", "Kept (2)"])
    written["version"] = 9
    expect(bring(json.dumps(written))).to_contain_text("newer version")
    expect(bring("not JSON")).to_contain_text("not readable")
    expect(bring('{"some": "file"}')).to_contain_text("not a list of machines")
    expect(bring(b"[" * 5_000_001)).to_contain_text("too large")
    part = {
        "format": "yardstick-machines",
        "version": 1,
        "machines": [
            {"name": "<img src=x onerror=alert(1)>", "role": "tractor", "inputs": {}},
            {"name": "No role", "role": "boat", "inputs": {}},
            {"name": "", "role": "tractor", "inputs": {}},
            {"name": "Odd", "role": "tractor", "inputs": {"pto_power": 5}},
        ],
    }
    said = bring(json.dumps(part))
    expect(said).to_contain_text("1 machines")
    expect(said).to_contain_text("neither a tractor nor an implement")
    expect(said).to_contain_text("has no name")
    expect(said).to_contain_text("its field “pto_power” can't be read")
    assert "<img src=x onerror=alert(1)>" in kept(pairing)
    assert pairing.locator(".ys-machines img").count() == 0


def test_a_newer_store_is_set_aside_and_said(page: Page, address: str) -> None:
    page.goto(f"{address}machines/")
    page.wait_for_selector("#ys-machines .ys-tools")
    newer = {"format": "yardstick-machines", "version": 2, "herd": ["kept by a later version"]}
    put(page, newer)
    page.reload()
    expect(page.locator("#ys-machines .ys-summary")).to_contain_text("newer version")
    store = held(page)
    aside = [value for key, value in store.items() if key.startswith("set-aside ")]
    assert aside == [newer]
    assert store["machines"] == {"format": "yardstick-machines", "version": 1, "machines": []}
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    save(page, "tractor", "Works all the same")
    assert newer in held(page).values()


def test_a_damaged_store_is_set_aside_and_what_can_be_read_stays(page: Page, address: str) -> None:
    page.goto(f"{address}machines/")
    page.wait_for_selector("#ys-machines .ys-tools")
    good = {"name": "Good", "role": "tractor", "inputs": {"pto_power": "20 hp"}, "id": "1"}
    damaged = {"format": "yardstick-machines", "version": 1, "machines": [good, {"name": 7}]}
    put(page, damaged)
    page.reload()
    expect(page.locator("#ys-machines .ys-summary")).to_contain_text("Machine 2 has no name")
    assert kept(page) == ["Good"]
    assert damaged in held(page).values()
    for wreck in ("just text", [1, 2, 3], 5):
        put(page, wreck)
        page.reload()
        page.wait_for_selector("#ys-machines .ys-summary")
        assert wreck in held(page).values()
    page.on("dialog", lambda dialog: dialog.accept())
    boxes = page.locator("#ys-machines .ys-summary")
    count = boxes.count()
    boxes.first.get_by_role("button", name="Delete the list").click()
    expect(boxes).to_have_count(count - 1)


def test_what_was_set_aside_is_put_back_once_it_can_be_read(page: Page, address: str) -> None:
    page.goto(f"{address}machines/")
    page.wait_for_selector("#ys-machines .ys-tools")
    machine = {"name": "Back", "role": "tractor", "inputs": {"pto_power": "20 hp"}}
    put(page, "wreck")
    page.reload()
    page.wait_for_selector("#ys-machines .ys-summary")
    page.evaluate(
        """(value) => new Promise((resolve) => {
            const asked = indexedDB.open('yardstick');
            asked.onsuccess = () => {
                const store = asked.result.transaction('machines', 'readwrite')
                    .objectStore('machines');
                const keys = store.getAllKeys();
                keys.onsuccess = () => store.put(value, keys.result.find((k) => k !== 'machines'));
                store.transaction.oncomplete = () => { asked.result.close(); resolve(); };
            };
        })""",
        {"format": "yardstick-machines", "version": 1, "machines": [machine]},
    )
    page.reload()
    page.get_by_role("button", name="Put it back").click()
    expect(page.locator(".ys-machines strong")).to_have_text(["Back"])
    expect(page.locator("#ys-machines .ys-summary")).to_have_count(0)


def test_without_storage_the_page_works_and_says_so(page: Page, address: str) -> None:
    page.add_init_script(
        "delete window.indexedDB; Object.defineProperty(window, 'indexedDB', "
        "{value: {open() { throw new Error('no storage here'); }}});"
    )
    page.goto(f"{address}pairing/")
    page.wait_for_selector(LIVE, state="attached")
    picker(page, "tractor").select_option(label=HEAVY)
    settle(page)
    page.get_by_role("button", name="Save this tractor").click()
    page.get_by_label("Name for this tractor").fill("Lost")
    page.get_by_label("Name for this tractor").press("Enter")
    expect(page.locator(".ys-pick-save").first).to_contain_text("could not be saved")
    page.goto(f"{address}machines/")
    expect(page.locator("#ys-machines")).to_contain_text("lets the page keep nothing")


def test_nothing_leaves_the_device(context: BrowserContext, pairing: Page, address: str) -> None:
    sent: list[str] = []
    context.on("request", lambda request: sent.append(f"{request.url} {request.post_data or ''}"))
    save(pairing, "tractor", "Secret of the yard")
    pairing.goto(f"{address}machines/")
    expect(pairing.locator(".ys-machines strong")).to_have_text(["Secret of the yard"])
    assert sent and not any("Secret" in each or "1%2C650" in each for each in sent)


def test_the_offline_copy_keeps_machines_too(page: Page, offline: Path) -> None:
    page.goto((offline / "pairing.html").as_uri())
    page.wait_for_selector(LIVE, state="attached")
    picker(page, "tractor").select_option(label=HEAVY)
    settle(page)
    save(page, "tractor", "In the yard")
    page.locator(".ys-pick").get_by_role("link", name="My machines").click()
    expect(page.locator(".ys-machines strong")).to_have_text(["In the yard"])
    assert page.url == (offline / "machines.html").as_uri()
