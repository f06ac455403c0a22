"""Lines for tests: a few at once, and a writer as a process of its own."""

import subprocess
import sys

from sourloam.store import log

WRITER = """
import sys
from sourloam.store import log
address, name, count = sys.argv[1], sys.argv[2], int(sys.argv[3])
for at in range(count):
    id_ = f"{name}{at}"
    log.append(address, "yard", [id_], lambda lines: [(id_, f"{id_} after {len(lines)}")])
    print(id_, flush=True)
"""


def writer(address, name, count):
    command = [sys.executable, "-c", WRITER, address, name, str(count)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


def put(address, *texts, site="yard"):
    return [log.append(address, site, [each], lambda _, it=each: [(it, it)]) for each in texts]
