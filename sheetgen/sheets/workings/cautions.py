"""Steps of the cautions: what the style's name and description say, and parts that a child can swallow."""

from __future__ import annotations

from sheetgen.declare.entry import computed
from sheetgen.declare.kinds import whole
from sheetgen.declare.parts import Form

WORDS = {
    "organic": "organic", "recycled": "recycled", "flame": "flame", "waterproof": "waterproof", "uv": "UV ",
    "brushed": "brushed", "fleece": "fleece", "napped": "napped",
}  # fmt: skip
"""Name of the step -> the word that is looked for."""
SMALL_PARTS = ("button", "snap", "zip", "cord stopper")

# With &"" a blank cell is an empty text: one that is not filled yet must not silence the cautions that the others raise.
_SAID = 'style.name&""&" "&style.description&""'

FOR_CAUTIONS = Form("For the cautions", (
    *(computed(f"says_{name}", f"The style's words hold: {word.strip()}", whole(), f'IF(ISERROR(SEARCH("{word}",{_SAID})),0,1)')
      for name, word in WORDS.items()),
    computed("small_parts", "Buttons, snaps, zips, stoppers", whole(),
             "+".join(f'COUNTIFS(materials.bom.kind,"{kind}")' for kind in SMALL_PARTS)),
))  # fmt: skip
