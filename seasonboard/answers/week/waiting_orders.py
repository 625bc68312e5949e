"""Orders as the week and the departments look at them: fewer columns than Orders, same figures."""

import polars as pl

from seasonboard.answers.orders.open_orders import OpenOrder, open_orders
from seasonboard.scope import Scope


def waiting_orders(
    orders: pl.DataFrame, comparable: pl.DataFrame, scope: Scope
) -> tuple[OpenOrder, ...]:
    """Return the open orders, the most pressing first; how often a site was bare is not counted.

    Args:
        orders: Rows of `week/orders`.
        comparable: Rows of `orders/comparable`.
        scope: The scope of both.
    """
    uncounted = pl.lit(None, dtype=pl.Int64)
    return open_orders(orders.with_columns(exposures=uncounted, bare=uncounted), comparable, scope)
