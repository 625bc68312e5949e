"""Two places edit and send as they like; unless one edits what the other has newer, they agree."""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.bundles.pair import Place, changed
from tests.deep import tries
from tests.reused import ReusedStore

DEPARTMENTS = "department,name,plan,time_zone\nD1,North,onsite printer,Asia/Tokyo\n"
CELLS = [(team, column) for team in ("T1", "T2", "T3") for column in ("sport", "sex")]
WORDS = {"sport": ("judo", "golf", "=1+1"), "sex": ("women", "men", "mixed")}
Cell = tuple[str, str]


@dataclass
class Editor:
    """A place, the version of each cell it has seen, and the loads each other place has from it."""

    place: Place
    seen: dict[Cell, int] = field(default_factory=dict)
    sent: int = 0


@contextmanager
def two_editors(folder: Path, *, apart: bool) -> Iterator[list[Editor]]:
    with ReusedStore() as one, ReusedStore() as two:
        both = [Editor(Place(one, folder / "one")), Editor(Place(two, folder / "two"))]
        for editor in both if apart else both[:1]:
            editor.place.load(departments=DEPARTMENTS)
        if not apart:
            send(*both, everything=True)
        yield both


def edit(editor: Editor, newest: dict[Cell, int], cell: Cell, word: int) -> None:
    """Change one cell (a new row if it is the first of its team), unless the other's is newer."""
    team, column = cell
    mine = [one for one in CELLS if one[0] == team]
    if any(editor.seen.get(one, 0) != newest.get(one, 0) for one in mine) and not all(
        editor.seen.get(one) for one in mine
    ):
        return  # the row is new there
    if editor.seen.get(cell, 0) != newest.get(cell, 0):
        return
    row = {"sport": "judo", "sex": "women"}
    if editor.seen.get(cell):
        row = {name: str(editor.place.cell("teams", name, team=team)) for name in row}
    row[column] = WORDS[column][word]
    text = f'team,department,sport,sex\n{team},D1,"{row["sport"]}",{row["sex"]}\n'
    editor.place.load(teams=text.replace('"=', "\"'="))
    for one in mine if not editor.seen.get(cell) else [cell]:
        newest[one] = newest.get(one, 0) + 1
        editor.seen[one] = newest[one]


def send(sender: Editor, taker: Editor, *, everything: bool) -> None:
    taker.place.take(sender.place.bundle(0 if everything else sender.sent))
    sender.sent = sender.place.last
    for cell, version in sender.seen.items():
        taker.seen[cell] = max(version, taker.seen.get(cell, 0))


EDIT = st.tuples(st.integers(0, 1), st.sampled_from(CELLS), st.integers(0, 2))
SEND = st.tuples(st.integers(0, 1), st.booleans())


@pytest.mark.long
@settings(max_examples=tries(4))
@given(
    steps=st.lists(st.one_of(EDIT, EDIT, SEND), min_size=3, max_size=9),
    first=st.integers(0, 1),
    apart=st.booleans(),
)
def test_two_places_end_with_the_same_rows(steps, first, apart):
    newest: dict[Cell, int] = {}
    with tempfile.TemporaryDirectory() as folder, two_editors(Path(folder), apart=apart) as both:
        for step in steps:
            who = int(str(step[0]))
            if len(step) == 3:
                edit(both[who], newest, step[1], int(str(step[2])))  # type: ignore[arg-type]
            else:
                send(both[who], both[1 - who], everything=bool(step[1]))
        send(both[first], both[1 - first], everything=True)
        send(both[1 - first], both[first], everything=True)
        assert both[0].place.content == both[1].place.content
        again = both[1 - first].place.take(both[first].place.bundle())
        assert changed(again) == []
        assert both[first].place.take(both[1 - first].place.bundle()).is_empty
