"""LibreOffice, made to calculate every cell anew, shows what the comparison stores."""

import pytest

from tests.offers.returns import three_compared
from tests.referee.books import computed_cells, differing, errors, stored
from tests.referee.office import needs_office, recalculated

pytestmark = pytest.mark.libreoffice


def test_libreoffice_agrees_on_every_computed_cell(tmp_path):
    needs_office()
    written = tmp_path / "offers.xlsx"
    written.write_bytes(three_compared().data)
    (saved,) = recalculated([written], tmp_path)
    cells = computed_cells(written)
    assert len(cells) > 400
    ours, theirs = stored(written, cells), stored(saved, cells)
    assert errors(theirs) == []
    assert differing(ours, theirs) == []
