"""Steps of which each is a part of the one before."""

import pytest

from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.take_up.step_bars import StepBar, step_bar


def drawn(step, first, width=78):
    return [line.plain.rstrip() for line in step_bar(step, first, Paper(width, 20))]


def test_bar_is_the_share_of_the_first_step_and_words_stand_beside_and_below():
    assert drawn(StepBar("eligible", 1412, ""), 1412) == [
        " eligible   1,412  ████████████████████████"
    ]
    assert drawn(StepBar("offered", 706, "50 % of the step before", "3 undecided"), 1412) == [
        " offered      706  ████████████              50 % of the step before",
        "                   3 undecided",
    ]


def test_nobody_at_the_first_step_is_no_bar():
    assert drawn(StepBar("worn", 0), 0) == [" worn           0"]


@pytest.mark.parametrize("width", [40, 57, 78, 198])
def test_no_line_is_wider_than_the_paper(width):
    step = StepBar("[/x] a very long step", 12, "99 % (98–100) of the step before", "word " * 40)
    assert all(len(line) <= width for line in drawn(step, 12, width))
