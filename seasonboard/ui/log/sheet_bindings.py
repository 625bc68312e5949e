"""The keys of a sheet."""

from seasonboard.ui.keys import bindings, key

_LIMITED = "Took part in part; then the letter of the reason"
_WORN = "Guard worn or not; of several, the next choice"
_FIND = "Jump to letters of a name; a jersey number jumps alone"
LINE_KEYS = bindings(
    key("f", "part('full')", "full", "Took part in full", "sheet.full"),
    key("l", "part('limited')", "limited", _LIMITED, "sheet.limited"),
    key("o", "part('out')", "out", "Out; then the letter of the reason", "sheet.out"),
    key("w", "worn", "worn", _WORN, "sheet.worn"),
    key("W,shift+w", "choose_worn", "which guards", "Choose among several guards",
        "sheet.choose_worn", is_quiet=True, display="W"),
    key("n", "number('minutes')", "min", "Minutes played, then digits", "sheet.minutes"),
    key("p", "number('plays')", "plays", "Plays, then digits", "sheet.plays", is_quiet=True),
    key("minus", "not_recorded", "none", "Not recorded: nothing is written", "sheet.not_recorded",
        display="-"),
    key("slash", "jump", "find", _FIND, "sheet.jump"),
    key("F,shift+f", "all_full", "all full", "Everybody full; F again takes that back",
        "sheet.all_full", is_quiet=True, display="F"),
)  # fmt: skip
"""Keys that change the line under the cursor, or go to another."""

SHEET_KEYS = bindings(
    key("ctrl+s", "save", "save", "Save the sheet", "sheet.save", display="^s"),
    key("c", "complete", "wear of all", "Wear is recorded for everybody, or not",
        "sheet.complete", is_quiet=True),
    key("question_mark", "app.help", "help", "What is on this screen", "sheet.help", display="?"),
    key("escape,q", "leave", "leave", "Back; what is not saved is asked about", "sheet.leave",
        display="Esc"),
)  # fmt: skip
"""Keys for the sheet as a whole."""
