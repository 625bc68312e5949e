"""Steps of which each is a part of the one before."""

import pytest

from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.take_up.page import step_bar


def drawn(name: str, count: int, first: int, beside: str = "", width: int = 78) -> str:
    return step_bar(name, count, first, beside, Paper(width, 20)).plain.rstrip()


def test_bar_is_the_share_of_the_first_step_and_words_stand_beside() -> None:
    assert drawn("eligible", 1412, 1412) == " eligible   1,412  ████████████████████████"
    assert drawn("offered", 706, 1412, "50 % of the step before") == (
        " offered      706  ████████████              50 % of the step before"
    )


def test_nobody_at_the_first_step_is_no_bar() -> None:
    assert drawn("worn", 0, 0) == " worn           0"


@pytest.mark.parametrize("width", [40, 57, 78, 198])
def test_no_line_is_wider_than_the_paper(width: int) -> None:
    beside = "99 % (98–100) of the step before"
    assert len(drawn("[/x] a very long step", 12, 12, beside, width)) <= width
