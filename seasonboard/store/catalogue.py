"""The questions put to the store: one SQL file each, described by its own header.

A question may say `-- works on: scope`: then those tables and macros of `queries/working/scope`
that it reads are made first, from the same parameters, and shared by all questions put together.
"""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from seasonboard.errors import StoreError
from seasonboard.store.question_header import SqlQuestion, header_lists, read_header, written_out
from seasonboard.store.shipped_files import shipped
from seasonboard.store.table_sql import loads_question, read_question
from seasonboard.stored_tables import TABLES

_NO_QUESTIONS = ("schema", "parts", "working", "load")
"""Folders of queries whose files are no questions."""


@cache
def catalogue() -> Mapping[str, SqlQuestion]:
    """Return every question by its name, for instance `compare/strata`.

    Beside the files stand those that follow from the description of the stored tables, such as
    `store/guards`.

    Raises:
        StoreError: A file has no complete header.
    """
    root = shipped("queries")
    files = [path for path in root.glob("*/*.sql") if path.parent.name not in _NO_QUESTIONS]
    questions = [_read(path, f"{path.parent.name}/{path.stem}") for path in sorted(files)]
    questions += [
        make(table) for table in TABLES.values() for make in (read_question, loads_question)
    ]
    return {question.name: question for question in questions}


@cache
def shared_parts() -> tuple[str, ...]:
    """Return the SQL of `queries/parts`, in file order: macros that several questions share."""
    return tuple(_texts("parts").values())


@cache
def working_tables(name: str) -> str:
    """Return the SQL that makes the working tables `name`, in file order."""
    return "\n".join(_texts(f"working/{name}").values())


@cache
def migrations() -> tuple[tuple[int, str], ...]:
    """Return the schema steps as (version, SQL), oldest first."""
    return tuple((int(name[:4]), text) for name, text in _texts("schema").items())


@cache
def lists_of_headers() -> Mapping[str, tuple[str, ...]]:
    """Return the lists of parameters and columns that headers name, as lines of a header."""
    return header_lists((shipped("queries") / "header_lists.sql").read_text("utf-8"))


def _texts(folder: str) -> dict[str, str]:
    """Return the SQL files of one folder of queries by name, in file order."""
    files = sorted((shipped("queries") / folder).glob("*.sql"))
    return {path.stem: path.read_text("utf-8") for path in files}


def _read(path: Path, name: str) -> SqlQuestion:
    try:
        text = written_out(path.read_text("utf-8"), lists_of_headers())
        header = read_header(text)
    except StoreError as error:
        raise StoreError(f"{path} has no complete header.", str(error)) from error
    body = "\n".join(line for line in text.splitlines() if not line.startswith("--"))
    return SqlQuestion(
        name=name,
        asks=header.fields["question"],
        grain=header.fields["grain"],
        params=header.params,
        columns=header.columns,
        sql=text,
        works_on=header.fields.get("works on", ""),
        named=frozenset(re.findall(r"\$([a-z_]+)", body)),
        header=header.fields,
    )
