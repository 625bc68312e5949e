"""One try: a random store, a random sequence of releases, and what a reader recovers."""

from dataclasses import dataclass

import numpy as np

from seasonboard.releases.block import Block, Release
from seasonboard.releases.making import renewed_or_quoted
from tests.attack.reader import Reader
from tests.attack.stores import Store


@dataclass(frozen=True)
class Try:
    """What went out, and what was recovered of it."""

    releases: int
    renewed: int
    shown: int
    hidden: int
    small: int
    recovered: tuple[str, ...]


def one_try(seed: int) -> Try:
    """Release two to five times from a store that grows, and read all of it."""
    random = np.random.default_rng(seed)
    store, releases = Store(random), []
    agreed = frozenset({"D0", "D1"} if random.random() < 0.3 else ())
    for week in range(int(random.integers(2, 6))):
        key = f"R{week + 1:02}"
        block = renewed_or_quoted(store.block(key, week, agreed), "shin", releases)
        releases.append(Release(key, block.made_on, block.through, (block,)))
        store.grow()
    blocks = [block for release in releases for block in release.blocks]
    reader = Reader(blocks)
    tables = [block.masked.table for block in reader.blocks]
    return Try(
        len(releases),
        len(reader.blocks),
        sum(len(_shown(block)) for block in reader.blocks),
        sum(len(block.masked.table.shown - _shown(block)) for block in reader.blocks),
        sum(0 < value < 11 for table in tables for value in table.cells.values()),
        tuple(reader.recovered()),
    )


def _shown(block: Block) -> set[str]:
    return {name for name in block.masked.table.shown if block.count(name) is not None}
