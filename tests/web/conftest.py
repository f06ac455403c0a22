"""One book of the demo site for all tests of a worker that only read."""

import pytest

from tests.web.browsing import client_of, demo_book


@pytest.fixture(scope="session")
def demo(tmp_path_factory):
    return demo_book(tmp_path_factory.mktemp("demo"))


@pytest.fixture(scope="session")
def reader(demo):
    return client_of(*demo)


@pytest.fixture
def writer(tmp_path):
    """A book of one's own, to write into."""
    book, on = demo_book(tmp_path)
    return client_of(book, on)
