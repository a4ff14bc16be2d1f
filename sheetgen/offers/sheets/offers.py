"""Offers: the first sheet: who is cheapest, by how much, on what terms, and the same in one picture."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, fixed, per
from sheetgen.declare.kinds import date, money, number, percent, text, whole
from sheetgen.declare.parts import Form, Line, Sheet, Table, Words
from sheetgen.offers.sheets.carry import AXIS, answer, heading, worked
from sheetgen.offers.sheets.ledgers import line, side_by_side, with_steps

_TERMS = (
    "quote.term", "quote.place", "quote.payment", "style.origin", "quote.lead_time",
)  # fmt: skip
_LINES = text(18)


def _count(name: str, words: str) -> Line:
    return line(per(AXIS, fixed(name, words, whole())))


def _short_of(least: str, pieces: str) -> str:
    return f'IF(OR({least}.mine="",N({pieces})=0),"",IF({pieces}<{least}.mine,"order below","reached"))'


OFFERS = Sheet("offers", "Offers",
               purpose="Several vendors' returns of one style side by side. Type over any answer, rate or quantity: everything follows.", parts=with_steps(
    Words("Private: brand only. It holds the vendors' prices and the landed cost; send it to nobody.", ()),
    Form("The style", (
        fixed("number", "Style number", text()),
        fixed("name", "Name", text()),
        fixed("revision", "Revision", whole()),
        fixed("currency", "Currency", text()),
        designer("pieces", "Pieces ordered", whole(least=0), help="All prices and costs are at this quantity."),
        designer("smallest", "Smallest colorway, pieces", whole(least=0), help="Held against the vendors' minimum per colorway."),
        computed("cheapest", "Cheapest", text(),
                 'IF(COUNT(landed.compared.all)=0,"",INDEX(picture.vendors.name,MATCH(1,rank.all,0))&IF(SUMPRODUCT((rank.all=1)*1)>1," and others",""))'),
        computed("lead", "The next one costs more by", money(4), 'IF(COUNT(landed.compared.all)<2,"",SMALL(landed.compared.all,2)-MIN(landed.compared.all))'),
        computed("ranked_by", "Ranked by", text(60),
                 'IF(landed.by_landed="yes",'
                 '"Landed cost at the order\'s quantity, with its share of what is charged once",'
                 '"The vendors\' price: freight, insurance, duty, fees or inland transport are still blank on the sheet Landed cost")'),
    )),
    side_by_side(
        "Side by side, {currency}",
        line(per(AXIS, computed("rank", "Rank", whole(), 'IF(landed.compared.mine="","",RANK(landed.compared.mine,landed.compared.all,1))'), lowest=True)),
        line(worked("quote.price", lowest=True), "Vendor's price at the order's quantity"),
        line(per(AXIS, computed("landed_each", "Landed cost per garment", money(4), "landed.landed.mine"), lowest=True)),
        line(per(AXIS, computed("once_each", "Share of what is charged once", money(4), 'IF(N(pieces)=0,0,N(one_off.mine)/pieces)'))),
        line(per(AXIS, computed("total", "Landed cost with that share", money(4), "landed_each.mine+once_each.mine"), lowest=True)),
        line(per(AXIS, computed("more", "More than the cheapest", money(4), "landed.compared.mine-MIN(landed.compared.all)"))),
        line(per(AXIS, computed("more_share", "More than the cheapest, share", percent(1), "more.mine/MIN(landed.compared.all)"))),
        line(per(AXIS, computed("order_total", "The order, landed, with all charges", money(2), "landed.order_cost.mine+N(one_off.mine)"), lowest=True)),
        line(worked("materials.cost"), "Materials, lines with a price"),
        line(per(AXIS, computed("unpriced", "Material lines without a cost", whole(),
                                'SUMPRODUCT((lines.bom.item<>"")*(lines.bom.instead_of=""))-COUNT(lines.bom.counted.mine)'))),
        line(per(AXIS, computed("open", "Required entries missing", whole(),
                                'SUMPRODUCT((missing.items.state.mine<>"")*(missing.items.state.mine<>"given"))'))),
        line(per(AXIS, computed("changes", "Locked cells, rows or formulas changed", whole(),
                                "SUMPRODUCT((changed.items.who=INDEX(picture.vendors.name,mine))*1)"))),
        note="Freight, duty and fees begin alike for all vendors, as in Pricing: give each its own on the sheet Landed cost before you choose.",
    ),
    Table("rates", "Exchange rates", ref="X", key="code", spare=2,
          note="What one unit of that currency is worth in the style's currency, from the working workbook. Change a rate, and the ranking follows.", columns=(
        designer("code", "Currency", text(26)),
        designer("rate", "Rate", number(6, 0.000001)),
        designer("on", "On", date()),
        designer("from_where", "Source", text(14)),
    )),
    side_by_side(
        "Price, as quoted",
        line(answer("quote.currency")),
        line(worked("quote.exchange")),
        line(worked("quote.rate_on")),
        line(answer("quote.fob")),
        line(worked("quote.tier")),
        line(worked("quote.at_order")),
        line(answer("quote.valid_until")),
    ),
    side_by_side(
        "Terms, as quoted; amounts in the currency of the quote",
        *(line(answer(address,
                      kind=_LINES if heading(address) in {"Delivery term", "Named place", "Payment", "Country of origin"} else None)) for address in _TERMS),
        line(answer("quote.minimum_style")),
        line(per(AXIS, computed("style_state", "The order against it", text(18), _short_of("minimum_style", "pieces")))),
        line(answer("quote.minimum_colorway")),
        line(per(AXIS, computed("colorway_state", "The smallest colorway against it", text(18), _short_of("minimum_colorway", "smallest")))),
        line(answer("quote.surcharge")),
        line(answer("quote.sample_price")),
        line(answer("quote.development")),
        line(answer("quote.tooling")),
        line(answer("quote.tooling_for", kind=_LINES)),
        line(worked("quote.one_off")),
        line(answer("quote.remark", kind=_LINES)),
        line(per(AXIS, fixed("issued_for", "Answers an issue for", text(18)))),
        line(per(AXIS, fixed("file", "File", text(18)))),
        _count("fixes", "Findings of the audit: to fix"),
        _count("queries", "Findings of the audit: to ask"),
        _count("notes", "Findings of the audit: to know"),
        new_page=True,
    ),
))  # fmt: skip
