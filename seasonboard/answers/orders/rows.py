"""The rows behind the figures of orders: every order with the instants of its stages."""

from polars import selectors

from seasonboard.answers.fields import Field, Kind, Privacy, Table
from seasonboard.answers.orders.order_groups import OrderGroup
from seasonboard.answers.orders.order_times import MAKING
from seasonboard.answers.reader import Reader, params_of
from seasonboard.answers.report import table_columns
from seasonboard.answers.row_fields import frame_rows, usual
from seasonboard.answers.rows import Rows, page_rows
from seasonboard.paging import FIRST, PageAsked, PageFound
from seasonboard.scope import Scope
from seasonboard.terms import Stage

_STAGES = tuple(
    Field(f"{stage}_at", f"when it was {stage}", Kind.INSTANT, heading=str(stage))
    for stage in MAKING
    if stage is not Stage.RETIRED
)

RECORDED_ORDERS = Table.described(
    "recorded_orders",
    "an order with the first stamp of each stage",
    *(*usual("guard", "athlete", "name", "team", "kind", "side", "purpose"),),
    Field("state", "open, fitted, cancelled or retired", heading="state"),
    *(*usual("stage"), *_STAGES),
    Field("scan_method", "scanner or phone", heading="scan by"),
    Field("printer", "printer it was made on", heading="printer"),
    Field(
        "rule",
        "whether it may be worn in games, as its department looked it up",
        heading="in games",
    ),
    Field("remake_of", "guard that it replaces", heading="in place of", privacy=Privacy.KEY),
    rows=frame_rows,
)


def order_rows(reader: Reader, scope: Scope, page: PageAsked = FIRST) -> Rows:
    """Return every order of the scope with its stages; instants are those of UTC."""
    rows = reader.read_page("orders/orders", page, **params_of("orders/orders", scope))
    return _orders("Orders", rows, page)


def group_rows(reader: Reader, scope: Scope, group: OrderGroup, page: PageAsked = FIRST) -> Rows:
    """Return the orders of one group with their stages, as `order_rows`."""
    params = params_of("orders/of_group", scope, by=group.by.value, member=group.key)
    rows = reader.read_page("orders/of_group", page, **params)
    return _orders(f"Orders: {group.name}", rows, page)


def _orders(title: str, rows: PageFound, page: PageAsked) -> Rows:
    instants = rows.rows.with_columns(selectors.datetime().dt.to_string("%Y-%m-%d %H:%M"))
    cells = PageFound(instants, rows.matching, rows.total)
    return page_rows(title, table_columns(RECORDED_ORDERS), cells, page)
