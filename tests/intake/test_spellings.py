"""One open table of spellings, which a file beside the store may extend."""

from pathlib import Path

import pytest

from seasonboard.errors import IntakeError
from seasonboard.load_options import LoadOptions
from seasonboard.store.intake.header import BY_NAME
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.synonyms import shipped_synonyms
from seasonboard.stored_column import CellType
from seasonboard.stored_tables import TABLES
from tests.intake.desk import Desk

HEADER = "injury,athlete,occurred_on,area,side\n"


def injuries(*pairs: tuple[str, str]) -> str:
    return HEADER + "".join(
        f'I9{place},A3,2026-09-1{place},"{area}",{side}\n'
        for place, (area, side) in enumerate(pairs)
    )


SIDES = {
    "left": ["L", "Left", "lt", "LEFT KNEE", "Lft", "left ", "L."],
    "right": ["R", "rt.", "Right", "knee right"],
    "both": ["Bilateral", "both", "L/R", "B"],
}


@pytest.mark.long
@pytest.mark.parametrize(("side", "cell"), [(s, one) for s, many in SIDES.items() for one in many])
def test_sides_in_many_spellings(loaded: Desk, side: str, cell: str) -> None:
    assert loaded.plan(injuries=injuries(("knee", cell))).rows["injuries"]["side"][0] == side


@pytest.mark.parametrize("cell", ["", "?", "Not sure", "unknown"])
def test_a_side_that_nobody_knew_is_not_known(loaded: Desk, cell: str) -> None:
    assert loaded.plan(injuries=injuries(("knee", cell))).rows["injuries"]["side"][0] is None


@pytest.mark.parametrize(
    ("cell", "area"),
    [
        ("Knee.", "knee"),
        ("KNEE\u00a0", "knee"),
        ("knee\u200b", "knee"),
        ("Shin", "lower leg"),
        ("lower-leg", "lower leg"),
        ("Hip / Groin", "hip/groin"),
        ("left knee", "knee"),
        ("Hand/Finger", "hand"),
    ],
)
def test_areas_in_many_spellings(loaded: Desk, cell: str, area: str) -> None:
    assert loaded.plan(injuries=injuries((cell, "left"))).rows["injuries"]["area"][0] == area


PARTS = {
    "Full": "full",
    "played": "full",
    "LTD": "limited",
    "Full - modified drills": "limited",
    "Observed only": "out",
    "Excused": "out",
    "OUT": "out",
    "DNP": "out",
    "dressed, did not play": "out",
    "injured": "out",
}


@pytest.mark.parametrize("cell", PARTS)
def test_participation_in_many_spellings(loaded: Desk, cell: str) -> None:
    text = f'session,athlete,part\nS3,A1,"{cell}"\n'
    assert loaded.plan(attendance=text).rows["attendance"]["part"][0] == PARTS[cell]


def test_guard_kinds_may_be_called_otherwise(loaded: Desk) -> None:
    text = "guard,athlete,kind,side,purpose\nG9,A1,Shin Guard,left,preventive\n"
    plan = loaded.plan(guards=text)
    assert plan.rows["guards"]["kind"].to_list() == ["shin"]


def test_every_spelling_leads_to_a_word_of_its_list() -> None:
    closed: dict[str, set[str]] = {}
    for column in (column for table in TABLES.values() for column in table.columns):
        if column.holds is CellType.WORD:
            closed.setdefault(column.name, set()).update(map(str, column.words))
    for column, spellings in shipped_synonyms().words.items():
        if column != "kind":
            assert set(spellings.values()) <= closed[column], column


def test_every_heading_leads_to_a_column() -> None:
    names = {name for table in TABLES.values() for name in table.names}
    for table, headings in shipped_synonyms().headings.items():
        known = names | set(BY_NAME) if table == "any" else TABLES[table].names
        assert {one for many in headings.values() for one in many} <= set(known), table


def options(tmp_path: Path, own: str) -> LoadOptions:
    (tmp_path / "s.duckdb.synonyms.toml").write_text(own, "utf-8")
    return LoadOptions(store=tmp_path / "s.duckdb")


def test_a_file_beside_the_store_adds_spellings(loaded: Desk, tmp_path: Path) -> None:
    loaded.put(injuries=injuries(("joelho", "esq")))
    own = options(tmp_path, '[words.area]\nknee = ["joelho"]\n[words.side]\nleft = ["ESQ."]\n')
    plan = plan_load(loaded.store, [loaded.folder], own)
    assert plan.rows["injuries"].select("area", "side").row(0) == ("knee", "left")


def test_the_file_beside_the_store_wins(loaded: Desk, tmp_path: Path) -> None:
    loaded.put(injuries=injuries(("hip", "left")))
    plan = plan_load(
        loaded.store, [loaded.folder], options(tmp_path, '[words.area]\nthigh = ["hip"]\n')
    )
    assert plan.rows["injuries"]["area"].to_list() == ["thigh"]


@pytest.mark.parametrize(
    ("own", "said"),
    [
        ("[words", "is not TOML"),
        ('[word.side]\nleft = ["l"]', "there is no section “word”"),
        ('[words.sides]\nleft = ["l"]', "no column is called so"),
        ('[words.side]\nlefft = ["l"]', "“lefft” is not one of"),
    ],
)
def test_a_wrong_file_of_spellings_is_told_with_its_place(loaded, tmp_path, own, said) -> None:
    loaded.put(injuries=injuries(("knee", "left")))
    with pytest.raises(IntakeError, match=r"synonyms\.toml") as refused:
        plan_load(loaded.store, [loaded.folder], options(tmp_path, own))
    assert said in refused.value.what
