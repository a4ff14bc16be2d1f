"""Materials: everything bought for one garment, what it uses of each, what it weighs, and what that costs."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per, vendor
from sheetgen.declare.kinds import (
    choice,
    date,
    length,
    money,
    number,
    percent,
    pick,
    picture,
    suggest,
    text,
    whole,
    yes_no,
)
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table
from sheetgen.sheets.lookups import known_of
from sheetgen.sheets.questions import asked_about
from sheetgen.trade.weights import USE_UNITS, WEIGHT_UNITS

NOT_USED = "not used"
"""Stands where a colorway does without a material; a blank color is one that is still open, and counts."""
GROUPS = ("fabric", "trim", "label", "packing", "thread")
IDENTIFIED = "identified"
"""Stands where the brand said yes to what the vendor named."""
_RATE = 'IF(OR(currency="",currency&""=style.currency&""),1,IFERROR(INDEX(rates.rate,MATCH(currency,rates.code,0)),""))'


def _weight(column: str) -> str:
    return (
        f'IFERROR(INDEX(lists.weights.{column},MATCH(IF(weight_unit="","g/m²",weight_unit),lists.weights.unit,0)),"")'
    )


def _unit(column: str) -> str:
    return f'IFERROR(INDEX(lists.units.{column},MATCH(unit,lists.units.unit,0)),"")'


def _from(table: str) -> str:
    """What another sheet worked out for this line."""
    return f'IFERROR(INDEX({table}.worked_out,MATCH(ref,{table}.material,0)),"")'


MATERIALS = Sheet("materials", "Materials", purpose="One line for each article that is bought. Prices per unit, without tax.", main="bom", parts=(
    Table("bom", "Bill of materials", ref="M", key="item", spare=4, row_height=34, says=("composition", "weight", "weight_unit", "width", "unit"), columns=(
        designer("item", "Item", text(19), need="quote", help="One line for each article."),
        designer("group", "Group", choice(*GROUPS, width=8), need="quote"),
        designer("kind", "Kind",
                 choice("fabric", "lining", "rib", "interlining", "filling", "zip", "button", "snap", "cord", "cord stopper", "elastic", "tape", "label", "tag",
                        "thread", "bag", "carton", "print", "leather", "down", "other", open=True, width=9), need="quote"),
        designer("zone", "Where", choice("body", "hood or neck", "waist", "hem", "sleeve", "pocket", "front", "inside", "packing", "all", open=True, width=10),
                 need="quote"),
        designer("composition", "Composition", text(17), need="quote", unless="asking", help="With generic names: 95 % cotton, 5 % elastane."),
        designer("weight", "Weight", number(1, 0, width=8), help="In the unit beside it."),
        designer("weight_unit", "in", choice(*(one.unit for one in WEIGHT_UNITS), width=7), blank="g/m²",
                 help="Cloth g/m² or oz/yd²; thread tex, Ne, denier, ticket; trims g a piece."),
        designer("width", "Width, {unit}", length(least=0), help="Fabrics: full width. Trims: size."),
        designer("net", "Net use", number(4, 0), need="quote", unless="worked_out", help="In one garment, before waste.", blank="as worked out"),
        designer("unit", "Unit", choice(*(one.unit for one in USE_UNITS), "cone", open=True, width=6), need="quote", help="Of use and of price."),
        designer("waste", "Waste", percent(1, 0, 0.5), need="quote", help="Added to the net use: ends, defects, cutting."),
        vendor("price", "Price per unit", money(4), need="quote", help="A number only; the currency is in the next column."),
        vendor("currency", "Currency", suggest("materials.rates.code", 9), blank="{currency}"),
        computed("cost", "Cost, {currency}", money(4), "ROUND(gross*price_here,4)", help="Per garment."),
        vendor("supplier", "Supplier", text(12), need="sample"),
        Section("Color in each colorway", (
            per("colorway", designer("color", "{colorway}", choice(NOT_USED, open=True, width=11), need="sample",
                                    help=f"Its color, or \"{NOT_USED}\" where this colorway does without.")),
        )),
        Section("Where it comes from, what counts", printed=False, columns=(
            designer("weight_within", "± weight", percent(0, 0, 0.3, width=7), help="How far a lot may be off, as a share.",
                     blank="as the standard of the cloth"),
            computed("gross", "Gross use", number(4), "use*(1+waste)"),
            computed("price_here", "Price, {currency}", money(4), 'IF(rate="","",price*rate)'),
            designer("sourcing", "Sourcing", choice("nominated", "open", width=14),
                     help="Nominated: from this supplier only. Open: the vendor may propose another."),
            designer("nominated", "Nominated: who, which article", text(34), help="The supplier that you chose, its article, whom to write to."),
            designer("right_side", "Right side", text(15), help="Which side shows, and by what it is told."),
            designer("instead_of", "Alternative to", pick("materials.bom.ref", 9),
                     help="The ref of the line it could replace: it is then in no total.", blank="it is used"),
            vendor("supplier_ref", "Supplier's article", text(13)),
            vendor("minimum", "Minimum", number(0, 0), need="quote", help="Smallest quantity of the article that the supplier sells, in the unit."),
            vendor("minimum_color", "Minimum per color", number(0, 0), help="Smallest quantity of one color.", blank="none of its own"),
            vendor("surcharge", "Surcharge below the minimum", money(2), help="Once, in the line's currency: what buying less than the minimum costs.",
                   blank="less is not sold"),
            vendor("lead", "Lead time, days", whole(least=0), need="quote"),
            vendor("stated_cost", "Vendor's cost of the line", money(4), help="In {currency} per garment, if the vendor works it out too."),
            computed("stated_gap", "Vendor's cost, more or less", percent(1, None, None),
                     'IF(N(gross)*N(price_here)=0,"",stated_cost/(N(gross)*N(price_here))-1)'),
            asked_about(),
            designer("picture", "Picture", picture(12)),
            designer("note", "Note", text(38)),
            designer("target", "Target price", money(4), private=True, help="Brand only: never in a vendor copy."),
        )),
        Section("By size", printed=False, columns=(
            designer("by_size", "Differs by size", yes_no(8), help="Yes: an article of each size, as size labels or zips of a length.",
                     blank="the same for all sizes"),
            designer("size_point", "Its length is point", pick("measurements.points.ref", 9), blank="no length is worked out"),
            designer("size_plus", "Plus, {unit}", length(), help="Below 0 where it is shorter than the point.", blank="nothing is added"),
        )),
        Section("Other net use in a colorway", printed=False, columns=(
            per("colorway", designer("use_in", "{colorway}", number(4, 0), blank="the net use")),
        )),
        Section("Worked out", printed=False, columns=(
            computed("worked_out", "From yield or seams", number(4), 'IF(N(from_yield)>0,N(from_yield),IF(N(from_thread)>0,N(from_thread),""))',
                     help="In the unit, per garment, before waste: from the cut pieces or from the seams."),
            computed("use", "Use counted", number(4), 'IF(net<>"",net,IF(worked_out="","",worked_out))'),
            computed("stands_for", "Could replace", text(16),
                     'IF(instead_of="","",IFERROR(INDEX(materials.bom.item,MATCH(instead_of,materials.bom.ref,0))&"","not there"))'),
            computed("read_as", "Composition as read", text(20),
                     'IF(OR(group<>"fabric",kind&""="interlining",composition=""),"",'
                     'IFERROR(IF(INDEX(workings.read.state,MATCH(ref,workings.read.ref,0))="not read","not read",'
                     'INDEX(workings.read.words,MATCH(ref,workings.read.ref,0))&""),""))'),
            computed("base", "Weight in g", number(4), 'IFERROR(IF(weight_divided="yes",weight_factor/weight,weight_factor*weight),"")',
                     help="Of one m² of cloth, one m of thread or cord, one piece."),
            computed("grams", "In a garment, g", number(2),
                     'IFERROR(IF(pieces_area<>"",IF(base="","",N(pieces_area)*N(base)),IF(unit_of="weight",use*unit_factor,'
                     'IF(base="","",use*unit_factor*N(base)*wide))),"")',
                     help="By the area of its cut pieces where Yield has them; else by what is used of it."),
            computed("counted_grams", "Counted, g", number(2), 'IF(AND(instead_of="",grams<>""),N(grams),"")'),
            computed("counted", "Cost counted, {currency}", money(4), 'IF(AND(instead_of="",gross<>"",price_here<>""),ROUND(N(gross)*N(price_here),4),"")',
                     help="Alternatives are in no total."),
            per("colorway", computed("gross_in", "Gross: {colorway}", number(4),
                                     f'IF(color.mine&""="{NOT_USED}",0,IF(use_in.mine="",gross,IFERROR(use_in.mine*(1+N(waste)),"")))')),
            per("colorway", computed("cost_of", "Cost: {colorway}", money(4),
                                     f'IF(OR(instead_of<>"",color.mine&""="{NOT_USED}"),0,ROUND(N(gross_in.mine)*price_here,4))')),
        )),
        Section("Known by a swatch or photo only: the vendor says what it is", printed=False, columns=(
            designer("ask", "Ask the vendor", choice("yes", width=8), help="Yes: the copy asks what it is. Put its picture into the line.",
                     blank="the line says it"),
            vendor("named_composition", "Composition", text(22), need="quote", unless="not_asking", help="With generic names: 95 % cotton, 5 % elastane."),
            vendor("named_weight", "Weight", number(1, 0, width=8), need="quote", unless="not_asking"),
            vendor("named_unit", "in", choice(*(one.unit for one in WEIGHT_UNITS), width=8), blank="g/m²"),
            vendor("named_width", "Width, {unit}", length(least=0), need="quote", unless="not_asking"),
            vendor("named_note", "How sure, how like", text(20), help="The same article, or the nearest that you can get."),
            designer("identified", "It is that", yes_no(8), help="Yes: the next build takes what is named here into the line.", blank="not decided"),
            computed("asking", "Asked", text(10), f'IF(ask="","",IF(identified&""="yes","{IDENTIFIED}","asked"))', may_be_blank=("ask", "identified")),
            computed("not_asking", "Not asked", text(10), 'IF(asking&""="asked","","not asked")', may_be_blank=("asking",)),
        )),
        Section("Steps", printed=False, columns=(
            computed("rate", "Rate", number(6), _RATE, help="What the price's currency is worth."),
            computed("from_yield", "From yield", number(4), _from("yield.fabrics")),
            computed("pieces_area", "m² of its pieces", number(4), 'IFERROR(INDEX(yield.fabrics.net_area,MATCH(ref,yield.fabrics.material,0)),"")'),
            computed("from_thread", "From seams", number(4), _from("thread.articles")),
            computed("unit_of", "Unit counts", text(8), _unit("of")),
            computed("unit_factor", "In m, m², g", number(6), _unit("factor")),
            computed("weight_of", "Weight is of", text(8), _weight("of")),
            computed("weight_factor", "Factor, g", number(6), _weight("factor")),
            computed("weight_divided", "Divided", text(8), _weight("inverse")),
            computed("wide", "Width counted, m", number(4), 'IF(AND(unit_of&""="length",weight_of&""="area"),IF(N(width)=0,"",width*style.unit_in_meters),1)',
                     help="1 where the weight is not one of an area, or the unit is none of length."),
        )),
    )),
    Form("In short, {currency} per garment", (
        *(computed(f"cost_{group}", group.capitalize(), money(4), f'SUMIF(bom.group,"{group}",bom.counted)') for group in GROUPS),
        computed("cost", "All materials", money(4), "SUM(bom.counted)", help="Of the lines that have a price, without alternatives, all colorways."),
        computed("priced", "Lines with a cost", text(), known_of("bom.cost", "bom.item")),
        per("colorway", computed("cost_in", "Materials: {colorway}", money(4), "SUM(bom.cost_of.mine)",
                                 help="Lines with a color in this colorway, with its own use where one is given.")),
        computed("garment_grams", "Weight of the garment, g", number(0), "SUM(bom.counted_grams)-SUMIF(bom.group,\"packing\",bom.counted_grams)",
                 help="Net, without packing; lines whose weight is given."),
        computed("weighed", "Lines with a weight", text(), known_of("bom.grams", "bom.item")),
    )),
    Table("rates", "Exchange rates", ref="X", key="code", spare=2, printed=False,
          note="What one unit of that currency is worth in the style's currency.", columns=(
        designer("code", "Currency", text(26)),
        designer("rate", "Rate", number(6, 0.000001, width=9), need="quote"),
        designer("on", "On", date(), need="quote"),
        designer("from_where", "Source", text(14)),
    )),
), checks=(
    Check("no_rate", "A price in a currency without a rate",
          'SUMPRODUCT((materials.bom.item<>"")*(materials.bom.price<>""))-COUNT(materials.bom.price_here)',
          fix="Add the currency to the exchange rates."),
    Check("no_currency", "Prices without a currency, and the quote is in another than the style's",
          'IF(OR(quote.currency="",quote.currency&""=style.currency&""),0,'
          'SUMPRODUCT((materials.bom.item<>"")*(materials.bom.price<>"")*(materials.bom.currency="")))',
          who="vendor", fix="Give the currency of each price: a blank one is the style's."),
    Check("named", "A material that the vendor named, and the brand has not decided on",
          'SUMPRODUCT((materials.bom.asking="asked")*(materials.bom.named_composition<>""))', private=True,
          fix="Look at the swatch that came with it, then say in It is that.",
          where='IFERROR(INDEX(materials.bom.ref,MATCH("asked",materials.bom.asking,0)),"")'),
    Check("named_otherwise", "A material that is identified, and its line says something else",
          'SUMPRODUCT((materials.bom.asking="identified")*(materials.bom.composition<>"")*(materials.bom.named_composition<>"")'
          '*(materials.bom.composition<>materials.bom.named_composition))', private=True,
          fix="Clear the composition in its line, and build once, or clear It is that."),
    Check("composition", "A fabric's composition is not understood, or is not 100 %",
          'COUNTIF(materials.bom.read_as,"not read")', fix="Write shares and generic names: 95 % cotton, 5 % elastane."),
))  # fmt: skip
