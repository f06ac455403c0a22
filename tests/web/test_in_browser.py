"""The pages in a real browser, at phone and desktop width: what a keeper does there, what a machine can see of it."""

import re
import signal
from datetime import date
from pathlib import Path

import pytest

from tests.web.browsing import browser, demo_book, free_port, served

PHONE, TABLE = {"width": 390, "height": 844}, {"width": 1280, "height": 900}
PAGES = ("/", "/shelf", "/shelf/blue-2", "/shelf/green-2/layer", "/shelf/blue-2/reading", "/wrong",
         "/wrong?trouble=smells&smell=rotten&days=9&growth=&wet=", "/cultures", "/ground", "/year", "/more", "/ask",
         "/ask/bed?product=10+kg", "/materials", "/materials?q=small-bones", "/site", "/site/bed/long-bed",
         "/shelf/blue-2/place", "/history")  # fmt: skip
AXE = (Path(__file__).parent / "vendor" / "axe.min.js").read_text("utf-8")
RUN_AXE = """async () => {
const found = await axe.run(document, {resultTypes: ['violations']})
return found.violations.map(v => v.id + ': ' + v.nodes.map(n => n.target.join(' ')).slice(0, 5).join(', '))}"""

pytestmark = pytest.mark.needs_system("chromium")


@pytest.fixture(scope="module")
def chrome():
    with browser() as opened:
        yield opened


@pytest.fixture(scope="module")
def address(tmp_path_factory):
    book, on = demo_book(tmp_path_factory.mktemp("read"))
    with served(book, on) as where:
        yield where


@pytest.fixture
def own(tmp_path):
    """A served book to write into."""
    book, on = demo_book(tmp_path)
    with served(book, on) as where:
        yield where


class Tab:
    """A page of the browser that tells what went wrong in it."""

    def __init__(self, chrome, size=PHONE, **options):
        self.context = chrome.new_context(viewport=size, **options)
        self.page = self.context.new_page()
        self.wrong = []
        self.asked = []
        self.page.on("console", lambda told: self.wrong.append(told.text) if told.type == "error" else None)
        self.page.on("pageerror", lambda error: self.wrong.append(str(error)))
        self.page.on("request", lambda request: self.asked.append(request.url))

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.context.close()

    def open(self, address):
        self.page.goto(address)
        self.page.wait_for_load_state("networkidle")
        return self.page

    @property
    def heading(self):
        return self.page.locator("h1").inner_text()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, TABLE], ids=["phone", "table"])
def test_every_page_bears_being_looked_at_by_a_machine(chrome, address, size, scheme):
    """No fault of accessibility by axe-core, none in the console, nothing too wide, nothing from outside."""
    for path in PAGES:
        with Tab(chrome, size, color_scheme=scheme, bypass_csp=True) as tab:
            page = tab.open(address + path)
            page.add_script_tag(content=AXE)
            assert page.evaluate(RUN_AXE) == [], path
            assert page.evaluate("document.documentElement.scrollWidth") <= size["width"], path
            assert tab.wrong == [], path
            assert [each for each in tab.asked if not each.startswith((address, "data:"))] == [], path


def test_no_page_breaks_its_own_policy(chrome, address):
    for path in PAGES:
        with Tab(chrome) as tab:
            tab.open(address + path)
            assert tab.wrong == [], path


def test_text_at_twice_its_size_on_a_narrow_screen_needs_no_sideways_scrolling(chrome, address):
    for path in PAGES:
        with Tab(chrome, {"width": 320, "height": 700}) as tab:
            page = tab.open(address + path)
            page.evaluate("document.documentElement.style.setProperty('font-size', '200%')")
            assert page.evaluate("document.documentElement.scrollWidth") <= 322, path


def test_what_is_pressed_is_large_enough_for_a_wet_thumb(chrome, address):
    small = """() => [...document.querySelectorAll('main button, main .solid, main .line, .foot a, .trouble, .choice')]
    .filter(e => e.offsetParent && e.getBoundingClientRect().height < 47 && !e.closest('.lines'))
    .map(e => e.textContent)"""
    for path in PAGES:
        with Tab(chrome) as tab:
            assert tab.open(address + path).evaluate(small) == [], path


def test_a_layer_takes_three_taps(chrome, own):
    with Tab(chrome) as tab:
        page = tab.open(own + "/")
        page.get_by_role("link", name="Add a layer to Green 2").click()
        page.get_by_label("3.8 kg").check()
        page.locator("#dose .big").wait_for()
        page.get_by_role("button", name="Press down, shut the lid, keep it").click()
        page.get_by_text("One more layer").wait_for()
        assert tab.heading.startswith("Kept: Green 2: ")
        assert tab.wrong == []


def test_the_bran_follows_the_choice_at_once(chrome, own):
    with Tab(chrome) as tab:
        page = tab.open(own + "/shelf/green-2/layer")
        page.locator("#dose .big").wait_for()
        before = page.locator("#dose .big").inner_text()
        page.get_by_label("3.8 kg").check()
        page.wait_for_function("before => document.querySelector('#dose .big').textContent !== before", arg=before)
        assert int(page.locator("#dose .big").inner_text().split()[0]) == pytest.approx(
            2 * int(before.split()[0]), abs=2
        )


def test_a_batch_is_placed_and_the_bed_rests(chrome, own):
    with Tab(chrome) as tab:
        page = tab.open(own + "/shelf/blue-2/place")
        page.get_by_label("the wall bed").check()
        page.get_by_label("How much of it").fill("5 kg")
        page.get_by_role("button", name="It is placed").click()
        page.get_by_text("Go on").wait_for()
        page = tab.open(own + "/ground")
        wall = page.locator("section.place", has_text="The wall bed")
        assert re.search(r"resting: \d+ days left", wall.inner_text())


def test_a_task_is_done_from_the_list(chrome, own):
    with Tab(chrome) as tab:
        page = tab.open(own + "/")
        jobs = page.locator(".job")
        before = jobs.count()
        jobs.first.get_by_role("button", name="Done").click()
        page.wait_for_function("n => document.querySelectorAll('.job').length < n", arg=before)
        assert jobs.count() == before - 1


def test_the_crisis_is_answered_in_five_questions_without_a_site(chrome, tmp_path):
    with served(str(tmp_path / "none.sourloam")) as address, Tab(chrome) as tab:
        page = tab.open(address + "/wrong")
        for _ in range(5):
            if page.get_by_text("You said").count():
                break
            choice = page.locator(".choice input").first
            choice.check() if choice.count() else page.locator("#f-answer").fill("9")
            page.get_by_role("button", name="Next").click()
            page.wait_for_load_state("networkidle", timeout=120_000)
        assert page.get_by_text("You said").count() == 1
        assert page.locator("ol.do li").count() >= 1


def test_entries_wait_while_the_program_is_away_and_go_in_once(chrome, tmp_path):
    book, on = demo_book(tmp_path)
    port = free_port()
    with Tab(chrome) as tab:
        with served(book, on, port) as address:
            page = tab.open(address + "/shelf/green-2/layer")
            page.locator("#dose .big").wait_for()
        page.get_by_role("button", name="Press down, shut the lid, keep it").click()
        page.get_by_text("One entry waits on this device").wait_for()
        with served(book, on, port):
            page.evaluate("window.dispatchEvent(new Event('online'))")
            page.get_by_text("The entry that waited is kept").wait_for(timeout=30_000)
            page = tab.open(address + "/shelf/green-2")
            assert page.locator(".lines li").count() == 2
            page.evaluate("window.dispatchEvent(new Event('online'))")
            page.wait_for_timeout(500)
            assert tab.open(address + "/shelf/green-2").locator(".lines li").count() == 2


def test_two_tabs_at_once_keep_both_layers(chrome, own):
    with Tab(chrome) as one, Tab(chrome) as two:
        for tab in (one, two):
            tab.open(own + "/shelf/green-2/layer").locator("#dose .big").wait_for()
        for tab in (one, two):
            tab.page.get_by_role("button", name="Press down, shut the lid, keep it").click()
            tab.page.get_by_text("One more layer").wait_for()
        assert one.open(own + "/shelf/green-2").locator(".lines li").count() == 3


def test_without_script_it_is_read_and_written(chrome, own):
    with Tab(chrome, java_script_enabled=False) as tab:
        page = tab.open(own + "/")
        page.get_by_role("link", name="Add a layer to Green 2").click()
        page.get_by_role("button", name="Press down, shut the lid, keep it").click()
        assert tab.heading.startswith("Kept: Green 2: ")
        page.get_by_role("button", name="Take it back").click()
        page.get_by_text("(taken back)").wait_for()


def test_the_keyboard_reaches_everything(chrome, own):
    """From the address bar on: the skip link first, then every link and button in the order of the page."""
    with Tab(chrome) as tab:
        page = tab.open(own + "/shelf/green-2/layer")
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.className") == "skip"
        page.keyboard.press("Enter")
        seen = []
        for _ in range(30):
            page.keyboard.press("Tab")
            seen.append(
                page.evaluate("(document.activeElement.name || document.activeElement.textContent || '').trim()")
            )
            if seen[-1].startswith("Press down"):
                break
        assert {"kind", "amount", "other"} <= set(seen)
        page.keyboard.press("Enter")
        page.get_by_text("One more layer").wait_for()
        assert page.evaluate("document.activeElement.id") == "page", "what was kept is read out next"


def test_a_page_prints_without_bars_and_buttons(chrome, address):
    for path in ("/year", "/ask/bed?product=10+kg", "/history"):
        with Tab(chrome, TABLE) as tab:
            page = tab.open(address + path)
            page.emulate_media(media="print")
            assert page.locator(".top:visible, .foot:visible, main button:visible").count() == 0, path
            assert page.locator("h1:visible").count() == 1


def test_it_can_be_installed(chrome, address):
    with Tab(chrome) as tab:
        page = tab.open(address + "/")
        page.wait_for_function("navigator.serviceWorker.ready.then(() => true)")
        told = page.evaluate("fetch('/static/manifest.webmanifest').then(r => r.json())")
        assert told["display"] == "standalone"
        assert told["icons"]


def test_long_and_right_to_left_names_do_not_widen_a_page(chrome, tmp_path):
    book, on = demo_book(tmp_path)
    with served(book, on) as address, Tab(chrome) as tab:
        page = tab.open(address + "/site/file")
        text = page.locator("#f-text").input_value()
        named = text.replace('name = "Blue 1"', 'name = "דלי כחול ' + "very-long-" * 6 + '"', 1)
        assert named != text
        page.locator("#f-text").fill(named)
        page.get_by_role("button", name="Keep this site").click()
        page.wait_for_url("**/year")
        for path in ("/", "/shelf", "/shelf/blue-1", "/year", "/history"):
            assert tab.open(address + path).evaluate("document.documentElement.scrollWidth") <= 390, path


def test_it_ends_when_it_is_told_to(tmp_path):
    import subprocess

    from tests.web.browsing import PROGRAM, wait_for

    port = free_port()
    command = [
        PROGRAM,
        "serve",
        "--port",
        str(port),
        "--book",
        str(tmp_path / "b.sourloam"),
        "--today",
        str(date(2027, 4, 1)),
    ]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True)
    wait_for(port, process)
    process.send_signal(signal.SIGINT)
    _, said = process.communicate(timeout=20)
    assert f"http://localhost:{port}" in said
    assert "Traceback" not in said
