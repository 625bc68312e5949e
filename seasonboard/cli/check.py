"""`seasonboard check`, the same as `seasonboard ask checks`."""

from seasonboard.answers.questions import CHECKS
from seasonboard.cli.ask import ask_command

check = ask_command(CHECKS)
