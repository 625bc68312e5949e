"""Releases as the tests describe them: a line with its total, a table with its margins."""

from collections.abc import Collection, Sequence

from seasonboard.disclosure.feasible_ranges import Attacker, Range
from seasonboard.disclosure.published_figures import HiddenCount, PublishedItem, ShownCount
from seasonboard.disclosure.release import Policy, Release, adds_up
from seasonboard.disclosure.verdict import DisclosureVerdict

FIVE = Policy(5, "The case asks for 5.")
THREE = Policy(3, "Small, so that every table can be tried.")


def shown(cells: Collection[str], hidden: Collection[str] = ()) -> tuple[PublishedItem, ...]:
    """Show every cell but the hidden ones."""
    return tuple(HiddenCount(cell) if cell in hidden else ShownCount(cell) for cell in cells)


def feasible(release: Release, *, least_hidden: int = 0) -> dict[str, Range]:
    """Return the range of every cell for a reader of all that is published."""
    reader = Attacker(release, release.items, least_hidden=least_hidden)
    return {cell: reader.range_of(cell) for cell in release.cells}


def text_of(verdict: DisclosureVerdict, name: str) -> str:
    """Return a count or what is worked out from it as a reader sees it, or its mark."""
    if not verdict.may_show(name):
        return verdict.mark(name)
    item, cells = verdict.items[name], verdict.release.cells
    return str(cells[item.cell]) if isinstance(item, ShownCount) else item.text(cells)


def line(*counts: int, hidden: Collection[str] = ()) -> Release:
    """Return counts called a, b, c and their total."""
    parts = dict(zip("abcdefgh", counts, strict=False))
    cells = {**parts, "total": sum(counts)}
    return Release(cells, (adds_up("total", tuple(parts)),), shown(cells, hidden))


def table(
    rows: Sequence[str],
    columns: Sequence[str],
    counts: Sequence[Sequence[int]],
    hidden: Collection[str] = (),
) -> Release:
    """Return a table with both margins: cells “row/column”, “row/all”, “all/column”, “all/all”."""
    cells = {
        f"{row}/{column}": count
        for row, line in zip(rows, counts, strict=True)
        for column, count in zip(columns, line, strict=True)
    }
    cells |= {f"{row}/all": sum(line) for row, line in zip(rows, counts, strict=True)}
    cells |= {f"all/{c}": sum(line[n] for line in counts) for n, c in enumerate(columns)}
    cells["all/all"] = sum(sum(line) for line in counts)
    sums = [adds_up(f"{row}/all", tuple(f"{row}/{c}" for c in columns)) for row in rows]
    sums += [adds_up(f"all/{c}", tuple(f"{row}/{c}" for row in rows)) for c in columns]
    sums.append(adds_up("all/all", tuple(f"{row}/all" for row in rows)))
    sums.append(adds_up("all/all", tuple(f"all/{c}" for c in columns)))
    return Release(cells, tuple(sums), shown(cells, hidden))
