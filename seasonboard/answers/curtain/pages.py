"""Pages of covered rows: found, sorted and cut by what is shown of them."""

import polars as pl

from seasonboard.errors import StoreError
from seasonboard.paging import PageAsked, PageFound

_LINE = "line to search"


def cut(frame: pl.DataFrame, page: PageAsked) -> PageFound:
    """Return one page of rows, by the rules of the store: words in any capitals and accents.

    Raises:
        StoreError: There is no such column to sort by.
    """
    found = frame
    words = page.search.split()
    if words and len(frame):
        shown = [
            pl.col(name).list.join(" ")
            if kind == pl.List(pl.String)
            else pl.col(name).cast(pl.String)
            for name, kind in frame.schema.items()
        ]
        line = _folded(pl.concat_str(shown, separator=" ", ignore_nulls=True))
        wanted = pl.select(_folded(pl.lit(pl.Series(words)))).to_series().to_list()
        holds = (pl.col(_LINE).str.contains(word, literal=True) for word in wanted)
        found = frame.with_columns(line.alias(_LINE)).filter(*holds).drop(_LINE)
    if page.sort:
        if page.sort not in frame.columns:
            raise StoreError(f"These rows have no column {page.sort} to sort by.")
        found = found.sort(
            page.sort, descending=page.descending, nulls_last=True, maintain_order=True
        )
    return PageFound(found.slice(page.offset, page.limit), len(found), len(frame))


def _folded(text: pl.Expr) -> pl.Expr:
    return text.str.normalize("NFKD").str.replace_all(r"\p{M}", "").str.to_lowercase()
