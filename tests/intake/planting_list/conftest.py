"""A reader of lists over the real catalogue."""

from __future__ import annotations

import pytest

from service.intake.planting_list import ListReader
from service.reasoning.rulebook import Rulebook


@pytest.fixture(scope="session")
def reader(rulebook: Rulebook) -> ListReader:
    """A reader of lists."""
    return ListReader(rulebook.catalogue)
