"""What an answer needs of a store: ways to read it."""

from collections.abc import Mapping, Sequence
from typing import Protocol

import polars as pl

from seasonboard.paging import PageAsked, PageFound
from seasonboard.scope import Scope


class Reader(Protocol):
    """Something that answers the questions in queries/; the store does, and tests' stand-ins.

    What reads raises `StoreError` where the store could not be read.
    """

    def read(self, name: str, /, **params: object) -> pl.DataFrame:
        """Return the rows of one question."""
        ...

    def read_each(
        self, asked: Sequence[tuple[str, Mapping[str, object]]]
    ) -> tuple[pl.DataFrame, ...]:
        """Return the rows of several questions, given as (name, parameters), in their order."""
        ...

    def count_each(self, asked: Sequence[tuple[str, Mapping[str, object]]]) -> tuple[int, ...]:
        """Return how many rows each of several questions has, given as (name, parameters)."""
        ...

    def read_page(self, name: str, page: PageAsked, /, **params: object) -> PageFound:
        """Return one page of a question's rows, sorted and searched where they are stored."""
        ...


def params_of(question: str, scope: Scope, **more: object) -> dict[str, object]:
    """Return what a question takes of the scope, and of `more`, as its header says."""
    from seasonboard.store.catalogue import catalogue

    values = scope.params() | more
    return {name: values[name] for name in catalogue()[question].params}


def asked_of(scope: Scope, *questions: str, **more: object) -> list[tuple[str, dict[str, object]]]:
    """Return questions with what each takes, as `read_each` wants them."""
    return [(question, params_of(question, scope, **more)) for question in questions]


class StoppableReader(Reader, Protocol):
    """A reader whose running questions can be stopped, and whose questions can be read."""

    def text(self, name: str) -> str:
        """Return the text of one question, with its header."""
        ...

    def interrupt(self) -> None:
        """Stop every question that is running."""
        ...


def read_frames(
    reader: Reader, scope: Scope, *questions: str, **more: object
) -> dict[str, pl.DataFrame]:
    """Return the rows of several questions by their names; they begin in this order."""
    frames = reader.read_each(asked_of(scope, *questions, **more))
    return dict(zip(questions, frames, strict=True))
