"""Whether a block of counts may be renewed beside what is out of it already."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from seasonboard.disclosure.count_table import CountTable, is_small
from seasonboard.disclosure.reconstruction import disclosed


@dataclass(frozen=True, slots=True)
class MaskedTable:
    """Counts of which some are hidden, as they are in a release."""

    table: CountTable
    hidden: frozenset[str]


def worked_out_beside(new: MaskedTable, earlier: Sequence[MaskedTable]) -> tuple[str, ...]:
    """Return the counts and changes that earlier releases and a new one tell together.

    A count and its change since each earlier release are small unless they are 0 or the threshold
    or more. A reader is taken to know which counts did not change, and that one that is not in a
    release was 0 then. Empty: the block may be renewed.
    """
    releases = [*earlier, new]
    joint, wanted, hidden = CountTable(), set[str](), set[str]()
    for release in releases:
        table = release.table
        name = {cell: _name(cell, value) for cell, value in table.cells.items()}
        for cell, value in table.cells.items():
            joint.cells[name[cell]] = value
        joint.shown |= {name[cell] for cell in table.shown - release.hidden}
        wanted |= {name[cell] for cell in table.shown}
        joint.close |= {name[cell] for cell in table.close}
        for cell, (low, high) in table.ranges.items():
            if cell not in release.hidden:
                _narrow(joint, name[cell], low, high)
        joint.sums += [
            (name[total], tuple(name[part] for part in parts)) for total, parts in table.sums
        ]
        hidden |= {name[cell] for cell in release.hidden}
    for cell in new.table.cells | {c: 0 for one in earlier for c in one.table.cells}:
        _changes(joint, cell, new, earlier)
    hidden -= joint.shown
    joint.shown |= wanted & (joint.shown | hidden)
    return disclosed(joint, hidden)


def _name(cell: str, value: int) -> str:
    """Return one name for a count as long as it does not change."""
    return f"{cell} = {value}"


def _narrow(joint: CountTable, name: str, low: int, high: int | None) -> None:
    before = joint.ranges.get(name, (0, None))
    tops = [top for top in (before[1], high) if top is not None]
    joint.ranges[name] = (max(before[0], low), min(tops, default=None))


def _changes(
    joint: CountTable, cell: str, new: MaskedTable, earlier: Collection[MaskedTable]
) -> None:
    now = new.table.cells.get(cell, 0)
    for before in {one.table.cells.get(cell, 0) for one in earlier} - {now}:
        if not is_small(abs(now - before)):
            continue
        for value in (now, before):
            name = _name(cell, value)
            if name not in joint.cells:
                joint.show(name, 0)
        change = f"the change of {cell} from {before} to {now}"
        joint.cells[change] = abs(now - before)
        joint.sums.append((_name(cell, max(now, before)), (_name(cell, min(now, before)), change)))
