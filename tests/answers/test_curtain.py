"""The codes of the curtain, and that nothing passes it by oversight."""

import hashlib
import hmac
import string
from datetime import date

import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.answers.curtain.columns import COVERED, KEYS
from seasonboard.answers.curtain.covering import LEAST, CurtainedReader, cover, shortened
from seasonboard.answers.questions import ROSTER
from seasonboard.answers.source import AnswerSource
from seasonboard.errors import StoreError
from seasonboard.paging import PageAsked
from seasonboard.store.catalogue import catalogue
from tests.queries.build import Season
from tests.reused import ReusedStore

LETTERS = "23456789BCDFGHJKLMNPQRSTVWXZ"


def season(*athletes, **tables):
    """A season with these athletes on team T, each called like the key."""
    roster = [
        {"athlete": a, "team": "T", "season": "S", "name": f"{a} Quagmire", "jersey": "77"}
        for a in athletes
    ]
    sessions = [
        {
            "session": key, "team": "T", "season": "S", "starts_at": f"2026-09-0{number}T18:00",
            "setting": "game", "label": "Zebulon's last",
        }
        for number, key in enumerate(("G1", "rehab quagmire"), start=1)
    ]  # fmt: skip
    return Season(roster=roster, sessions=sessions, **tables)


def letters_of(*pairs):
    rows = [("athlete", f"a{n}", text.ljust(16, "2")) for n, text in enumerate(pairs)]
    return pl.DataFrame(
        rows, schema=dict.fromkeys(("kind", "key", "letters"), pl.String), orient="row"
    )


@given(st.sets(st.text(LETTERS[:3], min_size=16, max_size=16), max_size=40))
@settings(max_examples=60)
def test_no_two_share_a_code_and_none_begins_another(texts):
    codes = shortened(letters_of(*sorted(texts)))["code"].to_list()
    assert len(set(codes)) == len(codes)
    assert all(len(code) >= LEAST for code in codes)
    assert not [1 for a in codes for b in codes if a != b and b.startswith(a)]


def test_a_code_is_four_letters_and_longer_only_where_it_must_be():
    codes = shortened(letters_of("K3F7A", "K3F7BB", "K3F7BC", "W222"))["code"].to_list()
    assert codes == ["K3F7A", "K3F7BB", "K3F7BC", "W222"]


def test_a_code_can_only_be_made_with_the_secret(tmp_path):
    """Worked by hand with hashlib: SHA-256 over the secret and the hash with the secret."""
    with season("zeb").load(tmp_path) as store:
        (row,) = (
            store.read("curtain/codes", secret="s")
            .filter(pl.col("kind") == "athlete")
            .iter_rows(named=True)
        )
        other = CurtainedReader(store, lambda: "t").codes.code_of("zeb")
    inner = hashlib.sha256(b"sathlete\x1fzeb").hexdigest()
    digest = hashlib.sha256(b"s" + inner.encode()).hexdigest()
    signs = [LETTERS[int(digest[n : n + 4], 16) % 28] for n in range(0, 64, 4)]
    assert row["letters"] == "".join(signs)
    assert not hmac.compare_digest(row["letters"][:LEAST], other)


def test_codes_lead_back_to_the_athlete_however_they_are_written(tmp_path):
    with season("zeb", "LF-0001").load(tmp_path) as store:
        codes = CurtainedReader(store, lambda: "s").codes
        for key in ("zeb", "LF-0001"):
            code = codes.code_of(key)
            assert key not in code
            for written in (code, code.lower(), f"athlete {code}", f" {code} "):
                assert codes.key_of(written) == key
        assert codes.key_of("nobody") == "nobody"
        assert codes.code_of("nobody") == "nobody"


def test_text_in_a_column_nobody_thought_of_is_covered(tmp_path):
    with season("zeb").load(tmp_path) as store:
        codes = CurtainedReader(store, lambda: "s").codes
    frame = pl.DataFrame(
        {
            "athlete": ["zeb", None, "new"],
            "nickname": ["Zebby", None, "x"],
            "friends": [["Zeb"], None, []],
            "spoken": [{"who": "Zeb"}, None, None],
            "days": [1, 2, 3],
            "on": [date(2026, 9, 1)] * 3,
        }
    )
    found = cover("any/question", frame, codes)
    assert found["athlete"].to_list() == [codes.code_of("zeb"), None, COVERED]
    assert found["nickname"].to_list() == [COVERED, None, COVERED]
    assert found["friends"].to_list() == [None] * 3
    assert found["spoken"].to_list() == [None] * 3
    assert found.select("days", "on").equals(frame.select("days", "on"))


@pytest.fixture(scope="module")
def nothing():
    with ReusedStore() as store:
        yield store


@pytest.mark.parametrize("name", [n for n in catalogue() if not n.startswith(("bundle", "store"))])
def test_covering_keeps_the_columns_and_types_of_every_question(nothing, name):
    """Also of an empty store, in which no key is known."""
    question = catalogue()[name]
    params = {p: [] if kind == "VARCHAR[]" else None for p, kind in question.params.items()}
    found = CurtainedReader(nothing, lambda: "s").read(name, **params)
    assert found.schema == nothing.read(name, **params).schema


def test_session_keys_are_covered_only_where_they_name_somebody(tmp_path):
    with season("zeb").load(tmp_path) as store:
        covered = CurtainedReader(store, lambda: "s")
        frame = pl.DataFrame({"session": ["G1", "rehab quagmire", "with ZEB", "zebra crossing"]})
        assert cover("q", frame, covered.codes)["session"].to_list() == [
            "G1", COVERED, COVERED, "zebra crossing",
        ]  # fmt: skip


def test_an_athlete_who_comes_later_gets_a_code_too(tmp_path):
    with season("zeb").load(tmp_path) as store:
        covered = CurtainedReader(store, lambda: "s")
        before = covered.codes.code_of("zeb")
        with store.writing() as cursor:
            cursor.execute("INSERT INTO store.athletes VALUES (99, 'late')")
            cursor.execute(
                "INSERT INTO store.roster (athlete_no, team, season, name) "
                "VALUES (99, 'T', 'S', 'Late Comer')"
            )
        everyone = dict.fromkeys(catalogue()["roster/athletes"].params)
        shown = covered.read("roster/athletes", **everyone)["athlete"].to_list()
        assert len(set(shown)) == 2
        assert before in shown
        assert COVERED not in shown


def test_a_refusal_of_the_store_does_not_quote_what_it_holds():
    class Refusing:
        def read(self, *_, **__):
            raise StoreError("It could not be answered.", "Could not convert 'Zebulon Quagmire'")

    with pytest.raises(StoreError) as caught:
        CurtainedReader(Refusing(), lambda: "s").read("roster/places")
    assert "Quagmire" not in str(caught.value)
    assert "behind the curtain" in caught.value.hint


def test_pages_are_found_and_sorted_by_what_is_shown(tmp_path):
    with season(*string.ascii_lowercase).load(tmp_path) as store:
        covered = CurtainedReader(store, lambda: "s")
        everyone = dict.fromkeys(catalogue()["roster/athletes"].params)
        page = covered.read_page(
            "roster/athletes", PageAsked(5, 5, "athlete", descending=True), **everyone
        )
        codes = sorted((covered.codes.code_of(a) for a in string.ascii_lowercase), reverse=True)
        assert page.rows["athlete"].to_list() == codes[5:10]
        assert (page.matching, page.total) == (26, 26)
        for word, count in ((codes[3].lower(), 1), ("quagmire", 0), ("athlete", 26)):
            found = covered.read_page("roster/athletes", PageAsked(50, search=word), **everyone)
            assert (found.matching, found.total) == (count, 26)
        with pytest.raises(StoreError, match="no column height"):
            covered.read_page("roster/athletes", PageAsked(5, sort="height"), **everyone)


def test_every_key_of_a_person_is_a_code(tmp_path):
    known = {"athlete", "guard", "injury", "offer", "decision"}
    assert set(KEYS.values()) == known


def test_an_answer_is_the_same_but_for_names(tmp_path):
    with season("zeb", "kim").load(tmp_path) as store:
        board = AnswerSource(store, str(tmp_path / "kim.duckdb"), secret=lambda: "s")
        scope = board.opening_scope()
        named = board.ask(ROSTER, scope)
        board.cover(is_down=True)
        covered = board.ask(ROSTER, scope)
        assert board.store_label == "a store"
        assert covered.summary.answer == named.summary.answer.replace(", Zebulon's last", "")
        assert len(covered.athletes) == 2
        for athlete in covered.athletes:
            assert athlete.name == f"athlete {athlete.athlete}"
            key = board.athlete_timeline(scope, athlete.athlete)
            assert key.athlete == athlete.athlete
        board.cover(is_down=False)
        assert {a.athlete for a in board.ask(ROSTER, scope).athletes} == {"zeb", "kim"}
        assert board.athlete_timeline(scope, covered.athletes[0].athlete).athlete in {"zeb", "kim"}
        assert board.store_label == str(tmp_path / "kim.duckdb")
