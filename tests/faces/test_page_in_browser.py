"""The plan page in a real browser: nothing wider than the screen, nothing asked of the network, nothing wrong."""

import html
import re
import shutil
import subprocess

import pytest

from tests.chromium import QUIET
from tests.paper.pages import paged
from tests.paper.test_culture_page import paged as bench_sheet
from tests.plan.plans import DEMO, FILES

FLAGS = ("--headless", *QUIET, "--virtual-time-budget=5000")
# A page in a frame of that width tells how wide its content is, what small type it has, and what it loaded.
FRAME = """<!doctype html><title>frame</title>
<iframe id=f width={width} height=900 srcdoc="{page}"></iframe><pre id=told></pre>
<script>onload = () => {{
const held = document.getElementById('f'), page = held.contentDocument, root = page.documentElement
const shown = names => [...page.querySelectorAll(names)].filter(e => e.textContent.trim() && e.offsetParent)
const small = shown('p,td,th,li,summary,span').filter(e => parseFloat(getComputedStyle(e).fontSize) < 13)
const low = shown('main summary').filter(e => !e.closest('.bill') && e.getBoundingClientRect().height < 47)
const loaded = held.contentWindow.performance.getEntriesByType('resource').filter(e => !e.name.startsWith('data:'))
document.getElementById('told').textContent = JSON.stringify({{wide: root.scrollWidth, width: root.clientWidth,
small: small.length, low: low.length, loaded: loaded.length}})
}}</script>"""


def told(page, width, folder):
    file = folder / "frame.html"
    file.write_text(FRAME.format(width=width, page=html.escape(page, quote=True)), "utf-8")
    command = [shutil.which("chromium"), *FLAGS, f"--user-data-dir={folder / 'data'}", "--dump-dom", file.as_uri()]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True)
    found = re.search(r'<pre id="told">(.*?)</pre>', done.stdout)
    assert found, done.stderr[-2000:]
    return dict(re.findall(r'"(\w+)":(\d+)', html.unescape(found[1])))


@pytest.mark.needs_system("chromium")
@pytest.mark.parametrize("width", [320, 390, 1280])
@pytest.mark.parametrize("name", FILES)
def test_a_page_fits_its_screen(name, width, tmp_path):
    seen = told(paged(name), width, tmp_path)
    assert int(seen["wide"]) <= int(seen["width"]) + 1
    assert seen["small"] == "0"
    assert seen["loaded"] == "0"


@pytest.mark.needs_system("chromium")
def test_what_is_pressed_is_large_enough_for_a_wet_thumb(tmp_path):
    assert told(paged(DEMO), 390, tmp_path)["low"] == "0"


@pytest.mark.needs_system("chromium")
def test_the_browser_would_tell_of_a_fault(tmp_path):
    low = "<details><summary style='min-height:0'>low</summary></details>"
    bad = f"<main><p style='font-size:9px;width:3000px'>too small, too wide</p>{low}</main>"
    seen = told(bad, 390, tmp_path)
    assert int(seen["wide"]) > 390
    assert (seen["small"], seen["low"]) == ("1", "1")


@pytest.mark.needs_system("chromium")
@pytest.mark.parametrize("width", [320, 1280])
def test_a_bench_sheet_fits_its_screen(width, tmp_path):
    seen = told(bench_sheet("making"), width, tmp_path)
    assert int(seen["wide"]) <= int(seen["width"]) + 1
    assert (seen["small"], seen["low"], seen["loaded"]) == ("0", "0", "0")
