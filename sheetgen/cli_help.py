"""What `sheetgen --help` shows, and the page made of it without the library that reads the command line.

Loading that library takes three times as long as starting Python. `tests/test_cli_help.py` holds the page to what the
library prints of the same words.
"""

from __future__ import annotations

from sheetgen.texts import marked, say

COMMANDS: dict[str, str] = {
    "demo": marked("Go once round the loop with the sample styles, to see what it is."),
    "start": marked("Begin a style from a garment's usual points, seams and materials."),
    "build": marked("Make a working workbook from a brief, or anew from a working workbook."),
    "marker": marked("Lay the cut pieces on the fabric: its use, worked out instead of guessed."),
    "cutplan": marked("Plan the lays that cut the order, and put them into the working workbook."),
    "issue": marked("Make the vendor's locked copy, without anything private, and its receipt."),
    "pack": marked("Typeset the pages that lie on the factory's table, as one PDF."),
    "audit": marked("Say what is wrong with a file that came back, cell by cell."),
    "accept": marked("Take what is good in a return into the next revision."),
    "join": marked("Put together what two people changed in two copies of one working workbook."),
    "compare": marked("Put several vendors' returns side by side, or list where two workbooks differ."),
    "season": marked("Show all styles below a folder in one table."),
    "rules": marked("List the audit's rules, or explain one."),
    "sheets": marked("List the sheets, or explain one."),
}
"""Each command in one line, in the order of work."""

ABOUT = (
    marked("Build a garment's specification workbook, issue it, audit what comes back, accept what is good."),
    marked("Without a command: where each style in this folder stands, and the next step."),
)
"""The paragraphs on top of the page."""
EPILOG = marked("Example: sheetgen demo --out outputs")
ARGUMENTS = "[COMMAND] [ARGS]..."
HELP_OPTIONS = ("-h", "--help")
MOST_COLUMNS = 100

_OPTIONS = {
    "--version": marked("Show the version and exit."),
    ", ".join(HELP_OPTIONS): marked("Show this message and exit."),
}
_LEAST_COLUMNS, _MARGIN, _INDENT = 50, 2, 2
_LEAST_OF_A_LINE = 10


def help_page(columns: int) -> str:
    """The page for a terminal of so many columns, with a line end at its end."""
    width = max(min(columns, MOST_COLUMNS) - _MARGIN, _LEAST_COLUMNS)
    parts = [
        [say("Usage: sheetgen [OPTIONS] {arguments}", arguments=ARGUMENTS)],
        *(_wrapped(say(paragraph), width, _INDENT) for paragraph in ABOUT),
        ["Options:", *_listed(_OPTIONS, width)],
        ["Commands:", *_listed(COMMANDS, width)],
        _wrapped(say(EPILOG), width, _INDENT),
    ]
    return "\n\n".join("\n".join(lines) for lines in parts) + "\n"


def _listed(words: dict[str, str], width: int) -> list[str]:
    """Names and, in a column beside them, what they mean."""
    column = max(map(len, words)) + _INDENT
    room = max(width - _INDENT - column, _LEAST_OF_A_LINE)
    lines = []
    for name, meaning in words.items():
        first, *more = _wrapped(say(meaning), room, 0)
        lines.append(" " * _INDENT + name.ljust(column) + first)
        lines += [" " * (_INDENT + column) + line for line in more]
    return lines


def _wrapped(text: str, width: int, indent: int) -> list[str]:
    """The words of a text in lines of at most so many characters."""
    lines = [" " * indent]
    for word in text.split():
        line = lines[-1]
        fresh = line.isspace() or not line
        if not fresh and len(line) + 1 + len(word) > width:
            lines.append(" " * indent + word)
        else:
            lines[-1] = line + word if fresh else f"{line} {word}"
    return lines
