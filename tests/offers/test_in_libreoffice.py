"""LibreOffice, made to calculate every cell anew, shows what the comparison stores."""

import pytest

from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from tests.edits import edited
from tests.offers.returns import compared, three_compared, three_returns
from tests.referee.books import computed_cells, differing, errors, stored
from tests.referee.office import needs_office, recalculated

pytestmark = [pytest.mark.libreoffice, pytest.mark.long]


def test_libreoffice_agrees_on_every_computed_cell(tmp_path):
    needs_office()
    complete, gaps = tmp_path / "complete.xlsx", tmp_path / "gaps.xlsx"
    complete.write_bytes(three_compared().data)
    folder = three_returns(tmp_path / "returns")
    # A vendor without a price, one whose currency has no rate, and a working workbook without freight.
    edited(BOOK, folder / "a-working.xlsx", [Edit("pricing.freight", "type", None)], folder / "d-working.xlsx")
    edited(
        BOOK,
        folder / "a-returned.xlsx",
        [Edit("quote.fob", "type", "25,80"), Edit("quote.ladder[U2].price", "type", None)],
        folder / "d.xlsx",
    )
    edited(BOOK, folder / "b-returned.xlsx", [Edit("quote.currency", "type", "GBP")], folder / "e.xlsx")
    offers = compared(folder / "d-working.xlsx", folder / "d.xlsx", folder / "e.xlsx", folder / "c-returned.xlsx")
    assert [offers.of("offers.rank", vendor) for vendor in offers.vendors] == ["", "", 1]
    gaps.write_bytes(offers.data)
    for written, saved in zip((complete, gaps), recalculated([complete, gaps], tmp_path), strict=True):
        cells = computed_cells(written)
        assert len(cells) > 400
        ours, theirs = stored(written, cells), stored(saved, cells)
        assert errors(ours) == []
        assert errors(theirs) == []
        assert differing(ours, theirs) == []
