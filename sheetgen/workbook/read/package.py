"""The package: a file's parts, opened only within limits, and what points from one to another.

Limits come from measured hostile files: white space that unpacks to gigabytes, parts without number.
"""

from __future__ import annotations

import posixpath
import re
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.read.hardened import BrokenError, UnsafeError, odd, parse
from sheetgen.workbook.read.loaded import Contents

MOST_BYTES = 60_000_000
MOST_PARTS = 3000
MOST_EXPANDED = 200_000_000
MOST_RATIO = 300
MOST_XML = 40_000_000
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_XML = re.compile(rb"[\xef\xbb\xbf\xff\xfe\x00 \t\r\n]*<")
"""What begins so may be XML, in any encoding, however long the blanks before it are."""
_MACRO_PART = re.compile(rb"<Override[^<>]{0,400}vbaProject")
"""A part that is program code whatever it is called; programs list kinds of parts by ending that their files do not hold."""


@dataclass(frozen=True)
class Relation:
    """Where a part points: of what sort (the last word of its type), to which part or address outside."""

    sort: str
    target: str
    outside: bool


@dataclass(frozen=True)
class Package:
    """The parts of a file by name."""

    path: Path
    parts: Mapping[str, bytes]
    _relations: dict[str, dict[str, Relation]] = field(default_factory=dict)

    def relations(self, part: str) -> Mapping[str, Relation]:
        """What a part points to, by the id that it is called by; nothing where that cannot be read."""
        if part not in self._relations:
            folder, _, name = part.rpartition("/")
            content = self.parts.get(f"{folder}/_rels/{name}.rels" if folder else f"_rels/{name}.rels", b"")
            self._relations[part] = dict(_relations(content, folder)) if content else {}
        return self._relations[part]

    @property
    def workbook(self) -> str:
        """The part that lists the sheets."""
        main = next((one.target for one in self.relations("").values() if one.sort == "officeDocument"), "")
        return main if main in self.parts else "xl/workbook.xml"

    @property
    def contents(self) -> Contents:
        """What the package carries besides its sheets."""
        names, types = self.parts, self.parts.get("[Content_Types].xml", b"")
        return Contents(
            macros=any(name.endswith(("vbaProject.bin", ".vba")) for name in names) or bool(_MACRO_PART.search(types)),
            external_links=any(name.startswith("xl/externalLinks/") for name in names),
            embedded=any(name.startswith(("xl/embeddings/", "xl/activeX/")) for name in names),
            connections=any(name == "xl/connections.xml" or name.startswith("xl/queryTables/") for name in names),
        )


def _relations(content: bytes, folder: str) -> Iterator[tuple[str, Relation]]:
    found: list[tuple[str, Relation]] = []

    def start(name: str, attributes: Mapping[str, str]) -> None:
        if name == "Relationship":
            target, outside = attributes.get("Target", ""), attributes.get("TargetMode", "").lower() == "external"
            if not outside:
                target = posixpath.normpath(target.lstrip("/") if target.startswith("/") else f"{folder}/{target}")
            sort = attributes.get("Type", "").rpartition("/")[2]
            found.append((attributes.get("Id", ""), Relation(sort, target.lstrip("/"), outside)))

    try:
        parse(content, start)
    except BrokenError:
        return iter(())
    return iter(found)


def unusable(path: Path, what: str) -> UserError:
    """A file that cannot be used: half a sentence that says what is wrong and the way out."""
    return UserError(f"{path}: {what}.", status=3)


def start_of(path: Path) -> bytes:
    """A file's first bytes; UserError (status 3) if it cannot be read, is empty or too large."""
    try:
        if path.is_dir():
            raise unusable(path, say("is a folder; name the workbook in it"))
        if path.stat().st_size > MOST_BYTES:
            raise unusable(
                path, say("is larger than {megabytes} MB; make its pictures smaller", megabytes=MOST_BYTES // 1_000_000)
            )
        with path.open("rb") as file:
            start = file.read(8)
    except FileNotFoundError:
        raise unusable(path, say("there is no such file; check the name")) from None
    except (OSError, ValueError):
        raise unusable(path, say("cannot be read; check whether another program holds it open")) from None
    if not start:
        raise unusable(path, say("is empty; ask for it to be sent again"))
    return start


def open_package(path: Path) -> Package:
    """A file's parts, every one of XML looked at. UserError (status 3) if the file cannot or must not be opened."""
    start = start_of(path)
    if start.startswith(_OLE):
        raise unusable(path, say("is an old binary file; save it as .xlsx without a password"))
    if not start.startswith(b"PK"):
        raise unusable(path, say("is not a workbook; save it as .xlsx in the spreadsheet program and send that"))
    try:
        with zipfile.ZipFile(path) as package:
            return Package(path, _parts(path, package))
    except UnsafeError as error:
        raise unusable(path, str(error)) from None
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, NotImplementedError, RuntimeError, ValueError):
        raise unusable(path, say("is damaged; ask for it to be sent again")) from None


def _parts(path: Path, package: zipfile.ZipFile) -> dict[str, bytes]:
    entries = package.infolist()
    names = [entry.filename for entry in entries]
    if "mimetype" in names and b"opendocument" in package.open("mimetype").read(80):
        raise unusable(
            path,
            say("is an OpenDocument file, but no spreadsheet; save it as .xlsx or .ods in the spreadsheet program"),
        )
    if "[Content_Types].xml" not in names or not any(name.startswith("xl/workbook") for name in names):
        raise unusable(path, say("is not a workbook; save it as .xlsx in the spreadsheet program and send that"))
    if len(entries) > MOST_PARTS or len(set(names)) != len(names):
        raise odd()
    if sum(entry.file_size for entry in entries) > MOST_EXPANDED or any(
        entry.file_size > MOST_RATIO * max(entry.compress_size, 4096) for entry in entries
    ):
        raise UnsafeError(say("unpacks to far more than a workbook holds; ask for it to be saved again"))
    return {entry.filename: _part(package, entry) for entry in entries}


def _part(package: zipfile.ZipFile, entry: zipfile.ZipInfo) -> bytes:
    if entry.flag_bits & 1:
        raise UnsafeError(say("is protected with a password; save it without one"))
    content = package.read(entry)
    if is_xml(content) and len(content) > MOST_XML:
        raise UnsafeError(say("holds more than any specification workbook; ask for the workbook itself"))
    return content


def is_xml(content: bytes) -> bool:
    """Whether a part is XML, in whatever encoding, whatever its name is."""
    return _XML.match(content) is not None


def checked(package: Package, seen: frozenset[str]) -> None:
    """Look at all parts of XML that nobody has looked at: what must not be there is refused, what is broken passed over."""
    for name, content in package.parts.items():
        if name in seen or not is_xml(content):
            continue
        try:
            parse(content)
        except BrokenError:
            continue
        except UnsafeError as error:
            raise unusable(package.path, str(error)) from None
