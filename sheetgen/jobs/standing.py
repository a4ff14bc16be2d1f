"""Standing: where each style in a folder stands, and the next step with the command to copy."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from sheetgen.errors import UserError
from sheetgen.workbook.exchange.issue import RECEIPT_ENDING, Receipt, load_receipt
from sheetgen.workbook.read.record import record_of


@dataclass
class Standing:
    """What is known of one style in a folder."""

    style: str
    name: str = ""
    working: list[tuple[int, Path]] = field(default_factory=list)
    issues: list[tuple[Receipt, Path]] = field(default_factory=list)
    returned: list[tuple[str, Path]] = field(default_factory=list)

    @property
    def newest(self) -> tuple[int, Path] | None:
        """The working workbook with the highest revision."""
        return max(self.working, default=None)

    def situation(self) -> tuple[str, str]:
        """Where it stands in words, and the command for the next step."""
        newest = self.newest
        if newest is None:
            return "no working workbook here", "sheetgen build BRIEF.toml"
        revision, path = newest
        open_issues = [receipt for receipt, _ in self.issues if receipt.revision == str(revision)]
        if not open_issues:
            return f"revision {revision}, not issued", f"sheetgen issue {_quoted(path)}"
        receipt = max(open_issues, key=lambda one: (one.issued, one.issue_id))
        answers = [file for issue_id, file in self.returned if issue_id == receipt.issue_id]
        if not answers:
            with_whom = f"with {receipt.vendor or 'the vendor'} for {receipt.purpose}"
            words = f"revision {revision}, {with_whom} until {receipt.due or 'no date'}"
            return words, "sheetgen audit RETURNED.xlsx  (when it is back)"
        newest_answer = max(answers, key=lambda file: file.stat().st_mtime)
        words = f"revision {revision}, answer of {receipt.vendor or 'the vendor'} is here"
        return (
            words,
            f"sheetgen audit {_quoted(newest_answer)}  then  sheetgen accept {_quoted(path)} {_quoted(newest_answer)}",
        )


def _quoted(path: Path) -> str:
    text = path.name
    return f'"{text}"' if " " in text else text


def standings(folder: Path) -> list[Standing]:
    """All styles whose workbooks or receipts lie in the folder, by style number."""
    found: dict[str, Standing] = defaultdict(lambda: Standing(""))
    receipts = list(_receipts(folder))
    for receipt, path in receipts:
        standing = found[receipt.style]
        standing.style = receipt.style
        standing.issues.append((receipt, path))
    sent = {path.name.removesuffix(RECEIPT_ENDING) + ".xlsx" for _, path in receipts}
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


def _receipts(folder: Path) -> Iterator[tuple[Receipt, Path]]:
    for path in sorted(folder.glob(f"*{RECEIPT_ENDING}")):
        try:
            yield load_receipt(path), path
        except UserError:
            continue
