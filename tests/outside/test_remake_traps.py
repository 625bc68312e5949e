"""Small tables on which tallies of remakes are known to go wrong: the right figure.

Every input is invented; the links lead to where that kind of trouble is described. `ordered` is
the stage requested, `delivered` the stage fitted.
"""

from datetime import UTC, date, datetime, time

import pytest

from seasonboard.answers.remakes.answer import remakes
from seasonboard.answers.remakes.options import RemakesOptions
from seasonboard.answers.scope_values import read_known
from seasonboard.scope import read_scope
from tests.queries import build
from tests.queries.build import order, stamp


def at(text):
    return datetime.combine(date.fromisoformat(text), time(9), tzinfo=UTC)


def season(*orders):
    """Return a season of orders: key, athlete, ordered, delivered, the one it replaces, why."""
    made = [
        order(
            key, who, {"requested": at(asked)} | ({"fitted": at(done)} if done else {}),
            remake_of=older, remake_reason=reason,
        )
        for key, who, asked, done, older, reason in orders
    ]  # fmt: skip
    plain = build.Season(roster=[build.member(who) for who in sorted({o[1] for o in orders})])
    plain.guards = [guard for guard, _ in made]
    plain.stages = [row for _, rows in made for row in rows]
    return plain


@pytest.fixture
def ask(tmp_path):
    def ask(orders, through="2026-12-31", also=(), **options):
        plain = season(*orders)
        plain.stages.extend(also)
        with plain.load(tmp_path / str(len(list(tmp_path.iterdir())))) as store:
            known = read_known(store)
            scope = read_scope({"through": through}, known)
            return remakes(store, scope, known, RemakesOptions(**options))

    return ask


CHAINED = (
    ("O1", "a", "2026-08-03", "2026-08-10", None, None),
    ("O2", "a", "2026-08-17", "2026-08-24", "O1", "fit"),
    ("O3", "a", "2026-08-31", "2026-09-04", "O2", "fit"),
    ("O4", "b", "2026-08-05", "2026-08-14", None, None),
    ("O5", "c", "2026-08-06", "2026-08-13", None, None),
    ("O6", "c", "2026-08-20", "2026-08-26", "O5", "fit"),
    ("O7", "d", "2026-08-07", "2026-08-18", None, None),
)


def test_a_remake_of_a_remake_belongs_to_the_first_guard(ask):
    """Not 3 of 7: two of four first guards came back, one of them twice.

    Kind of trouble: https://github.com/linagora/openrag/issues/369 (chains walked without care).
    Limits: Clopper-Pearson, scipy.
    """
    found = ask(CHAINED)
    chains = found.chains
    assert (chains.firsts, chains.remade_or_replaced.successes) == (4, 2)
    assert chains.remade_or_replaced_exact.low == pytest.approx(0.06758599, abs=1e-7)
    assert chains.remade_or_replaced_exact.high == pytest.approx(0.932414, abs=1e-6)
    assert (chains.units, chains.units / chains.firsts, chains.longest) == (3, 0.75, 3)
    assert chains.days_to_stay == 15.5  # 32, 9, 20 and 11 days
    assert (found.whole.fitted, found.whole.remakes) == (7, 3)  # the other figure, labelled


WINDOWED = (
    ("O1", "a", "2026-01-12", "2026-01-20", None, None),
    ("O2", "a", "2026-02-02", "2026-02-09", "O1", "fit"),
    ("O3", "b", "2026-01-12", "2026-01-19", None, None),
    ("O4", "b", "2026-08-17", "2026-08-25", "O3", "body change"),
    ("O5", "c", "2026-01-15", "2026-01-22", None, None),
    ("O6", "c", "2026-04-22", "2026-04-29", "O5", "damage"),
    ("O7", "d", "2026-01-15", "2026-01-22", None, None),
    ("O8", "d", "2026-04-23", "2026-04-30", "O7", "damage"),
    ("O9", "e", "2026-01-16", "2026-01-23", None, None),
)


def test_the_window_decides_and_its_last_day_counts(ask):
    """Days to the next order: 13, 210, 90 and 91. Within 90 days: 2 of 5 first guards, not 4.

    Kind of trouble: guides to warranty data in statistics packages.
    """
    found = ask(WINDOWED, through="2027-06-30", window=90)
    within = found.chains.remade_or_replaced_within
    assert (within.successes, within.trials, within.value) == (2, 5, 0.4)
    assert found.chains.remade_or_replaced.successes == 4  # at any time
    assert (found.whole.remakes, found.whole.replacements) == (3, 1)
    for window, anew in ((91, 3), (89, 1)):
        chains = ask(WINDOWED, through="2027-06-30", window=window).chains
        assert chains.remade_or_replaced_within.successes == anew


def test_a_remake_called_off_is_none(ask):
    """One guard's remake is cancelled: the guard did not come back, and that is told."""
    orders = [*CHAINED[:1], ("O2", "a", "2026-08-17", None, "O1", "fit")]
    assert ask(orders).whole.remakes == 1
    found = ask(orders, also=[stamp("O2", "cancelled", at("2026-08-20"))])
    assert found.whole.remakes == 0
    assert [(left.why, left.count) for left in found.summary.left_out] == [
        ("it was cancelled before it was fitted", 1)
    ]


def test_nothing_fitted_and_nothing_back_have_words(ask):
    assert (
        "no guard of the scope is recorded as fitted"
        in ask([("O1", "a", "2026-08-03", None, None, None)]).summary.answer
    )
    found = ask(CHAINED[:1])
    assert found.summary.answer.startswith("None of 1 fitted guard was remade")
    assert (found.whole.within.value, found.months, found.reasons) == (0.0, found.months, ())


def test_recent_guards_count_for_the_days_they_are_known(ask):
    """Ten guards fitted at once; two come back on day 10, five are known for 5 days only.

    By hand: of the five known on day 10 two came back, so 40 %, not 2 of 10.
    """
    old = [(f"A{n}", f"a{n}", "2026-08-01", "2026-09-01", None, None) for n in range(5)]
    new = [(f"B{n}", f"b{n}", "2026-08-01", "2026-09-26", None, None) for n in range(5)]
    anew = [(f"C{n}", f"a{n}", "2026-09-11", None, f"A{n}", "fit") for n in range(2)]
    found = ask([*old, *new, *anew], through="2026-10-01")
    assert found.whole.share.value == 0.2
    assert found.whole.within.value == pytest.approx(0.4)
