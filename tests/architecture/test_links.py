"""Every link between the documents of the repository leads somewhere."""

import re

from tests.architecture.tree import ROOT, committed, told

LINK = re.compile(r"\]\(([^)#\s]+)(?:#[^)\s]*)?\)")


def test_links_between_documents_lead_somewhere():
    documents = [path for path in committed() if path.suffix == ".md"]
    links = [(path, target) for path in documents for target in LINK.findall(path.read_text("utf-8"))]
    local = [(path, target) for path, target in links if "://" not in target and not target.startswith("mailto:")]
    faults = [f"{path.relative_to(ROOT)}: {target}" for path, target in local if not (path.parent / target).exists()]
    assert documents, "No document was found; is this a git repository?"
    assert not faults, told(faults, "Correct the link, or write what it leads to.")
