"""Contents: what a specification workbook never carries: macros, links to other files, embedded objects; protection taken off."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule


@rule(
    title="The file carries a macro",
    level="fix",
    source="FAST standard 4.06; ICAEW Twenty principles",
    message="The file carries program code (a macro).",
    why="Code in a workbook can do anything on the computer that opens it.",
    asked="Save the file as .xlsx, without macros, and send it again.",
    fix="Do not open it with macros allowed; ask for a copy saved as .xlsx without them.",
    bad=(Example("a macro part in the file", {"the file": Do("add-macro")}, ("macro-inside",)),),
    fine=(Example("no macro"),),
)
def macro_inside(case: Case) -> Iterator[Fault]:
    if case.got.contents.macros:
        yield Fault(None)


@rule(
    title="The file points to other files",
    level="fix",
    source="FAST standard; ICAEW Twenty principles",
    message="The file points to another file or a data source.",
    why="What it shows depends on a file that you do not have, and it may fetch things unasked.",
    asked="Take out what points to other files, and send it again.",
    fix="Ask for a copy without links to other files.",
    bad=(Example("a link to another workbook", {"the file": Do("add-link")}, ("outside-link",)),),
    fine=(Example("no links"),),
)
def outside_link(case: Case) -> Iterator[Fault]:
    if case.got.contents.external_links or case.got.contents.connections:
        yield Fault(None)


@rule(
    title="The file has something embedded",
    level="fix",
    source="common practice",
    message="The file carries an embedded object or control.",
    why="An embedded object can be a program or a whole other document.",
    asked="Take the object out and send the file again; pictures are welcome as pictures.",
    fix="Ask for a copy without it; pictures are welcome as pictures.",
    bad=(Example("an embedded object", {"the file": Do("add-object")}, ("object-inside",)),),
    fine=(Example("nothing embedded"),),
)
def object_inside(case: Case) -> Iterator[Fault]:
    if case.got.contents.embedded:
        yield Fault(None)


@rule(
    title="The protection was taken off",
    level="note",
    source="common practice",
    message="The sheet {found} is no longer protected.",
    why="Locked cells could be changed; each change is listed on its own.",
    fix="Nothing, if no locked cell was changed.",
    bad=(Example("a sheet unprotected", {"order": Do("unlock")}, ("protection-off Order",)),),
    fine=(Example("all sheets protected"),),
)
def protection_off(case: Case) -> Iterator[Fault]:
    if case.own:
        return
    for title in sorted(case.got.unlocked):
        yield Fault(None, "", title, sheet=title)


RULES = (macro_inside, outside_link, object_inside, protection_off)
