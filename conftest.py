"""How the tests are dealt out to the workers."""

import re

from xdist.scheduler import LoadScopeScheduling


class ByFileOrCase(LoadScopeScheduling):
    """A file goes to one worker, since its tests share what they compute; of the answered cases, one case."""

    def _split_scope(self, nodeid: str) -> str:
        path, _, test = nodeid.partition("::")
        case = re.search(r"\[(C\d{3})", test)
        return f"{path} {case[1]}" if case else path


def pytest_xdist_make_scheduler(config, log) -> ByFileOrCase:  # noqa: ANN001
    """Return what deals them out."""
    return ByFileOrCase(config, log)
