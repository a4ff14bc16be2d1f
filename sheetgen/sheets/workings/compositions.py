"""Compositions as they were typed, read fiber by fiber, and what they make of the whole garment by weight."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.declare.entry import Entry, computed, fixed
from sheetgen.declare.kinds import number, percent, text, whole
from sheetgen.declare.parts import Table

FIBERS = range(1, 5)
"""So many fibers of one cloth are read."""
NAMED = range(1, 6)
"""So many fibers of the whole garment, and of a part of it, are named on a label."""

_SPACED = (", ", "; ", ";", "/", "|", "&", "+", " and ")
_WORDS_LEFT_OUT = ("organic ", "recycled ", "virgin ")
"""What stands before a generic fiber name on labels and is no part of it."""


def _of(column: str) -> str:
    return f"INDEX(materials.bom.{column},MATCH(ref,materials.bom.ref,0))"


def _replaced(words: str, *pairs: tuple[str, str]) -> str:
    for old, new in pairs:
        words = f'SUBSTITUTE({words},"{old}","{new}")'
    return words


def _plain_text() -> Iterator[Entry]:
    """The composition in small letters, one blank between words, `95% cotton 5% elastane `, a few signs at a time."""
    half = len(_SPACED) // 2
    signs = [(sign, " ") for sign in _SPACED]
    words = [(word, "") for word in _WORDS_LEFT_OUT]
    yield computed("small", "In small letters", text(26), 'LOWER(composition)&" "')
    yield computed("parted", "Without some signs", text(26), _replaced("small", *signs[:half]))
    yield computed("spaced", "Without all signs", text(26), _replaced("parted", *signs[half:]))
    yield computed("generic", "Without such words as recycled", text(26), _replaced("spaced", *words, (",", ".")))
    yield computed("plain_text", "Plain text", text(26),
                   _replaced("generic", (" %", "%"), ("%", "% "), ("  ", " "), ("  ", " ")))  # fmt: skip
    yield computed("some_masked", "With 0 for 1 to 5", text(26),
                   _replaced("plain_text", *((str(digit), "0") for digit in range(1, 6))))  # fmt: skip
    yield computed("masked", "With 0 for every digit", text(26),
                   _replaced("some_masked", *((str(digit), "0") for digit in range(6, 10))))  # fmt: skip


def _reading() -> Iterator[Entry]:
    """Where each number begins and where its % stands; then the number, and the words that belong to it."""
    for n in FIBERS:
        after, gone, close = ("1", "", "") if n == 1 else (f"end_{n - 1}+1", f"IF(end_{n - 1}=0,0,", ")")
        yield computed(f"start_{n}", f"Number {n} from", whole(), f'{gone}FIND("0",masked&"0",{after}){close}')
        yield computed(f"end_{n}", "to", whole(), f'{gone}IFERROR(FIND("%",plain_text,{after}),0){close}')
        yield computed(f"said_{n}", "says", text(8), f'IF(end_{n}=0,"",MID(plain_text,start_{n},end_{n}-start_{n}))')
    last = len(FIBERS)
    yield computed(f"start_{last + 1}", "End", whole(), f'IF(end_{last}=0,0,FIND("0",masked&"0",end_{last}+1))')
    for n in FIBERS:
        first = "1" if n == 1 else f"(end_{n - 1}+2)"
        behind = f"MID(plain_text,end_{n}+2,MAX(0,start_{n + 1}-end_{n}-3))"
        ahead = f"MID(plain_text,{first},MAX(0,start_{n}-1-{first}))"
        yield computed(f"point_{n}", f"Point in {n}", whole(), f'IFERROR(FIND(".",said_{n}),0)')
        yield computed(f"share_{n}", f"Share {n}", percent(1), _decimal(n))
        yield computed(f"named_{n}", f"Words {n}", text(14), f'IF(end_{n}=0,"",IF(start_1=1,{behind},{ahead}))')
        yield computed(f"known_{n}", f"Fiber {n}", text(14),
                       f'IF(end_{n}=0,"",IFERROR(INDEX(lists.fibers.fiber,MATCH(named_{n},lists.fibers.fiber,0)),""))')  # fmt: skip


def _decimal(n: int) -> str:
    """A share from its text, `97.5`, whatever the program's own decimal sign is."""
    said, point = f"said_{n}", f"point_{n}"
    rest = f"MID({said},{point}+1,9)"
    parts = f"VALUE(LEFT({said},{point}-1))+VALUE({rest})/POWER(10,LEN({rest}))"
    return f'IF(end_{n}=0,"",IFERROR(IF({point}=0,VALUE({said}),{parts})/100,""))'


def _words() -> Iterator[Entry]:
    for n in FIBERS:
        percents = f"ROUND(N(share_{n})*100,1)"
        yield computed(f"word_{n}", f"Fiber {n} in words", text(20),
                       f'IF(known_{n}="","",TEXT({percents},IF({percents}=INT({percents}),"0","0.0"))&"% "&known_{n})')  # fmt: skip
    yield computed("words", "In generic names", text(30), listed(*(f"word_{n}" for n in FIBERS)))


def listed(first: str, *others: str) -> str:
    """Texts with a comma before each one that is not blank, but for the first."""
    return f'{first}&""' + "".join(f'&IF({other}="","",", "&{other})' for other in others)


READ = Table("read", "Compositions as read", ref="M", key="composition", mirrors="materials.bom", columns=(
    computed("composition", "Composition", text(26), f'IFERROR({_of("composition")}&"","")'),
    computed("grams", "Grams in a garment", number(2),
             f'IF(OR(IFERROR({_of("group")}&"","")<>"fabric",{_of("kind")}&""="interlining"),0,'
             f'IFERROR(N({_of("counted_grams")}),0))',
             help="Fabrics without interlinings: what the composition of a garment counts by custom."),
    *_plain_text(),
    *_reading(),
    computed("sum", "Sum", percent(1), "ROUND(" + "+".join(f'IF(known_{n}="",0,N(share_{n}))' for n in FIBERS) + ",4)"),
    *_words(),
    computed("state", "Read", text(10),
             'IF(sum=0,IF(ISERROR(FIND("%",plain_text)),"no shares","not read"),IF(sum=1,"read","not read"))'),
))  # fmt: skip

GARMENT = Table("fibers", "Fibers of the whole garment, by weight", ref="J", key="fiber", mirrors="lists.fibers", columns=(
    computed("fiber", "Fiber", text(26), "INDEX(lists.fibers.fiber,MATCH(ref,lists.fibers.ref,0))"),
    computed("grams", "Grams", number(2), "+".join(f"SUMPRODUCT((read.known_{n}=fiber)*1,read.share_{n},read.grams)" for n in FIBERS)),
    computed("order", "In order", number(6), "IF(grams=0,0,grams-0.000001*INDEX(lists.fibers.place,MATCH(ref,lists.fibers.ref,0)))"),
    computed("share", "Share", percent(2), "IF(SUM(fibers.grams)=0,0,grams/SUM(fibers.grams))"),
))  # fmt: skip

LARGEST = Table("largest", "The largest of them", ref="A", key="place", spare=0, rows=tuple({"place": n} for n in NAMED), columns=(
    fixed("place", "Place", whole(width=26)),
    computed("order", "In order", number(6), "LARGE(fibers.order,place)"),
    computed("line", "Line above", whole(), "MATCH(order,fibers.order,0)"),
    computed("words", "In words", text(26),
             'IF(order<=0,"",IF(place=1,"",", ")&TEXT(INDEX(fibers.share,line),"0%")&" "&INDEX(fibers.fiber,line))'),
))  # fmt: skip

LABELED = Table("labeled", "Compositions typed for labels", ref="F", key="part", mirrors="labels.composition", columns=(
    computed("part", "Part", text(26), 'IFERROR(INDEX(labels.composition.part,MATCH(ref,labels.composition.ref,0))&"","")'),
    computed("line", "Line", whole(), "MATCH(ref,labels.composition.ref,0)"),
    *(computed(f"word_{n}", f"Fiber {n} in words", text(20),
               f'IF(INDEX(labels.composition.fiber_{n},line)="","",'
               f'TEXT(N(INDEX(labels.composition.share_{n},line)),"0%")&" "&INDEX(labels.composition.fiber_{n},line))')
      for n in NAMED),
    computed("words", "In words", text(30), listed(*(f"word_{n}" for n in NAMED))),
))  # fmt: skip
