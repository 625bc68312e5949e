"""In which order a sheet writes day and month: one answer for all its columns of dates."""

from collections.abc import Iterator

import polars as pl

from seasonboard.load_options import ORDERS, LoadOptions
from seasonboard.store.intake.dates import months_by_order, order_of
from seasonboard.store.intake.draft_knowledge import DraftKnowledge
from seasonboard.store.intake.mapping_draft import MappingDraft, cells_of, examples
from seasonboard.store.intake.season_dates import months_of_season
from seasonboard.stored_column import CellType

_DATED = (CellType.DATE, CellType.INSTANT)


def settle_dates(draft: MappingDraft, options: LoadOptions, known: DraftKnowledge) -> None:
    """Take the order of day and month from a column that settles it, else from the season.

    Args:
        draft: The draft, which gets the order or a question.
        options: May say the order.
        known: The season, where there is only one.
    """
    if options.dates is not None:
        draft.dates = options.dates
        return
    orders, open_ = set(), []
    for name, heading in _dated(draft):
        cells = cells_of(draft.sheet.grid, heading)
        order, proof = order_of(cells, known.synonyms) or (None, "")
        if order in ORDERS:
            orders.add(order)
            draft.proof = draft.proof or f", as “{proof}” under “{heading}” shows"
        elif order is not None:
            open_.append((name, heading))
    if len(orders) == 1:
        (draft.dates,) = orders
    elif open_ and not orders and (order := _of_season(draft, [one for _, one in open_], known)):
        draft.dates, draft.proof = order, ", as the months of the season show"
    elif open_ or orders:
        (name, heading), *others = open_ or [("dates", "")]
        also = "".join(f", “{other}” too," for _, other in others)
        said = f"“{heading}”{also} can be read day/month or month/day "
        said += f"({examples(draft.sheet.grid, heading)}). Say which with --dates dmy or "
        said += "--dates mdy."
        draft.ask(name, said, None, ("dmy", "mdy"), wish="dates")


def _dated(draft: MappingDraft) -> Iterator[tuple[str, str]]:
    """Yield column and heading of all that holds dates: columns, days of sessions, stages."""
    for name, headings in draft.columns.items():
        is_dated = name in draft.table.names and draft.table.column(name).holds in _DATED
        if (is_dated or name == "session_on") and headings[0] in draft.sheet.grid.places:
            yield name, headings[0]
    for heading in draft.stages:
        yield "reached_at", heading


def _of_season(draft: MappingDraft, headings: list[str], known: DraftKnowledge) -> str | None:
    """Return the one order in which all days lie in the months of the season; None for neither."""
    season = draft.constants.get("season") or known.only.get("season", "")
    span = months_of_season(season)
    if span is None:
        return None
    cells = pl.concat([cells_of(draft.sheet.grid, heading) for heading in headings])
    months = months_by_order(cells, known.synonyms)
    fitting = [
        order for order in ("dmy", "mdy") if months[order].is_between(*span).fill_null(True).all()
    ]
    return fitting[0] if len(fitting) == 1 else None
