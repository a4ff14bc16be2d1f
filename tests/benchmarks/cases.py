"""The commands that are measured, and for each the peers: what general libraries need at least for the same job."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.benchmarks.stage import HERE, STYLE, Stage
from tests.benchmarks.timing import Program

Steps = Callable[[Path], Iterable[str]]
"""The steps of bare.py for a stage's folder."""


@dataclass(frozen=True)
class Peer:
    """What the least is held to be: a name for the tables, and the steps of bare.py or the interpreter's words."""

    name: str
    steps: Steps = lambda _: ()
    words: tuple[str, ...] = ()

    def program(self, folder: Path) -> Program:
        """The peer as it is started in a stage's folder."""
        words = self.words or ("-I", str(HERE / "bare.py"), *self.steps(folder))
        return Program((sys.executable, *words), folder)


@dataclass(frozen=True)
class Case:
    """A command as a person types it, its peers, and whether its calls of xlsxwriter are recorded for them.

    Files that are `anew` were not read before; the others were, by the command that comes before this one in a loop.
    """

    name: str
    words: tuple[str, ...]
    peers: tuple[Peer, ...] = ()
    recorded: bool = False
    folder: str = "."
    statuses: tuple[int, ...] = (0,)
    most_rounds: int = 99
    """Fewer rounds than asked for where one takes long."""
    anew: tuple[str, ...] = ()

    def program(self, stage: Stage) -> Program:
        """The command as it is started."""
        folder = stage.folder / self.folder
        return stage.sheetgen(*self.words, folder=folder, statuses=self.statuses, anew=self.anew)

    def record(self, stage: Stage) -> None:
        """Note what it asks of xlsxwriter, and what programs it starts."""
        (stage.folder / "bare").mkdir(exist_ok=True)
        stage.script("recording.py", self.name, *self.words).run()


def _writing(name: str, *before: str) -> Steps:
    return lambda _: (*before, f"write={name}.calls::bare")


def _season(folder: Path) -> Iterator[str]:
    """The hidden record of every workbook, and every receipt."""
    for path in sorted((folder / "season").glob("*.xlsx")):
        yield f"sheets=season/{path.name}::Record"
    for path in sorted((folder / "season").glob("*.receipt.json")):
        yield f"receipt=season/{path.name}"


def _season_with_figures(folder: Path) -> Iterator[str]:
    yield from _season(folder)
    for path in sorted((folder / "season").glob("*-working.xlsx")):
        yield f"sheets=season/{path.name}::Order,Quote,Pricing"


def _demo(folder: Path) -> Iterator[str]:
    """All books written; every return read as an audit does, every other book as an issue does."""
    yield "write=demo.calls::bare"
    for path in sorted((folder / "demo").glob("*.xlsx")):
        yield f"{'formulas' if '-returned-' in path.name else 'values'}=demo/{path.name}"


def _audit(path: str) -> tuple[Peer, ...]:
    calculated = (f"values={path}", f"calculated={path}")
    return (
        Peer("formulas, stored values and values calculated anew, by formualizer and calamine", lambda _: (f"formulas={path}",)),
        Peer("read-only openpyxl, calamine, formualizer", lambda _: (f"streamed={path}", *calculated)),
        Peer("openpyxl without borders, calamine, formualizer", lambda _: (f"loaded={path}", *calculated)),
    )  # fmt: skip


def _out(name: str) -> tuple[str, ...]:
    return ("--out", name, "--replace")


_WORKING, _CLEAN, _FAULTY = "working.xlsx", "returned-clean.xlsx", "returned-faulty.xlsx"
_READ = f"values={_WORKING}"
_RECEIPT = ("--receipt", "issued.receipt.json")
_LAYS = ("--plies", "60", "--garments", "6", "--over", "2%", "--material", "M1")
_WRITTEN = "xlsxwriter, the recorded calls"
_READ_AND_WRITTEN = "calamine reads, xlsxwriter makes the recorded calls"
_AUDITED = (0, 1)

CASES: tuple[Case, ...] = (
    Case("build", ("build", f"inputs/{STYLE}/brief.toml", *_out("built.xlsx")),
         (Peer(_WRITTEN, _writing("build")),), recorded=True),
    Case("start", ("start", "sweatshirt", *_out("started.xlsx")), (Peer(_WRITTEN, _writing("start")),), recorded=True),
    Case("issue", ("issue", _WORKING, *_out("issued-again.xlsx")),
         (Peer(_READ_AND_WRITTEN, _writing("issue", _READ)),), recorded=True, anew=(_WORKING,)),
    Case("audit clean", ("audit", _CLEAN, *_RECEIPT), _audit(_CLEAN), statuses=_AUDITED, anew=(_CLEAN,)),
    Case("audit faulty", ("audit", _FAULTY, *_RECEIPT), _audit(_FAULTY), statuses=_AUDITED, anew=(_FAULTY,)),
    Case("audit again", ("audit", _CLEAN, *_RECEIPT), _audit(_CLEAN)[:1], statuses=_AUDITED),
    Case("accept", ("accept", _WORKING, _CLEAN, *_RECEIPT, *_out("next.xlsx")),
         (Peer(_READ_AND_WRITTEN, _writing("accept", _READ, f"values={_CLEAN}")),), recorded=True),
    Case("accept unread", ("accept", _WORKING, _CLEAN, *_RECEIPT, *_out("unread.xlsx")),
         (Peer(_READ_AND_WRITTEN, _writing("accept unread", _READ, f"values={_CLEAN}")),), recorded=True,
         anew=(_WORKING, _CLEAN)),
    Case("marker", ("marker", _WORKING, "--material", "M1", "--effort", "2", *_out("marked.xlsx")),
         (Peer("calamine, the searches alone, xlsxwriter", _writing("marker", _READ, "programs=marker.programs")),),
         recorded=True),
    Case("cutplan", ("cutplan", _WORKING, *_LAYS, *_out("planned.xlsx")),
         (Peer("calamine and xlsxwriter, without any planning", _writing("cutplan", _READ)),), recorded=True,
         most_rounds=3),
    Case("season", ("season", "season"), (Peer("calamine reads records and three sheets", _season_with_figures),),
         most_rounds=3),
    Case("look", (), (Peer("calamine reads records", _season),), folder="season"),
    Case("help", ("--help",), (Peer("`python -c pass`", words=("-c", "pass")),
                               Peer("`python -I -c pass`", words=("-I", "-c", "pass")))),
    Case("demo", ("demo", "--out", "demo"),
         (Peer("calamine, formualizer, xlsxwriter, without searches and planning", _demo),), recorded=True, most_rounds=3),
)  # fmt: skip
"""In the order of the table. `look` is sheetgen without arguments, in the folder of the season's styles."""

SHORTCUTS: tuple[tuple[str, str, str], ...] = (
    (
        "formulas written as they are: xlsxwriter's searches for newer functions and for those that spill are left out",
        "yes",
        "yes",
    ),
    ("addresses and numbers of formats written as they are: no search for signs to escape", "yes", "yes"),
    ("books made in memory; texts never searched for addresses; the library's usual zip level", "yes", "yes"),
    ("borders taken out before openpyxl loads a file", "yes", "yes, in the peer that loads"),
    (
        "fonts, fills and workbook names taken out too: an own pass has read them",
        "yes",
        "no: it would have to read them",
    ),
    ("openpyxl reads by the parser written in C, not by the guarded one", "yes, after an own guard", "yes, unguarded"),
    ("stored values read by calamine, not by a second openpyxl load", "yes", "yes"),
    (
        "a file of the same bytes is not taken apart a second time",
        "yes, but for the files that are not read before",
        "no",
    ),
    (
        "drawings of the same figures are kept, and the proof that the declared book is sound",
        "yes",
        "takes pictures as recorded, proves nothing",
    ),
    ("openpyxl's way for reading only", "no: it tells no merged cells, pictures and protection", "measured, one peer"),
    ("one calculation of what came back", "of what was sent too", "yes"),
    ("the collector of unused memory switched off", "no", "yes"),
    ("interpreter isolated (`-I`): no search of the person's own folders", "no", "yes"),
    ("values of formulas, pictures drawn from figures", "worked out", "taken from the recorded calls"),
    ("reading of the recorded calls", "-", "taken off: a script would hold them"),
    ("xlsxwriter's constant_memory", "no", "no: rows must come in order, what comes late is lost; not faster either"),
)
"""What makes the job shorter: sheetgen's side, the peer's side."""
