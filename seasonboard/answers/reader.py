"""What an answer needs of a store: a way to read it."""

from typing import Protocol

import polars as pl


class Reader(Protocol):
    """Something that answers the questions in queries/; the store does, and tests' stand-ins."""

    def read(self, name: str, /, **params: object) -> pl.DataFrame:
        """Return the rows of one question."""
        ...
