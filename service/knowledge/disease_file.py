"""rules/diseases.yaml: the diseases for which cultivars are rated."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from service.knowledge.entry import read_file

FILE = "diseases.yaml"


def read_diseases(folder: Path) -> Mapping[str, str]:
    """The English name of each disease by its id."""
    file = read_file(folder, FILE)
    file.known(("diseases",))
    table = file.inner("diseases")
    if table is None:
        file.fail("the key “diseases” is missing")
    return MappingProxyType({disease: table.text(disease) for disease in table.mapping})
