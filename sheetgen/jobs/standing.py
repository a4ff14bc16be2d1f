"""Standing: where each style in a folder stands, and the next step with the command to copy."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from pathlib import Path

from sheetgen.texts import say
from sheetgen.workbook.exchange.receipts import RECEIPT_ENDING, Head, heads_in
from sheetgen.workbook.read.record import record_of


@dataclass
class Standing:
    """What is known of one style in a folder."""

    style: str
    name: str = ""
    working: list[tuple[int, Path]] = field(default_factory=list)
    issues: list[Head] = field(default_factory=list)
    returned: list[tuple[str, Path]] = field(default_factory=list)

    @property
    def newest(self) -> tuple[int, Path] | None:
        """The working workbook with the highest revision."""
        return max(self.working, default=None)

    @property
    def open_issue(self) -> Head | None:
        """The last copy that was made of the newest revision."""
        revision = str(self.newest[0]) if self.newest else ""
        sent = [one for one in self.issues if one.revision == revision]
        return max(sent, key=lambda one: (one.issued, one.issue_id), default=None)

    @property
    def answer(self) -> Path | None:
        """What came back of that copy, and last."""
        sent = self.open_issue
        answers = [file for issue_id, file in self.returned if sent and issue_id == sent.issue_id]
        return max(answers, key=lambda file: file.stat().st_mtime, default=None)

    def situation(self) -> tuple[str, str]:
        """Where it stands in words, and the command for the next step."""
        newest = self.newest
        if newest is None:
            return say("no working workbook here"), say("sheetgen build BRIEF.toml")
        revision, path = newest
        receipt, newest_answer = self.open_issue, self.answer
        if receipt is None:
            return say("revision {revision}, not issued", revision=revision), say(
                "sheetgen issue {path}", path=_quoted(path)
            )
        if newest_answer is None:
            with_whom = say(
                "with {vendor} for {purpose}", vendor=receipt.vendor or say("the vendor"), purpose=receipt.purpose
            )
            words = say(
                "revision {revision}, {with_whom} until {due}",
                revision=revision,
                with_whom=with_whom,
                due=receipt.due or say("no date"),
            )
            return words, say("sheetgen audit RETURNED.xlsx  (when it is back)")
        words = say(
            "revision {revision}, answer of {vendor} is here",
            revision=revision,
            vendor=receipt.vendor or say("the vendor"),
        )
        return (
            words,
            say(
                "sheetgen audit {newest_answer}  then  sheetgen accept {path} {newest_answer}",
                newest_answer=_quoted(newest_answer),
                path=_quoted(path),
            ),
        )


def _quoted(path: Path) -> str:
    text = path.name
    return f'"{text}"' if " " in text else text


def standings(folder: Path) -> list[Standing]:
    """All styles whose workbooks or receipts lie in the folder, by style number."""
    found: dict[str, Standing] = defaultdict(lambda: Standing(""))
    heads = list(heads_in(folder))
    for head, _ in heads:
        standing = found[head.style]
        standing.style = head.style
        standing.issues.append(head)
    sent = {path.name.removesuffix(RECEIPT_ENDING) + ".xlsx" for _, path in heads}
    for path in sorted(folder.glob("*.xlsx")):
        record = record_of(path)
        style = str(record.get("style") or (record.get("receipt") or {}).get("style") or "")
        if not style:
            continue
        standing = found[style]
        standing.style = style
        if record.get("kind") == "working":
            standing.name = str(record.get("name") or "")
            standing.working.append((int(record.get("revision") or 0), path))
        elif path.name not in sent:
            standing.returned.append((str(record.get("issue_id") or ""), path))
    return [found[style] for style in sorted(found)]


def newest_below(folder: Path) -> list[Path]:
    """The working workbook with the highest revision of each style, in a folder and in those below it."""
    newest: dict[tuple[Path, str], tuple[int, Path]] = {}
    for path in sorted(folder.rglob("*.xlsx")):
        record = record_of(path)
        if record.get("kind") == "working":
            style, found = (path.parent, str(record.get("style") or path)), (int(record.get("revision") or 0), path)
            newest[style] = max(newest.get(style, found), found)
    return [path for _, path in newest.values()]


def answered_below(folder: Path) -> list[tuple[Path, Path]]:
    """Of each style in a folder and in those below it whose answer is there: the newest working workbook, and the answer."""
    folders = sorted({path.parent for path in folder.rglob(f"*{RECEIPT_ENDING}")})
    found = (standing for one in folders for standing in standings(one))
    return [(one.newest[1], one.answer) for one in found if one.newest and one.answer]
