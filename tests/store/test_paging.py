"""Pages of a long table: sorted, searched and cut in the store, in an order that stands still."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.errors import StoreError
from seasonboard.paging import PageAsked
from seasonboard.store.store import memory_store
from tests.deep import tries

NAMES = ["Ångström", "zoë", "Bea", "[b]bold[/b]", "50% 'off'", "bea", "Zed", None, "Çelik", "O_o"]


@pytest.fixture(scope="module")
def store():
    with memory_store() as made:
        with made.writing() as cursor:
            for n, label in enumerate(NAMES):
                cursor.execute(
                    "INSERT INTO store.decisions VALUES ($1, $2, $3, 'text', NULL, NULL, 0)",
                    [f"D{n:02}", date(2026, 9, 1 + n % 3), label],
                )
        yield made


def page(store, **asked):
    return store.read_page("store/decisions", PageAsked(**({"limit": 100} | asked)))


def names(found):
    return found.rows["department"].to_list()


def test_without_a_wish_the_rows_come_in_the_question_s_own_order(store):
    found = page(store)
    assert found.rows.equals(store.read("store/decisions"))
    assert (found.matching, found.total) == (len(NAMES), len(NAMES))


@settings(max_examples=tries(15))
@given(
    limit=st.integers(1, 5),
    sort=st.sampled_from(["", "decision", "decided_on", "department"]),
    descending=st.booleans(),
)
def test_pages_put_together_are_the_whole_table_sorted(store, limit, sort, descending):
    asked = {"sort": sort, "descending": descending}
    whole = page(store, **asked).rows
    parts = [page(store, limit=limit, offset=at, **asked) for at in range(0, len(NAMES), limit)]
    assert [row for part in parts for row in part.rows.rows()] == whole.rows()
    assert {part.total for part in parts} == {len(NAMES)}
    if sort:
        told = [value for value in whole[sort].to_list() if value is not None]
        assert told == sorted(told, reverse=descending)
        assert whole[sort].null_count() == sum(
            v is None for v in whole[sort].to_list()[len(told) :]
        )


def test_equal_rows_keep_the_question_s_order_either_way(store):
    own = store.read("store/decisions")
    for descending in (False, True):
        for _, alike in page(store, sort="decided_on", descending=descending).rows.group_by(
            "decided_on"
        ):
            kept = [d for d in own["decision"].to_list() if d in alike["decision"].to_list()]
            assert alike["decision"].to_list() == kept


@pytest.mark.parametrize(
    ("search", "found"),
    [
        ("BEA", ["Bea", "bea"]), ("angstrom", ["Ångström"]), ("çelik", ["Çelik"]),
        ("50%", ["50% 'off'"]), ("'off' 50", ["50% 'off'"]), ("[b]", ["[b]bold[/b]"]),
        ("o_o", ["O_o"]), ("d03", ["[b]bold[/b]"]), ("nobody", []), ("bea d02", ["Bea"]),
    ],
)  # fmt: skip
def test_a_search_finds_every_word_in_any_capitals_and_accents_and_nothing_else(
    store, search, found
):
    result = page(store, search=search)
    assert names(result) == found
    assert (result.matching, result.total) == (len(found), len(NAMES))


def test_a_page_beyond_the_end_is_empty_and_still_counts(store):
    found = page(store, offset=50)
    assert (found.rows.height, found.matching, found.total) == (0, len(NAMES), len(NAMES))
    found = page(store, offset=50, search="bea")
    assert (found.rows.height, found.matching, found.total) == (0, 2, len(NAMES))


def test_a_column_that_is_not_there_is_refused(store):
    with pytest.raises(StoreError, match="no column shoe to sort by"):
        page(store, sort="shoe")
