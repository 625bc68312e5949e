"""What an answer needs of a store: a way to read it."""

from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from typing import Protocol

import polars as pl


class Reader(Protocol):
    """Something that answers the questions in queries/; the store does, and tests' stand-ins."""

    def read(self, name: str, /, **params: object) -> pl.DataFrame:
        """Return the rows of one question."""
        ...


def read_together(
    reader: Reader, *asked: tuple[str, Mapping[str, object]]
) -> tuple[pl.DataFrame, ...]:
    """Put several questions at the same time, as (name, parameters); return their rows in order.

    For one department most of a question's time is its planning, which uses a single core.
    """
    with ThreadPoolExecutor(max_workers=len(asked)) as pool:
        waiting = [pool.submit(reader.read, name, **params) for name, params in asked]
        return tuple(rows.result() for rows in waiting)
