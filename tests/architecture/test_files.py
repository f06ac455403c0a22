"""What no file of the repository may hold, and what the locks must."""

import re
import tomllib

import pytest

from tests.architecture.tree import ROOT, committed, told

# Written in two parts, so that this file does not trip over itself.
REGISTRIES = [
    ("py", r"pi\.(org|python)"),
    ("files.python", "hosted"),
    ("registry.npm", "js"),
    ("registry.yarn", "pkg"),
    ("deb.deb", "ian"),
]
PLACES = [
    (r"(?<![\w.])/wo", r"rk/"),
    (r"(?<![\w.])/tm", r"p/"),
    (r"(?<![\w.])/ro", r"ot/"),
    (r"\bshared/(refer", r"ence|cases|look|hooks)\b"),
]
WORDS = [
    ("cla", "ude"),
    ("anthro", "pic"),
    ("open", r"ai\b"),
    ("chat", "gpt"),
    ("copi", "lot"),
    ("language mo", "del"),
    (r"\bl", r"lms?\b"),
    (r"\b(this|my|another|an earlier|the last|the previous) ses", r"sion\b"),
]
LOCKS = ("run", "test")


def holding(patterns):
    wanted = re.compile("|".join("".join(parts) for parts in patterns), re.IGNORECASE)
    faults = []
    for path in committed():
        text = path.read_bytes().decode("utf-8", errors="replace")
        hits = [
            (number, hit[0]) for number, line in enumerate(text.splitlines(), 1) for hit in [wanted.search(line)] if hit
        ]
        faults += [f"{path.relative_to(ROOT)}:{number}: {hit}" for number, hit in hits]
    return faults


def pins(lock):
    """Return each pinned line of a lock, without its marker, with the number of its hashes."""
    text = (ROOT / "requirements" / f"{lock}.txt").read_text("utf-8")
    joined = [line for line in text.replace("\\\n", " ").splitlines() if line and not line.lstrip().startswith("#")]
    return {line.partition("--hash")[0].strip(): line.count("--hash=sha256:") for line in joined}


def test_no_file_names_the_address_of_a_registry():
    assert not (faults := holding(REGISTRIES)), told(faults, "Name packages, not where they are fetched from.")


def test_no_file_names_a_path_of_the_machine_it_was_written_on():
    assert not (faults := holding(PLACES)), told(faults, "Use a path inside the repository, or tmp_path in a test.")


def test_no_file_speaks_of_how_it_was_written():
    assert not (faults := holding(WORDS)), told(faults, "Say what the code does and why, not who or what wrote it.")


@pytest.mark.parametrize("lock", LOCKS)
def test_a_lock_holds_pins_with_hashes_and_nothing_else(lock):
    faults = [line for line, hashes in pins(lock).items() if not re.match(r"[\w.-]+==[\w.]+( ;|$)", line) or not hashes]
    assert not faults, told(faults, "Write the locks with make lock, not by hand.")


def test_the_lock_of_the_tests_holds_that_of_the_command():
    held = set(pins("test"))  # what one asks for on some Pythons the other may ask for on all
    lacking = [pin for pin in pins("run") if not {pin, pin.partition(" ;")[0]} & held]
    assert not lacking, told(lacking, "Write both locks anew: make lock.")


def test_every_dependency_is_locked():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    groups = project["dependency-groups"]
    wanted = {"run": project["project"]["dependencies"] + groups["build"], "test": groups["test"]}
    for lock, names in wanted.items():
        locked = {line.partition("==")[0] for line in pins(lock)}
        missing = {re.split(r"[><=!~ ;\[]", name)[0].replace("_", "-") for name in names} - locked
        assert not missing, f"requirements/{lock}.txt lacks {', '.join(sorted(missing))}: make lock."


@pytest.mark.parametrize("parts", [*REGISTRIES, *PLACES, *WORDS], ids="".join)
def test_every_pattern_is_one(parts):
    assert re.compile("".join(parts))
