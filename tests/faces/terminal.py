"""The command as a process, with somebody at its terminal or with nobody."""

import os
import pty
import signal
import subprocess
import sys
import threading
from contextlib import suppress
from dataclasses import dataclass

COMMAND = (sys.executable, "-m", "sourloam")
END = "\x04"  # nobody waits for ever for an answer that does not come


@dataclass(frozen=True)
class Said:
    """What a process left: its exit code, its output, and what stood on the terminal beside it."""

    code: int
    out: str
    err: str

    @property
    def told(self):
        """Return the error stream with its folded lines made whole."""
        return " ".join(self.err.split())


def alone(*arguments, cwd):
    """Run the command with nobody at a terminal."""
    command = [*COMMAND, *map(str, arguments)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=cwd, stdin=subprocess.DEVNULL)
    return Said(done.returncode, done.stdout, done.stderr)


def at_a_terminal(*arguments, answers, cwd, stop=False):
    """Run the command with somebody who types the answers, a line each, and then perhaps stops it."""
    own, theirs = pty.openpty()
    command = [*COMMAND, *map(str, arguments)]
    process = subprocess.Popen(command, stdin=theirs, stdout=subprocess.PIPE, stderr=theirs, cwd=cwd)
    os.close(theirs)
    seen = bytearray()
    asked = threading.Event()
    reader = threading.Thread(target=_gather, args=(own, seen, asked, len(answers)))
    reader.start()
    os.write(own, ("".join(f"{each}\n" for each in answers) + ("" if stop else END)).encode())
    if stop:
        asked.wait()
        _interrupt(process)
    out, _ = process.communicate()
    reader.join()
    os.close(own)
    return Said(process.returncode, out.decode(), seen.decode().replace("\r\n", "\n"))


def _interrupt(process):
    """Press Ctrl-C until it is heard: one that falls just before the wait for a line begins is not."""
    while process.poll() is None:
        process.send_signal(signal.SIGINT)
        with suppress(subprocess.TimeoutExpired):
            process.wait(timeout=2.0)


def _gather(terminal, seen, asked, count):
    """Read what is written on the terminal until it is closed; say when one question more than `count` was asked."""
    while True:
        try:
            part = os.read(terminal, 65536)
        except OSError:  # closed at the other end
            part = b""
        seen.extend(part)
        if not part or seen.count(b"  >") > count:
            asked.set()
        if not part:
            return
