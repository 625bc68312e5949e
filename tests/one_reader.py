"""Foreign files of many tests are read by one process, as those of one load are."""

from collections.abc import Iterator
from contextlib import nullcontext

import pytest

from seasonboard.store.gate.reader_process import FileReader


@pytest.fixture(scope="package", autouse=True)
def one_reader() -> Iterator[None]:
    """Keep the process of the first foreign file for all later ones."""
    with FileReader() as kept, pytest.MonkeyPatch.context() as patch:
        for place in ("intake.sources", "bundles.unpacking"):
            patch.setattr(f"seasonboard.store.{place}.FileReader", lambda: nullcontext(kept))
        yield
