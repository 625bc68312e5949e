"""`seasonboard bundle` and `export`: write what is new, or every table, to be read elsewhere."""

from pathlib import Path

import click

from seasonboard.cli.services import Tools
from seasonboard.cli.store_options import own_store, store_option
from seasonboard.store_outcomes import BundleContent


@click.command()
@click.argument("out", type=click.Path(path_type=Path), metavar="OUT.bundle")
@store_option
@click.option(
    "--since",
    metavar="DATE|LOAD",
    help="Only what came after this load (4), or from this day on (2026-10-03, UTC).",
)
@click.pass_context
def bundle(ctx: click.Context, out: Path, store: Path | None, since: str | None) -> None:
    """Write what is new in a store as one file, for “seasonboard load” into another store.

    Without --since it carries everything, which is always right: what the other store has already
    changes nothing there. A bundle shows damage and changed parts, but not who sent it; it holds
    records of athletes and is not encrypted.
    """
    tools: Tools = ctx.obj["tools"]
    target = own_store(ctx, store)
    packed = tools.bundle(target, out, since)
    click.echo(packed_text(packed), nl=False)
    click.echo(f"Written to {out}.")


def packed_text(packed: BundleContent) -> str:
    """Return what a bundle carries, as a table."""
    if not packed.tables:
        last = f"the last load is {packed.until}"
        return f"No row is new or changed since load {packed.since}; {last}.\n"
    wide = max(len(table) for table, *_ in packed.tables)
    lines = [f"{'table':<{wide}} {'new':>9} {'changed':>9}"]
    lines += [f"{table:<{wide}} {new:>9,} {changed:>9,}" for table, new, changed in packed.tables]
    since = f"since load {packed.since}" if packed.since else "from the first load"
    lines.append(f"All {since} up to load {packed.until}.")
    return "\n".join(lines) + "\n"


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@store_option
@click.option(
    "--format",
    "how",
    type=click.Choice(["csv", "xlsx", "parquet"]),
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
