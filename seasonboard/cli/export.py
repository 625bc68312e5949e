"""`seasonboard export`: write every table of a store, to be read elsewhere or loaded again."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Protocol

import click

from seasonboard.cli.store_options import own_store

FORMATS = ("csv", "xlsx", "parquet")


class Exported(Protocol):
    """One table that was written."""

    @property
    def table(self) -> str:
        """Return its name."""
        ...

    @property
    def rows(self) -> int:
        """Return how many rows it has."""
        ...

    @property
    def file(self) -> Path:
        """Return the file it is in."""
        ...


class ExportTools(Protocol):
    """What this command needs of the rest of the program."""

    @property
    def export(self) -> Callable[[Path, Path, str, bool], Sequence[Exported]]:
        """Write a store's tables: store, folder, format, whether an earlier export is replaced."""
        ...


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option(
    "--store",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="The store; without it, the last one opened.",
)
@click.option(
    "--format",
    "how",
    type=click.Choice(FORMATS),
    default="csv",
    show_default=True,
    help="One file a table, or one workbook.",
)
@click.option("--force", is_flag=True, help="Replace an earlier export in FOLDER.")
@click.pass_context
def export(ctx: click.Context, folder: Path, store: Path | None, how: str, *, force: bool) -> None:
    """Write every table of a store into FOLDER; loaded again, it gives the same store.

    Text that a spreadsheet would take for a formula stands behind an apostrophe in CSV, and as
    text in workbooks; loading takes the apostrophe away again.
    """
    tools: ExportTools = ctx.obj["tools"]
    target = own_store(ctx, store)
    written = tools.export(target, folder, how, force)
    wide = max((len(one.table) for one in written), default=5)
    click.echo(f"{'table':<{wide}} {'rows':>9}  file")
    for one in written:
        click.echo(f"{one.table:<{wide}} {one.rows:>9,}  {one.file.name}")
    click.echo(f"Written to {folder}.")
