"""Forecasts of batches, each made once."""

import pytest

from tests.views.forecasts import NAMES, followed


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("batches")


@pytest.fixture(params=NAMES)
def forecast(request, folder):
    return followed(request.param, folder)


@pytest.fixture
def forecast_named(folder):
    return lambda name: followed(name, folder)
