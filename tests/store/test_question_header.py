"""A header is read whole, and names lists of parameters and columns instead of repeating them."""

import re

import pytest

from seasonboard.errors import StoreError
from seasonboard.store import catalogue as module
from seasonboard.store.catalogue import catalogue, lists_of_headers
from seasonboard.store.question_header import header_lists, read_header, written_out
from seasonboard.store.shipped_files import shipped

LISTS = header_lists(
    """\
-- What a stranger reads first.
-- params people:
--   teams VARCHAR[]  teams
-- params guards: people
--   kinds VARCHAR[]  guard kinds; never NULL
-- columns counts:
--   athletes BIGINT  how many
"""
)
HEADER = """\
-- question: What is
--   asked?
-- scope: guards
-- params:
--   by VARCHAR  what they are
--               grouped by
-- grain: one row
-- columns: counts
--   part VARCHAR  of the season
SELECT 1 AS athletes, 'all' AS part;
"""
WRITTEN_OUT = """\
-- question: What is
--   asked?
-- params:
--   teams VARCHAR[]  teams
--   kinds VARCHAR[]  guard kinds; never NULL
--   by VARCHAR  what they are
--               grouped by
-- grain: one row
-- columns:
--   athletes BIGINT  how many
--   part VARCHAR  of the season
SELECT 1 AS athletes, 'all' AS part;
"""


def test_a_person_reads_the_lists_of_a_header_written_out():
    assert written_out(HEADER, LISTS) == WRITTEN_OUT


def test_a_header_is_read_with_its_lists_and_its_continued_lines():
    header = read_header(WRITTEN_OUT)
    assert header.fields == {"question": "What is asked?", "grain": "one row"}
    assert header.params == {"teams": "VARCHAR[]", "kinds": "VARCHAR[]", "by": "VARCHAR"}
    assert header.columns == {"athletes": "BIGINT", "part": "VARCHAR"}


def test_several_lists_may_be_named():
    text = written_out("-- scope: people, people\n", LISTS)
    assert text.count("--   teams VARCHAR[]") == 2


@pytest.mark.parametrize("line", ["-- scope: guard", "-- scope: counts", "-- columns: people"])
def test_a_list_that_there_is_not_is_refused(line):
    with pytest.raises(StoreError, match=r"no list “(params|columns) \w+” in queries/header_lists"):
        written_out(f"{line}\n", LISTS)


def test_a_list_may_begin_only_with_those_before_it():
    with pytest.raises(StoreError, match="no list “params later”"):
        header_lists("-- params first: later\n-- params later:\n")


@pytest.mark.parametrize(
    ("block", "line"),
    [("params", "--   kinds VARCHAR[]  them"), ("columns", "--   athletes BIGINT  again")],
)
def test_what_a_list_holds_is_not_written_again(block, line):
    names = {"params": "-- scope: guards\n-- params:\n", "columns": "-- columns: counts\n"}
    with pytest.raises(StoreError, match=f"is described twice in {block}"):
        read_header(written_out(f"{names[block]}{line}\n", LISTS))


@pytest.mark.parametrize("lost", ["-- question: ", "-- grain: ", "--   part VARCHAR"])
def test_a_header_that_lacks_something_is_refused(tmp_path, lost):
    text = HEADER.replace("-- scope: guards\n", "").replace("columns: counts", "columns:")
    (tmp_path / "one.sql").write_text(text)
    assert module._read(tmp_path / "one.sql", "a/one").columns == {"part": "VARCHAR"}
    (tmp_path / "one.sql").write_text(text.replace(lost, "-- other: "))
    with pytest.raises(StoreError, match=r"one\.sql has no complete header"):
        module._read(tmp_path / "one.sql", "a/one")


def test_a_header_with_an_unknown_list_says_which_and_in_which_file(tmp_path):
    (tmp_path / "one.sql").write_text(HEADER)
    with pytest.raises(StoreError, match=r"one\.sql has no complete header") as refused:
        module._read(tmp_path / "one.sql", "a/one")
    assert refused.value.hint == "There is no list “columns counts” in queries/header_lists.sql."


FILES = [p for p in sorted(shipped("queries").rglob("*.sql")) if "-- question: " in p.read_text()]


def own_words(text, block):
    """Return what a question's file describes itself, beside the lists it names."""
    lines = re.search(rf"^-- {block}:.*\n((?:--   .*\n)*)", text, re.MULTILINE)
    return set(re.findall(r"^--   (\w+) ", lines[1], re.MULTILINE)) if lines else set()


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_header_names_a_list_instead_of_spelling_it_out(path):
    text = path.read_text()
    for held, lines in lists_of_headers().items():
        words = {line.split()[1] for line in lines}
        own = own_words(text, held.split()[0])
        assert len(words) == 1 or not words <= own, f"spells out “{held}”"


def test_every_question_is_shown_with_its_lists_written_out():
    for question in catalogue().values():
        assert not re.search(r"^-- (scope|columns): ", question.sql, re.MULTILINE), question.name
    assert "--   detail VARCHAR      what is doubtful" in catalogue()["checks/order_twice"].sql


def test_every_list_is_named_by_several_headers_or_lists():
    texts = [path.read_text() for path in shipped("queries").rglob("*.sql")]
    named = [
        f"{'columns' if block.startswith('columns') else 'params'} {word}"
        for text in texts
        for block, words in re.findall(r"^-- (scope|columns|params \w+): (.+)$", text, re.MULTILINE)
        for word in words.split(", ")
    ]
    assert all(named.count(name) > 1 for name in lists_of_headers())
