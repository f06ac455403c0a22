"""Set up .venv from the locks, with nothing but a plain Python, pip and venv.

Usage: python3 tools/setup.py {run|test|lock}

run   what the command needs
test  the same, what the tests need, and the programs of the machine that tests in this tree ask for
lock  write requirements/*.txt anew with a pinned uv (for maintainers)
"""

from __future__ import annotations  # so that an older Python gets as far as the sentence that says so

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / "python"
TOOLS = ROOT / ".tools"
UV = "0.13.9"
LEAST = (3, 11)


def run(*command: str | Path, env: dict[str, str] | None = None) -> None:
    """Run `command` in the project's folder; stop with its exit code where it fails."""
    done = subprocess.run([str(part) for part in command], cwd=ROOT, env=env, check=False)
    if done.returncode:
        sys.exit(f"setup: this failed with exit code {done.returncode}: {' '.join(map(str, command))}")


def check_python() -> None:
    """Stop with what to install where this Python is too old or cannot make an environment."""
    version = f"{sys.version_info[0]}.{sys.version_info[1]}"
    if sys.version_info < LEAST:
        sys.exit(f"setup: Python {version} is too old; 3.11 or later is wanted. Try: make PYTHON=python3.12 ...")
    try:
        import ensurepip  # noqa: F401
        import venv  # noqa: F401
    except ImportError:
        sys.exit(
            f"setup: this Python {version} comes without venv. On Debian and Ubuntu: apt-get install python3-venv "
            f"(or python{version}-venv); elsewhere take a full Python."
        )


def works() -> bool:
    """Whether .venv holds a Python of the version that is running."""
    if not PYTHON.exists():
        return False
    ask = [str(PYTHON), "-c", "import sys; print(sys.version_info[:2] == " + repr(sys.version_info[:2]) + ")"]
    return subprocess.run(ask, capture_output=True, text=True, check=False).stdout.strip() == "True"


def stamp_of(kind: str) -> str:
    """A stamp that changes with the lock, the description of the package, this script, and where it all lies."""
    parts = [ROOT / "requirements" / f"{kind}.txt", ROOT / "pyproject.toml", Path(__file__)]
    words = b"".join(part.read_bytes() for part in parts) + str(ROOT).encode() + repr(sys.version_info[:3]).encode()
    return hashlib.sha256(words).hexdigest()


def set_up(kind: str) -> None:
    """Bring .venv to what the lock says; do nothing where it is so already."""
    stamp = VENV / f"stamp-{kind}"
    wanted = stamp_of(kind)
    if not (stamp.exists() and stamp.read_text() == wanted and PYTHON.exists()):
        check_python()
        if not works():
            print("setup: making .venv", flush=True)
            run(sys.executable, "-m", "venv", "--clear", VENV)
        print(f"setup: installing requirements/{kind}.txt", flush=True)
        pip = [PYTHON, "-m", "pip", "--disable-pip-version-check", "install", "-qq", "--no-deps"]
        run(*pip, "--require-hashes", "-r", f"requirements/{kind}.txt")
        run(*pip, "--no-build-isolation", "-e", ".")
        run(PYTHON, "-m", "compileall", "-q", VENV / "lib")
        stamp.write_text(wanted)
    # Compiled even where the environment forbids Python to write bytecode: commands start several times faster.
    run(PYTHON, "-m", "compileall", "-q", "src")


def set_up_machine() -> None:
    """Install the Debian packages of the programs that tests ask for, as root on Debian; else leave it to the tests."""
    sys.path.insert(0, str(ROOT))
    from tests.system_parts import missing, packages, wanted

    names = missing(wanted(ROOT / "tests"))
    apt = shutil.which("apt-get")
    if names and apt and hasattr(os, "geteuid") and os.geteuid() == 0:
        print("setup: installing " + " ".join(packages(names)), flush=True)
        env = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        run(apt, "-qq", "update", env=env)
        run(apt, "-qq", "-y", "install", "--no-install-recommends", *packages(names), env=env)


def lock() -> None:
    """Write the locks, without any address and whatever this machine's own settings say."""
    home = TOOLS / f"uv-{UV}"
    if not home.exists():
        run(sys.executable, "-m", "venv", home)
        run(home / BIN.name / "python", "-m", "pip", "--disable-pip-version-check", "install", "-qq", f"uv=={UV}")
    kept = ("PATH", "HOME", "SYSTEMROOT", "SSL_CERT_FILE")
    clean = {name: os.environ[name] for name in kept if name in os.environ}
    compile_ = [home / BIN.name / "uv", "pip", "compile", "pyproject.toml", "--no-config", "--system-certs", "--quiet"]
    compile_ += ["--universal", "--python-version", "3.11", "--upgrade", "--generate-hashes", "--no-header"]
    compile_ += ["--no-emit-index-url", "--no-emit-find-links", "--group", "build"]
    run(*compile_, "--output-file", "requirements/run.txt", env=clean)
    test = ["--group", "test", "--constraints", "requirements/run.txt"]
    run(*compile_, *test, "--output-file", "requirements/test.txt", env=clean)


def main() -> None:
    what = sys.argv[1:]
    if what == ["run"]:
        set_up("run")
    elif what == ["test"]:
        set_up("test")
        set_up_machine()
    elif what == ["lock"]:
        lock()
    else:
        sys.exit(__doc__)


if __name__ == "__main__":
    main()
