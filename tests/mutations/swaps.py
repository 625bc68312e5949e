"""Swaps two fields of a description, and asks the checks of the worked answers to notice."""

from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import combinations

from seasonboard.answers.fields import Field, Group, Table
from seasonboard.answers.questions import Question
from tests.answers.reading_worked import CHECKS, is_csv_alone, objects, parts_in_json


@dataclass
class Swaps:
    """How many swaps there were in one question's description, and those nobody noticed."""

    question: str
    getters: int = 0
    headings: int = 0
    survivors: list[str] = field(default_factory=list)


def swaps_of(question: Question) -> Swaps:
    """Swap the getters of any two fields side by side, then the headings of any two of a table."""
    swaps = Swaps(question.name)
    parts = objects(question)
    tables = [part for part, *_ in parts if isinstance(part, Table)]
    described = {0: (question.report().elements, "")}
    for part, _, place in parts:
        described.setdefault(id(part.elements), (_read(part, question), place))
    for elements, place in described.values():
        for pair in combinations([one for one in elements if isinstance(one, Field)], 2):
            if _origin(pair[0].get) == _origin(pair[1].get):
                continue
            swaps.getters += 1
            # What only people read is taken from the row by `show`.
            is_for_people = not all(one.in_json or one.in_csv for one in pair)
            names = ("get", "show") if is_for_people else ("get",)
            with _swapped(pair, names, tables):
                _note(swaps, question, pair, f"{place}: getters")
    for table in tables:
        if is_csv_alone(table, question.report()):
            continue
        headed = [one for one in _flat(table.elements) if one.heading is not None]
        for pair in combinations(headed, 2):
            if pair[0].heading != pair[1].heading:
                swaps.headings += 1
                with _swapped(pair, ("heading",), tables):
                    _note(swaps, question, pair, f".{table.name}: headings")
    return swaps


def _read(part, question):
    """Return what anybody reads of a part: of a table for CSV or for people alone, not all."""
    report = question.report()
    if any(part is one for one in parts_in_json(question)):
        return part.elements
    fields = [one for one in part.elements if isinstance(one, Field)]
    if part is report.csv:
        return [one for one in fields if one.in_csv]
    if any(part is one for one in report.text):
        return [one for one in fields if one.heading is not None]
    return fields


def _origin(get):
    """Return what tells a getter: its code and what it holds; the same attribute is no swap."""
    cells = getattr(get, "__closure__", None) or ()
    return getattr(get, "__code__", get), *(repr(cell.cell_contents) for cell in cells)


def _note(swaps: Swaps, question: Question, pair: tuple[Field, Field], place: str) -> None:
    """Note a swap that no check notices; an answer that cannot be read any more is noticed."""
    for check in CHECKS:
        try:
            check(question)
        except (AssertionError, AttributeError, KeyError, TypeError, ValueError):
            return
    swaps.survivors.append(f"{place} of {pair[0].name}, {pair[1].name}")


@contextmanager
def _swapped(pair, names, tables):
    _exchange(pair, names, tables)
    try:
        yield
    finally:
        _exchange(pair, names, tables)


def _exchange(pair, names, tables):
    """Exchange parts of two fields where they stand, and let tables look them up anew."""
    one, other = pair
    for name in names:
        kept = getattr(one, name)
        object.__setattr__(one, name, getattr(other, name))
        object.__setattr__(other, name, kept)
    for table in tables:
        table._by_name.clear()
        table.__post_init__()


def _flat(elements):
    """Yield the fields of a table, also those of its groups."""
    for one in elements:
        if isinstance(one, Field):
            yield one
        elif isinstance(one, Group):
            yield from _flat(one.elements)
