"""`seasonboard bundle`: write what is new in a store as one file for another store."""

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
