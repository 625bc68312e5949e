"""The Return screen: bars that add up, and who is out."""

from seasonboard.answers.questions import RETURN
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.returns.page import MARKS, returns_page, state_bar
from tests.answers import reading_worked
from tests.ui.stand_in import lines_of

ANSWER = reading_worked.worked(RETURN)


def test_a_bar_is_as_wide_as_asked_and_its_parts_are_the_shares():
    for row in ANSWER.states:
        for width in (30, 77):
            bar = state_bar(row, width, Paper(80, 24)).plain
            assert len(bar) == width
            for state, share in zip(MARKS, row.point.share, strict=True):
                assert abs(bar.count(MARKS[state]) - share * width) <= 1


def test_who_is_out_is_told_with_like_injuries_and_guard_and_no_return_is_promised():
    for width in (80, 120):
        told = " ".join(" ".join(lines_of(returns_page(ANSWER, Paper(width, 40)))).split())
        assert "24 Sep to 8 Oct" in told
        assert "at least 62 % by 26 Sep" in told
        assert "a count of like injuries" in told
        assert "may return" not in told
