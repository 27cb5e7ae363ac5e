"""A reader of lists over the real catalogue."""

from __future__ import annotations

import pytest

from service.intake.planting_list import ListReader
from service.knowledge.catalogue import read_catalogue
from service.settings import CHECKOUT


@pytest.fixture(scope="session")
def reader() -> ListReader:
    """A reader of lists."""
    return ListReader(read_catalogue(CHECKOUT / "rules"))
