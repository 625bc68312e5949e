"""A release to be made, as lines of text: every figure that outsiders would be told."""

from collections.abc import Iterator

from seasonboard.answers import words
from seasonboard.releases.block import Block, Figure
from seasonboard.releases.making import ReleasePlan


def plan_lines(plan: ReleasePlan) -> list[str]:
    """Return what a release would hold, a table for each kind of guard, then what to know of it."""
    lines = [line for block in plan.release.blocks for line in _block_lines(block, plan)]
    return [*lines, *plan.sentences()]


def _block_lines(block: Block, plan: ReleasePlan) -> Iterator[str]:
    state = "new" if block.kind in plan.renewed else f"as it was released on {block.made_on}"
    yield f"{block.kind}, {words.plural(block.departments, 'department')}, {state}"
    cells = [(name, _count(block, name)) for name in sorted(block.masked.table.shown)]
    cells += [(figure.name, _figure(figure)) for figure in block.figures.values()]
    wide = max(len(name) for name, _ in cells)
    for name, text in cells:
        yield f"  {name:<{wide}}  {text}"
    yield ""


def _count(block: Block, name: str) -> str:
    count = block.count(name)
    text = "hidden" if count is None else words.whole(count)
    return f"{text} (corrected)" if name in block.corrected else text


def _figure(figure: Figure) -> str:
    if figure.value is None:
        return figure.words or "not known"
    text = f"{figure.value:g}"
    if figure.low is not None and figure.high is not None:
        text += f" ({figure.low:g} to {figure.high:g})"
    return f"{text} {figure.words}".strip()
