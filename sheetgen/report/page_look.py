"""The page's look: our palette as one style sheet, for screens light and dark, for a phone and for paper."""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.workbook.model.look import BAD, BAND, BAND_TEXT, GOOD, HEADING, INK, ROLES, RULE, SECTION

LIGHT: Mapping[str, str] = {
    "paper": "#FFFFFF", "soft": HEADING, "section": SECTION, "ink": INK, "faint": "#56636B", "rule": RULE,
    "band": BAND, "band-text": BAND_TEXT, "link": BAND, "good": GOOD,
    "fix": BAD, "fix-text": "#7A1F10", "query": ROLES["vendor"].to_fill, "query-text": "#4F3A00",
    "note": ROLES["designer"].to_fill, "note-text": "#153E54",
}  # fmt: skip
DARK: Mapping[str, str] = {
    "paper": "#161E23", "soft": "#1F2A31", "section": BAND, "ink": "#E6ECEF", "faint": "#A9B6BD",
    "rule": "#3D4C55", "band": "#243A45", "band-text": BAND_TEXT, "link": "#A8CFE0", "good": "#24432F",
    "fix": "#5C2118", "fix-text": "#FFD9D0", "query": "#5A4300", "query-text": "#FFE7B3",
    "note": "#1E4357", "note-text": "#D3EAF6",
}  # fmt: skip


def style_sheet() -> str:
    """The whole style sheet; it asks for nothing outside the page."""
    return (
        f":root {{ color-scheme: light dark; {_colors(LIGHT)} }}\n"
        f"@media screen and (prefers-color-scheme: dark) {{ :root {{ {_colors(DARK)} }} }}\n"
        f"{_SHEET}"
    )


def _colors(colors: Mapping[str, str]) -> str:
    return " ".join(f"--{name}: {color};" for name, color in colors.items())


_SHEET = """
* { box-sizing: border-box; }
html { font-size: 15px; }
body { margin: 0; background: var(--paper); color: var(--ink);
  font: 1rem/1.5 Arial, "Liberation Sans", Helvetica, sans-serif; overflow-wrap: break-word; }
.band { background: var(--band); color: var(--band-text); }
.band > *, main { max-width: 72rem; margin: 0 auto; padding: 0 1.5rem; }
.band > * { padding-top: 1rem; padding-bottom: 1rem; }
h1 { font-size: 1.35rem; line-height: 1.3; }
h2 { font-size: 1.25rem; line-height: 1.3; margin: 2rem 0 .5rem; overflow-wrap: anywhere; }
h3 { font-size: 1.05rem; margin: 1.75rem 0 .25rem; padding: .35rem .75rem; background: var(--section); }
h4 { font-size: 1rem; margin: 1rem 0 .35rem; }
p { margin: .35rem 0; }
a { color: var(--link); }
.facts { display: flex; flex-wrap: wrap; gap: .25rem 2rem; margin: .5rem 0; }
.facts dt { color: var(--faint); font-size: .85rem; }
.facts dd { margin: 0; font-weight: bold; overflow-wrap: anywhere; }
.sum { font-size: 1.1rem; font-weight: bold; margin: .75rem 0; }
.ready { background: var(--good); padding: .5rem .75rem; }
.warning { border-left: 4px solid var(--ink); background: var(--soft);
  padding: .5rem .75rem; margin: .75rem 0; }
table { width: 100%; border-collapse: collapse; }
.contents { width: auto; margin: .5rem 0; }
.contents th, .contents td { padding: .2rem .9rem .2rem .6rem; }
h4 { scroll-margin-top: .5rem; }
.findings { table-layout: fixed; }
.findings th:nth-child(1) { width: 6.5rem; }
.findings th:nth-child(2) { width: 24%; }
th { text-align: left; font-size: .85rem; color: var(--faint); background: var(--soft); }
td p:first-child { margin-top: 0; }
td p { margin: .2rem 0; }
th, td { padding: .5rem .6rem; vertical-align: top; border-bottom: 1px solid var(--rule); }
th.number, td.number { text-align: right; font-variant-numeric: tabular-nums; }
.level { display: inline-block; padding: .1rem .5rem; border: 1px solid currentColor; border-radius: 3px;
  font-size: .85rem; font-weight: bold; white-space: nowrap; print-color-adjust: exact; }
.fix { background: var(--fix); color: var(--fix-text); }
.query { background: var(--query); color: var(--query-text); }
.note { background: var(--note); color: var(--note-text); }
.place { overflow-wrap: anywhere; }
.faint { color: var(--faint); font-size: .9rem; }
.rule { white-space: nowrap; }
.values { display: grid; grid-template-columns: max-content 1fr; gap: 0 .6rem; margin: .2rem 0 0; }
.values dt { color: var(--faint); font-size: .9rem; }
.values dd { margin: 0; overflow-wrap: anywhere; }
@media screen and (max-width: 46rem) {
  .band > *, main { padding-left: 1rem; padding-right: 1rem; }
  .findings, .findings tbody, .findings tr, .findings td { display: block; }
  .findings thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .findings tr { border: 1px solid var(--rule); margin: 0 0 .6rem; padding: .35rem .6rem; }
  .findings td { border: 0; padding: .25rem 0; }
  .wide { overflow-x: auto; font-size: .85rem; }
  .wide th, .wide td { padding: .35rem .3rem; }
}
@page { size: A4; margin: 15mm; }
@media print {
  html { font-size: 9pt; }
  .band, .warning, h3, th, .ready { print-color-adjust: exact; }
  .band > *, main { max-width: none; padding-left: 0; padding-right: 0; }
  .band > * { padding: .5rem .75rem; }
  h2, h3, h4, thead { break-after: avoid; }
  thead { display: table-header-group; }
  tr, .warning { break-inside: avoid; }
  .file + .file { break-before: page; }
}
"""
