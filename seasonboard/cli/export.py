"""`seasonboard export`: write every table of a store, to be read elsewhere or loaded again."""

from pathlib import Path

import click

from seasonboard.cli.services import Tools
from seasonboard.cli.store_options import own_store, store_option

FORMATS = ("csv", "xlsx", "parquet")


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@store_option
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
    tools: Tools = ctx.obj["tools"]
    target = own_store(ctx, store)
    written = tools.export(target, folder, how, force=force)
    wide = max((len(one.table) for one in written), default=5)
    click.echo(f"{'table':<{wide}} {'rows':>9}  file")
    for one in written:
        click.echo(f"{one.table:<{wide}} {one.rows:>9,}  {one.file.name}")
    click.echo(f"Written to {folder}.")
