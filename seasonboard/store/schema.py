"""The tables of a store: making them, and bringing those of an earlier version up to date."""

from pathlib import Path

import duckdb

from seasonboard.errors import StoreError
from seasonboard.store.catalogue import migrations
from seasonboard.store.open_errors import not_a_store
from seasonboard.terms import KINDS

MARK = "seasonboard store"


def newest_version() -> int:
    """Return the schema version that this program writes."""
    return migrations()[-1][0]


def make(connection: duckdb.DuckDBPyConnection) -> None:
    """Make every table in the attached file `store`, in one transaction.

    Raises:
        duckdb.Error: DuckDB refused; nothing was made.
    """
    connection.execute("BEGIN")
    for _, sql in migrations():
        connection.execute(sql)
    connection.execute(
        "INSERT INTO store.kinds SELECT unnest($1), unnest($2), unnest($3), 0",
        [list(column) for column in zip(*KINDS, strict=True)],
    )
    connection.execute(
        "INSERT INTO store.about VALUES ('mark', $1), ('schema_version', $2)",
        [MARK, str(newest_version())],
    )
    connection.execute("COMMIT")


def version_of(connection: duckdb.DuckDBPyConnection, path: Path, name: str = "store") -> int:
    """Return the schema version of an attached file, newer ones than this program's included.

    Raises:
        StoreError: It is no store of seasonboard.
        duckdb.Error: It cannot be read.
    """
    try:
        rows = connection.execute(f"SELECT name, value FROM {name}.about").fetchall()  # noqa: S608 - a name of ours
    except (duckdb.CatalogException, duckdb.BinderException):
        rows = []
    about = dict(rows)
    if about.get("mark") != MARK or not str(about.get("schema_version")).isdecimal():
        raise not_a_store(path)
    return int(about["schema_version"])


def known_version_of(connection: duckdb.DuckDBPyConnection, path: Path, name: str = "store") -> int:
    """Return the schema version of an attached file.

    Raises:
        StoreError: It is no store of seasonboard, or one of a newer version.
        duckdb.Error: It cannot be read.
    """
    version = version_of(connection, path, name)
    if version > newest_version():
        raise StoreError(
            f"{path} was written by a newer seasonboard "
            f"(schema {version}; this one knows {newest_version()}).",
            "Update seasonboard; the store was left as it is.",
        )
    return version


def refuse_older(path: Path, version: int) -> None:
    """Refuse a store that would have to be changed to be read.

    Raises:
        StoreError: It is of an earlier version.
    """
    if version < newest_version():
        raise StoreError(
            f"{path} was written by an older seasonboard "
            f"(schema {version}; this one needs {newest_version()}).",
            f"“seasonboard verify --store {path}” makes a backup and brings it up to date.",
        )


def bring_up_to_date(connection: duckdb.DuckDBPyConnection, version: int) -> None:
    """Take the steps that the attached file `store` lacks, in one transaction.

    Raises:
        duckdb.Error: A step failed; the file is as it was.
    """
    connection.execute("BEGIN")
    for step, sql in migrations():
        if step > version:
            connection.execute(sql)
    connection.execute(
        "UPDATE store.about SET value = $1 WHERE name = 'schema_version'", [str(newest_version())]
    )
    connection.execute("COMMIT")
