"""What the store knows for each part of the scope."""

from seasonboard.answers.reader import Reader
from seasonboard.scope import KnownValue, ScopeValues
from seasonboard.terms import Side

SIDES = (Side.LEFT, Side.RIGHT, Side.MIDLINE)


def read_known(reader: Reader) -> ScopeValues:
    """Ask the store for the values of every part of the scope and the days it spans."""
    listed: dict[str, list[KnownValue]] = {}
    made: list[str] = []
    covers: dict[str, tuple[str, ...]] = {}
    for part, value, name, department, weight in reader.read("scope/known").iter_rows():
        if part == "covers":
            covers[value] = (*covers.get(value, ()), name)
            continue
        listed.setdefault(part, []).append(KnownValue(value, name or value, department))
        if part == "kind" and weight:
            made.append(value)
    listed["side"] = [KnownValue(side.value, side.value) for side in SIDES]
    (days,) = reader.read("scope/days").iter_rows(named=True)
    values = {part: tuple(values) for part, values in listed.items()}
    return ScopeValues(values=values, kinds_made=tuple(made), covers=covers, **days)
