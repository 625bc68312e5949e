"""More printers, more prints, shorter waits before: by hand, against a closed form, and by laws."""

from dataclasses import replace

import numpy as np
import pytest

from seasonboard.stats.print_changes import PastOrders, Printers, print_change

WEEK = 168.0


def past(asked, *, weeks=1, week=0, before=0.0, finish=0.0, after=0.0, game=np.inf):
    asked = np.asarray(asked, dtype=float)
    number = np.broadcast_to(np.asarray(week), asked.shape)
    full = [np.broadcast_to(np.asarray(one, dtype=float), asked.shape)
            for one in (before, finish, after, game)]  # fmt: skip
    return PastOrders(weeks, number.astype(np.int64), asked, *full)


def test_a_second_printer_by_hand():
    """Two a week at 0, 24 hours each, due by 30: one in two waits a day and misses its game."""
    change = print_change(
        past([0, 0], finish=24.0, game=30.0), Printers(1, 24.0), Printers(2, 24.0), seasons=60
    )
    assert (change.missed_now.mean, change.missed_change.mean) == (0.5, -0.5)
    assert (change.days_now.mean, change.days_change.mean) == (1.5, -0.5)


def test_a_shorter_way_to_the_print_by_hand():
    """Three days to the scan and one after the print, due in 100 hours; at once it is in time."""
    orders = past([0], before=72.0, finish=6.0, after=24.0, game=100.0)
    free = Printers(1, 6.0)
    change = print_change(orders, free, free, before=np.zeros(1), seasons=50)
    assert (change.missed_now.mean, change.missed_change.mean) == (1, -1)
    assert change.days_change.mean == -3


def test_waits_are_those_of_the_closed_form_at_random_arrivals():
    """M/D/1 at ρ = 0.6, mean wait ρ/(2 (1 − ρ)) = 0.75 services (Pollaczek-Khinchine, from memory).

    Orders of many weeks at uniform times are a Poisson stream; the mean of medians is not a mean,
    so what is compared is the share that waits at all, which is ρ (arrivals see time averages).
    """
    random = np.random.default_rng(5)
    weeks, rate = 400, 40
    number = random.poisson(rate, weeks)
    asked = random.random(number.sum()) * WEEK
    hold = 0.6 * WEEK / rate
    orders = past(asked, weeks=weeks, week=np.repeat(np.arange(weeks), number), game=0.0)
    change = print_change(orders, Printers(1, hold), Printers(50, hold), seasons=400)
    assert change.missed_now.mean == pytest.approx(0.6, abs=0.02)
    assert change.missed_change.mean == pytest.approx(-0.6, abs=0.02)


def test_the_same_seed_gives_the_same_and_no_change_changes_nothing():
    random = np.random.default_rng(2)
    orders = past(random.random(90) * WEEK, weeks=9, week=np.arange(90) % 9, game=80.0, after=20.0)
    now = Printers(1, 18.0)
    first, again = (print_change(orders, now, now, seasons=50, seed=3) for _ in range(2))
    assert first == again
    assert (first.missed_change.low_95, first.missed_change.high_95) == (0, 0)
    more = print_change(orders, now, Printers(2, 18.0), seasons=50)
    assert more.missed_change.high_95 <= 0
    none = print_change(replace(orders, game=np.full(90, np.inf)), now, now, seasons=50)
    assert none.missed_now is None


@pytest.mark.parametrize(
    ("orders", "printers"), [(past([]), Printers(1, 1.0)), (past([1.0]), Printers(0, 1.0))]
)
def test_nothing_to_simulate_is_refused(orders, printers):
    with pytest.raises(ValueError, match="orders, and printers"):
        print_change(orders, printers, printers)
