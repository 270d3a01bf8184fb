from pathlib import Path

import pytest

from creasewright.reading.page_layout import PageLayout
from creasewright.reading.read_layout import read_layout


@pytest.fixture(scope="session")
def pack_layout() -> PageLayout:
    return read_layout(Path(__file__).parents[2] / "layouts" / "pack.yaml")
