"""The keys of a sheet."""

from textual.binding import Binding, BindingType

LINE_KEYS: list[BindingType] = [
    Binding("f", "part('full')", "full", tooltip="Took part in full", id="sheet.full"),
    Binding(
        "l",
        "part('limited')",
        "limited",
        tooltip="Took part in part; then the letter of the reason",
        id="sheet.limited",
    ),
    Binding(
        "o", "part('out')", "out", tooltip="Out; then the letter of the reason", id="sheet.out"
    ),
    Binding(
        "w",
        "worn",
        "worn",
        tooltip="Guard worn or not; of several, the next choice",
        id="sheet.worn",
    ),
    Binding(
        "W,shift+w",
        "choose_worn",
        "which guards",
        key_display="W",
        show=False,
        tooltip="Choose among several guards",
        id="sheet.choose_worn",
    ),
    Binding(
        "n",
        "number('minutes')",
        "min",
        tooltip="Minutes played, then digits",
        id="sheet.minutes",
    ),
    Binding(
        "p", "number('plays')", "plays", show=False, tooltip="Plays, then digits", id="sheet.plays"
    ),
    Binding(
        "minus",
        "not_recorded",
        "none",
        key_display="-",
        tooltip="Not recorded: nothing is written",
        id="sheet.not_recorded",
    ),
    Binding(
        "slash",
        "jump",
        "find",
        key_display="/",
        tooltip="Jump to letters of a name; a jersey number jumps alone",
        id="sheet.jump",
    ),
    Binding(
        "F,shift+f",
        "all_full",
        "all full",
        key_display="F",
        show=False,
        tooltip="Everybody full; F again takes that back",
        id="sheet.all_full",
    ),
]
"""Keys that change the line under the cursor, or go to another."""

SHEET_KEYS: list[BindingType] = [
    Binding("ctrl+s", "save", "save", key_display="^s", tooltip="Save the sheet", id="sheet.save"),
    Binding(
        "question_mark",
        "app.help",
        "help",
        key_display="?",
        tooltip="What is on this screen",
        id="sheet.help",
    ),
    Binding(
        "escape,q",
        "leave",
        "leave",
        key_display="Esc",
        tooltip="Back; what is not saved is asked about",
        id="sheet.leave",
    ),
]
"""Keys for the sheet as a whole."""
