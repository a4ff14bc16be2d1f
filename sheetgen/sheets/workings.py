"""Workings: intermediate steps that other sheets' figures rest on. Nothing to fill, not printed.

Compositions as they were typed, read fiber by fiber; a quantity shared out in whole pieces by largest remainder;
working days counted back from the delivery.
"""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.declare.entry import Entry, computed, fixed, per
from sheetgen.declare.kinds import number, percent, text, whole
from sheetgen.declare.parts import Section, Sheet, Table

FIBERS = range(1, 5)
"""So many fibers of one cloth are read."""
_DAYS_BACK = 120
"""Calendar days before the delivery that are looked at: enough for 85 working days of a five-day week."""

_SPACED = (", ", "; ", ";", "/", "|", "&", "+", " and ")
_WORDS_LEFT_OUT = ("organic ", "recycled ", "virgin ")
"""What stands before a generic fiber name on labels and is no part of it."""


def _plain_text() -> str:
    """The composition in small letters, one blank between words, `95% cotton 5% elastane `."""
    words = 'LOWER(composition)&" "'
    for sign in _SPACED:
        words = f'SUBSTITUTE({words},"{sign}"," ")'
    for word in _WORDS_LEFT_OUT:
        words = f'SUBSTITUTE({words},"{word}","")'
    for old, new in ((",", "."), (" %", "%"), ("%", "% "), ("  ", " "), ("  ", " ")):
        words = f'SUBSTITUTE({words},"{old}","{new}")'
    return words


def _first_digit(after: str) -> str:
    return "MIN(" + ",".join(f'FIND("{digit}",plain_text&"0123456789",{after})' for digit in range(10)) + ")"


def _decimal(words: str) -> str:
    """A number from its text, `97.5`, whatever the program's own decimal sign is."""
    whole_part, rest = f'VALUE(LEFT({words},FIND(".",{words})-1))', f'MID({words},FIND(".",{words})+1,9)'
    return f'IF(ISERROR(FIND(".",{words})),VALUE({words}),{whole_part}+VALUE({rest})/POWER(10,LEN({rest})))'


def _reading() -> Iterator[Entry]:
    for n in FIBERS:
        before = "1" if n == 1 else f"end_{n - 1}+1"
        gone = "" if n == 1 else f"IF(end_{n - 1}=0,0,"
        close = ")" if gone else ""
        yield computed(f"start_{n}", f"Number {n} from", whole(), f"{gone}{_first_digit(before)}{close}")
        yield computed(f"end_{n}", "to", whole(), f'{gone}IFERROR(FIND("%",plain_text,{before}),0){close}')
        yield computed(f"said_{n}", "says", text(8), f'IF(end_{n}=0,"",MID(plain_text,start_{n},end_{n}-start_{n}))')
    yield computed(
        f"start_{len(FIBERS) + 1}", "End", whole(), f"IF(end_{len(FIBERS)}=0,0,{_first_digit(f'end_{len(FIBERS)}+1')})"
    )
    for n in FIBERS:
        after = f"MID(plain_text,end_{n}+2,MAX(0,start_{n + 1}-end_{n}-3))"
        first = "1" if n == 1 else f"(end_{n - 1}+2)"
        ahead = f"MID(plain_text,{first},MAX(0,start_{n}-1-{first}))"
        word = f"IF(start_1=1,{after},{ahead})"
        yield computed(
            f"share_{n}", f"Share {n}", percent(1), f'IF(end_{n}=0,"",IFERROR(({_decimal(f"said_{n}")})/100,""))'
        )
        yield computed(
            f"known_{n}",
            f"Fiber {n}",
            text(14),
            f'IF(end_{n}=0,"",IFERROR(INDEX(lists.fibers.fiber,MATCH({word},lists.fibers.fiber,0)),""))',
        )


def _words() -> str:
    return "&".join(
        f'IF(known_{n}="","","{", " if n > 1 else ""}"&TEXT(ROUND(N(share_{n})*100,1),IF(ROUND(N(share_{n})*100,1)=INT(ROUND(N(share_{n})*100,1)),"0","0.0"))&"% "&known_{n})'
        for n in FIBERS
    )


def _of(column: str) -> str:
    return f"INDEX(materials.bom.{column},MATCH(ref,materials.bom.ref,0))"


WORKINGS = Sheet("workings", "Workings", purpose="Nothing to fill: steps on the way to figures of other sheets. Not printed.", printed=False, parts=(
    Table("read", "Compositions as read", ref="M", key="composition", mirrors="materials.bom", columns=(
        computed("composition", "Composition", text(26), f'IFERROR({_of("composition")}&"","")'),
        computed("grams", "Grams in a garment", number(2), f'IF(OR(IFERROR({_of("group")}&"","")<>"fabric",{_of("kind")}&""="interlining"),0,IFERROR(N({_of("counted_grams")}),0))',
                 help="Fabrics without interlinings: what the composition of a garment counts by custom."),
        computed("plain_text", "Plain text", text(26), _plain_text()),
        *_reading(),
        computed("sum", "Sum", percent(1), "ROUND(" + "+".join(f"IF(known_{n}=\"\",0,N(share_{n}))" for n in FIBERS) + ",4)"),
        computed("words", "In generic names", text(30), _words()),
        computed("state", "Read", text(10), 'IF(sum=0,IF(ISERROR(FIND("%",plain_text)),"no shares","not read"),IF(sum=1,"read","not read"))'),
    )),
    Table("fibers", "Fibers of the whole garment, by weight", ref="J", key="fiber", mirrors="lists.fibers", columns=(
        computed("fiber", "Fiber", text(26), "INDEX(lists.fibers.fiber,MATCH(ref,lists.fibers.ref,0))"),
        computed("grams", "Grams", number(2), "+".join(f"SUMPRODUCT((read.known_{n}=fiber)*1,read.share_{n},read.grams)" for n in FIBERS)),
        computed("order", "In order", number(6), "IF(grams=0,0,grams-0.000001*INDEX(lists.fibers.place,MATCH(ref,lists.fibers.ref,0)))"),
        computed("share", "Share", percent(2), "IF(SUM(fibers.grams)=0,0,grams/SUM(fibers.grams))"),
    )),
    Table("split", "Pieces shared out in whole numbers", ref="Z", key="size", mirrors="style.sizes", note="Largest remainder; of equal remainders the smaller size is first.", columns=(
        computed("size", "Size", text(26), 'IFERROR(INDEX(style.sizes.name,MATCH(ref,style.sizes.ref,0))&"","")'),
        computed("ratio", "Ratio", number(2), "N(INDEX(order.sizes.size_ratio,MATCH(ref,order.sizes.ref,0)))"),
        Section("Whole pieces", (
            per("colorway", computed("whole", "{colorway}", whole(), "IF(SUM(split.ratio)=0,0,INT(ROUND(N(INDEX(order.colors.pieces_wanted,mine))*ratio/SUM(split.ratio),9)))")),
        )),
        Section("What is left over, in order", (
            per("colorway", computed("rest", "{colorway}", number(9, width=12),
                                     "IF(SUM(split.ratio)=0,0,ROUND(N(INDEX(order.colors.pieces_wanted,mine))*ratio/SUM(split.ratio)-whole.mine,9)-0.000000001*MATCH(ref,order.sizes.ref,0))")),
        )),
        computed("solid", "Solid cartons", whole(), 'IF(order.carton_pieces="",0,sum_over(colorway, ROUNDUP(ROUND(N(INDEX(order.sizes.ordered.mine,MATCH(ref,order.sizes.ref,0)))/order.carton_pieces,9),0)))'),
    )),
    Table("colors", "Materials by color", ref="M", key="item", mirrors="materials.bom", note="One color of a material is bought once, for all colorways that use it.", columns=(
        computed("item", "Item", text(26), f'IFERROR({_of("item")}&"","")'),
        Section("Color", (
            per("colorway", computed("shade", "{colorway}", text(14), f'IF({_of("instead_of")}<>"","",{_of("color.mine")}&"")')),
        )),
        Section("Needed", (
            per("colorway", computed("need_of", "{colorway}", number(2), f'IF(shade.mine="",0,IF({_of("gross_in.mine")}="","",N(order.pieces_in.mine)*(1+N(order.overage))*{_of("gross_in.mine")}))')),
        )),
        Section("Colors taken together", (
            per("colorway", computed("together", "{colorway}", number(2), 'IF(shade.mine="",0,IF(MATCH(shade.mine,shade.all,0)=mine,SUMIF(shade.all,shade.mine,need_of.all),0))')),
        )),
        computed("need", "All", number(2), 'IF(COUNTIF(need_of.all,"")>0,"",SUM(need_of.all))'),
    )),
    Table("days", "Days back from the delivery", ref="D", key="back", spare=0, rows=tuple({"back": back} for back in range(_DAYS_BACK + 1)), columns=(
        fixed("back", "Days back", whole(width=26)),
        computed("works", "Works", whole(),
                 'IF(OR(back=0,COUNTIF(order.holidays.on,style.delivery-back)>0),0,'
                 'IF(order.week&""="Monday to Friday",IF(MOD(style.delivery-back-2,7)<5,1,0),IF(order.week&""="Monday to Saturday",IF(MOD(style.delivery-back-2,7)<6,1,0),'
                 'IF(order.week&""="Sunday to Thursday",IF(OR(MOD(style.delivery-back-2,7)<4,MOD(style.delivery-back-2,7)=6),1,0),1))))'),
        computed("done", "Working days since", whole(), 'SUMIF(days.back,"<="&back,days.works)'),
    )),
))  # fmt: skip
