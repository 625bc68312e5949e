"""What a reader works out: nothing of what is released, and much where a rule is left out."""

from dataclasses import replace

import pytest

from seasonboard.disclosure.renewal import MaskedTable
from tests.attack.reader import Reader
from tests.attack.stores import Store
from tests.attack.tries import np, one_try

SEEDS = range(7, 12)


@pytest.mark.parametrize("seed", SEEDS)
def test_no_count_of_1_to_10_is_recovered(seed):
    assert one_try(seed).recovered == ()


def blocks(seed, times=2):
    store = Store(np.random.default_rng(seed))
    for week in range(times):
        yield store.block(f"R{week + 1}", week, frozenset())
        store.grow()


def with_small_hidden_alone(block):
    table = block.masked.table
    hidden = frozenset(name for name in table.shown if table.is_guarded(name))
    return replace(block, masked=MaskedTable(table, hidden))


def test_the_reader_finds_much_where_only_small_counts_are_hidden():
    naive = [with_small_hidden_alone(block) for seed in SEEDS for block in blocks(seed, 1)]
    assert sum(len(Reader([block]).recovered()) for block in naive) > 10


def test_the_reader_finds_changes_where_every_release_is_new():
    found = [name for seed in range(20, 32) for name in Reader(list(blocks(seed))).recovered()]
    assert sum(name.startswith("change of") for name in found) > 5
