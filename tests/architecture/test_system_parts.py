"""Tests that need a program of the machine are found, and their want is told in one line."""

from tests.system_parts import PARTS, advice, asked, missing, packages, wanted

MARKED = '@pytest.mark.needs_system("chromium", "mosquitto")\ndef test_page(): ...\n'
TABLE = {"chromium": "chromium", "initdb": "postgresql"}


def test_what_a_file_asks_for_is_read_from_its_marks():
    assert asked(MARKED) == ["chromium", "mosquitto"]
    assert asked("def test_plain(): ...") == []


def test_all_tests_of_a_tree_are_read(tmp_path):
    (tmp_path / "faces").mkdir()
    (tmp_path / "faces" / "test_page.py").write_text(MARKED)
    assert wanted(tmp_path) == ["chromium", "mosquitto"]


def test_a_program_that_is_not_on_the_path_is_missing(tmp_path, monkeypatch):
    program = tmp_path / "initdb"
    program.write_text("#!/bin/sh\n")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    assert missing(["initdb", "chromium"]) == ["chromium"]


def test_the_closing_line_names_the_packages_and_the_command():
    line = advice(["initdb", "chromium"], TABLE)
    assert line == "Skipped for want of chromium, initdb. To run them: apt-get install chromium postgresql"


def test_each_part_has_a_package():
    assert packages(list(PARTS)) == sorted(set(PARTS.values()))
