"""LibreOffice, made to calculate every cell anew, shows what we stored."""

from pathlib import Path

import pytest

from sheetgen.declare.entry import place_of
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from sheetgen.workbook.read.file import read
from tests.edits import edited
from tests.referee.books import FILES, LEAST_FORMULAS, computed_cells, differing, errors, file_bytes, plain, stored
from tests.referee.office import needs_office, recalculated

pytestmark = [pytest.mark.libreoffice, pytest.mark.long]

NOT_DONE: dict[str, str] = {}
"""Sheet -> why LibreOffice cannot do it. Nothing: it does every sheet and every function that we write."""
SPOILED = "spoiled.xlsx"
WRONG = 987654


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[Path, Path]]:
    """Each file as we wrote it and as LibreOffice saved it, in one run; and one with a wrong stored value."""
    needs_office()
    folder = tmp_path_factory.mktemp("office")
    paths = [folder / f"{name}.xlsx" for name in FILES]
    for name, path in zip(FILES, paths, strict=True):
        path.write_bytes(file_bytes(name))
    spoiled = folder / SPOILED
    edited(BOOK, paths[0], [Edit("order.pieces", "shows", WRONG)], spoiled)
    saved = recalculated([*paths, spoiled], folder)
    return dict(zip([*FILES, SPOILED], zip([*paths, spoiled], saved, strict=True), strict=True))


@pytest.mark.parametrize("name", FILES)
def test_libreoffice_agrees_on_every_computed_cell(name: str, both: dict[str, tuple[Path, Path]]) -> None:
    written, saved = both[name]
    cells = [cell for cell in computed_cells(written) if cell[0] not in NOT_DONE]
    assert len(cells) > LEAST_FORMULAS
    ours, theirs = stored(written, cells), stored(saved, cells)
    assert errors(ours) == []
    assert errors(theirs) == []
    assert differing(ours, theirs) == []


def test_it_does_calculate_and_not_only_repeat_what_is_stored(both: dict[str, tuple[Path, Path]]) -> None:
    place = place_of("order.pieces")
    written, _ = both[FILES[0]]
    got = read(BOOK, written)
    cell = got.where.at(place)
    assert cell is not None
    name = (cell.sheet, cell.address)
    spoiled, saved = both[SPOILED]
    assert stored(spoiled, [name])[name] == WRONG
    assert stored(saved, [name])[name] == plain(got.shown[place]) != WRONG
