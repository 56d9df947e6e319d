"""Tests keep to themselves: what the program caches goes into a folder of the test run, never to the user's own."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest

from tests.shared_files import FOLDER


@pytest.fixture(scope="session", autouse=True)
def _cache_of_its_own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        own = tmp_path_factory.getbasetemp()
        shared = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "shared"
        shared.mkdir(exist_ok=True)
        patch.setenv(FOLDER, str(shared))
        yield
