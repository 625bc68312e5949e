"""`seasonboard sample`: write the invented season as CSV tables."""

from pathlib import Path

import click

from seasonboard.cli.services import Tools

SEED = 20260815


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--seed", type=int, default=SEED, show_default=True, help="Another seed, other luck.")
@click.option("--size", type=float, default=1.0, show_default=True, help="Times as large.")
@click.option(
    *("--return-ratio", "return_ratio"),
    type=float,
    default=1.0,
    show_default=True,
    help="Times as likely to come back on a day out with a return guard fitted.",
)
@click.pass_context
def sample(ctx: click.Context, folder: Path, seed: int, size: float, return_ratio: float) -> None:
    """Write the sample season into FOLDER: invented departments, athletes, guards and injuries.

    Its effects are planted for demonstration and say nothing about real guards.
    """
    tools: Tools = ctx.obj["tools"]
    for path in tools.write_sample(folder, seed=seed, size=size, return_ratio=return_ratio):
        click.echo(path)
