"""What forms are made of, without a screen: words by their letters, stages, entries, drafts."""

from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard import terms
from seasonboard.errors import Problem
from seasonboard.stored_tables import TABLES
from seasonboard.ui.forms.all_forms import BY_NAME
from seasonboard.ui.forms.form import FieldKind, fitting
from seasonboard.ui.forms.form_values import FormDraft, with_needed, with_proposals, with_refused
from seasonboard.ui.forms.record_forms import INJURY, ORDER, next_stage

AREAS = tuple(area.value for area in terms.Area)
LISTS = sorted({one.words for table in TABLES.values() for one in table.columns if one.words})


@pytest.mark.parametrize("words", LISTS, ids=lambda words: words[0])
def test_a_word_written_in_full_is_that_word_alone(words):
    for word in words:
        assert fitting(word.upper(), words) == ((fitting(word, words)[0]), 1)
        assert fitting(word, words)[0][0] == word


@settings(max_examples=30)
@given(letters=st.text(max_size=6))
def test_whatever_is_typed_only_words_of_the_list_are_offered(letters):
    offered, best = fitting(letters, AREAS)
    assert set(offered) <= set(AREAS)
    assert best <= len(offered)


@pytest.mark.parametrize(
    ("typed", "first", "best"),
    [
        ("kn", "knee", 1),
        ("groin", "hip/groin", 1),
        ("ha", "hand", 1),
        ("h", "head", 3),  # head, hand, hip/groin
        ("shoudler", "shoulder", 0),  # near, and only offered
    ],
)
def test_areas_are_found_by_a_few_letters(typed, first, best):
    offered, fit = fitting(typed, AREAS)
    assert (offered[0], fit) == (first, best)


def test_stages_follow_in_their_usual_order_and_end_with_being_retired():
    stage, walked = "", []
    while stage := next_stage(stage):
        walked.append(stage)
    usual = [one.value for one in terms.Stage]
    assert walked == [one for one in usual if one != "cancelled"]
    assert next_stage("cancelled") == ""


@pytest.mark.parametrize("form", BY_NAME.values(), ids=BY_NAME)
def test_a_form_writes_needs_and_words_what_its_table_does(form):
    """So that what is lacking is told at once, and under its field."""
    shown = {one.column: one for one in form.fields}
    tables = form.entry({name: f"<{name}>" for name in shown}, {}).tables
    written = set()
    for table, rows in tables.items():
        own = "" if table in {"guards", "decisions", "stages"} else form.key
        needed = {column for column in TABLES[table].required if form.key and column != own}
        assert all(shown[name].is_required for name in needed & set(shown))
        for row in rows:
            assert set(row) <= set(TABLES[table].names)
            assert all(row[name] for name in needed)
            written |= set(row)
    lines = {one.column for one in form.fields if one.column == "place"}  # a line that fills others
    assert set(shown) - lines <= written
    for one in form.fields:
        if one.holds is FieldKind.WORD:
            (table,) = [t for t in tables if one.column in tables[t][0]]
            assert one.words == TABLES[table].column(one.column).words


def test_an_empty_key_is_left_out_so_that_the_row_makes_its_own():
    values = {"athlete": "A", "occurred_on": "2026-09-01", "injury": ""}
    (row,) = INJURY.entry(values, {}).tables["injuries"]
    assert "injury" not in row
    assert row["note"] == ""


def test_a_problem_goes_under_its_field_and_the_rest_is_told_in_full():
    draft = FormDraft(ORDER)
    problems = [
        Problem("order", 1, "side", "both", "does not fit."),
        Problem("order", 1, "kind", "shn", "is not known.", "shin"),
        Problem("order", None, "elsewhere", None, "is wrong."),
    ]
    wrong, others = with_refused(draft, problems)
    assert wrong.problems["side"] == "“both” does not fit."
    assert wrong.problems["kind"] == "“shn” is not known. Did you mean “shin”?"
    assert others == ("order, column elsewhere: is wrong.",)


def test_typing_into_a_field_takes_its_problem_away_and_keeps_the_others():
    draft = with_needed(FormDraft(ORDER))
    kind = next(one for one in ORDER.fields if one.column == "kind")
    typed = draft.with_text(kind, "sh")
    assert set(draft.problems) - set(typed.problems) == {"kind"}
    assert typed.is_open(kind)
    assert not typed.with_choice(kind, "shin", "shin").is_open(kind)


def test_proposals_never_touch_what_a_person_typed():
    source = SimpleNamespace(lists=SimpleNamespace(free_key=lambda *_: "G9"))
    (guard,) = [one for one in ORDER.fields if one.column == "guard"]
    typed = FormDraft(ORDER).with_text(guard, "mine")
    assert with_proposals(FormDraft(ORDER), source).values["guard"] == "G9"
    assert with_proposals(typed, source).values["guard"] == "mine"
