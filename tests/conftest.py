"""What all tests share: generated inputs without a clock, and tests that need a program of the machine."""

import os

import pytest
from hypothesis import settings

from tests.system_parts import MARK, PARTS, advice, missing

# A slow machine is no fault of the code; on a build machine the same inputs every time.
settings.register_profile("here", deadline=None)
settings.register_profile("build", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("build" if os.environ.get("CI") else "here")

pytest_plugins = ["tests.postgres"]
WANT = "needs on PATH: "


def pytest_collection_modifyitems(items):
    for item in items:
        unknown = [name for mark in item.iter_markers(MARK) for name in mark.args if name not in PARTS]
        if unknown:
            raise pytest.UsageError(f"{item.nodeid}: add {', '.join(unknown)} to PARTS in tests/system_parts.py")


def pytest_runtest_setup(item):
    lacking = missing([name for mark in item.iter_markers(MARK) for name in mark.args])
    if not lacking:
        return
    if os.environ.get("REQUIRE_SYSTEM") == "1":
        pytest.fail(f"REQUIRE_SYSTEM=1 and this test {WANT}{', '.join(lacking)}", pytrace=False)
    pytest.skip(WANT + ", ".join(lacking))


def pytest_terminal_summary(terminalreporter):
    reasons = [str(report.longrepr[2]) for report in terminalreporter.stats.get("skipped", [])]
    lists = [reason.partition(WANT)[2] for reason in reasons if WANT in reason]
    names = {name for words in lists for name in words.split(", ")}
    if names:
        terminalreporter.write_line(advice(sorted(names)))
