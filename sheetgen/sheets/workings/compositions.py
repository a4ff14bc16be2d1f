"""Compositions as they were typed, read fiber by fiber, and what they make of the whole garment by weight."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.declare.entry import Entry, computed, fixed, or_zero
from sheetgen.declare.kinds import number, percent, text, whole
from sheetgen.declare.parts import Form, Table
from sheetgen.sheets.lookups import material

FIBERS = range(1, 5)
"""So many fibers of one cloth are read."""
NAMED = range(1, 6)
"""So many fibers of the whole garment, and of a part of it, are named on a label."""

_SPACED = (", ", "; ", ";", "/", "|", "&", "+", " and ")
_WORDS_LEFT_OUT = ("organic ", "recycled ", "virgin ")
"""What stands before a generic fiber name on labels and is no part of it."""


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
    for n in FIBERS:
        yield computed(f"order_{n}", f"Place of fiber {n}", number(8), f'IF(known_{n}="",0,N(share_{n})-{n}/100000000)')
    yield from _sorted("word", FIBERS)
    yield computed("words", "In generic names", text(30),
                   f'IF(state="read",{listed(*(f"sorted_{n}" for n in FIBERS))},"")')  # fmt: skip


def _sorted(words: str, places: range) -> Iterator[Entry]:
    """The words with the largest share first, whatever was typed first, as both regulations want it."""
    shares, all_words = (f"{name}_{places[0]}:{name}_{places[-1]}" for name in ("order", words))
    for n in places:
        largest = f"LARGE({shares},{n})"
        yield computed(f"sorted_{n}", f"Number {n} by share", text(20),
                       f'IF({largest}<=0,"",INDEX({all_words},1,MATCH({largest},{shares},0)))')  # fmt: skip


def listed(first: str, *others: str) -> str:
    """Texts with a comma before each one that is not blank, but for the first."""
    return f'{first}&""' + "".join(f'&IF({other}="","",", "&{other})' for other in others)


READ = Table("read", "Compositions as read", ref="M", key="composition", mirrors="materials.bom", columns=(
    computed("composition", "Composition", text(26), f'IFERROR({material("composition")}&"","")'),
    computed("counts", "Counts", whole(),
             f'IF(AND({material("group")}&""="fabric",{material("kind")}&""<>"interlining",{material("instead_of")}=""),1,0)',
             help="Fabrics without interlinings: what the composition of a garment counts by custom."),
    computed("grams", "Grams in a garment", number(2), f'IF(counts=0,0,{material("counted_grams")})'),
    *_plain_text(),
    *_reading(),
    computed("sum", "Sum", percent(1), "ROUND(" + "+".join(f'IF(known_{n}="",0,N(share_{n}))' for n in FIBERS) + ",4)"),
    *_words(),
    computed("exempt", "Of fibers alone that 16 CFR 1610.1(d)(2) exempts", whole(),
             'IF(AND(sum=1,' + ",".join(f'OR(known_{n}="",COUNTIF(lists.exempt.fiber,known_{n})>0)' for n in FIBERS) + "),1,0)"),
    computed("unknown", "Counts, without a weight or not understood", whole(), 'IF(counts=0,0,IF(grams="",1,IF(AND(N(grams)>0,state<>"read"),1,0)))'),
    computed("state", "Read", text(10),
             'IF(sum=0,IF(ISERROR(FIND("%",plain_text)),"no shares","not read"),IF(sum=1,"read","not read"))'),
))  # fmt: skip

GARMENT = Table("fibers", "Fibers of the whole garment, by weight", ref="J", key="fiber", mirrors="lists.fibers",
                note="Whole percents by largest remainder: they always add up to 100. A trace counts 1.", columns=(
    computed("fiber", "Fiber", text(26), "INDEX(lists.fibers.fiber,MATCH(ref,lists.fibers.ref,0))"),
    computed("grams", "Grams", number(2), "+".join(f"SUMPRODUCT((read.known_{n}=fiber)*1,read.share_{n},read.grams)" for n in FIBERS)),
    computed("place", "Number", whole(), "MATCH(ref,lists.fibers.ref,0)"),
    computed("order", "In order", number(6), "IF(grams=0,0,grams-0.000001*place)"),
    computed("share", "Share", percent(2), "IF(SUM(fibers.grams)=0,0,grams/SUM(fibers.grams))"),
    computed("whole", "Whole percents", whole(), "INT(ROUND(share*100,6))"),
    computed("rest", "Left over, in order", number(6), "IF(grams=0,0-place,ROUND(share*100-whole,6)-0.000001*place)"),
    computed("points", "Percents, a trace as 1", whole(),
             "IF(grams=0,0,MAX(1,whole+IF(RANK(rest,fibers.rest)<=100-SUM(fibers.whole),1,0)))"),
    computed("printed", "Percents", whole(), "points-IF(AND(grams>0,order=MAX(fibers.order)),SUM(fibers.points)-100,0)"),
    computed("small", "Another fiber, in the US", whole(), 'IF(OR(printed=0,printed>=5,fiber="wool"),0,1)',
             help="16 CFR 303.3(a): under 5 % and no wool, it is told as other fiber."),
))  # fmt: skip

UNREAD = Form("Of the whole garment", (
    computed("unread", "Fabrics without a weight, or whose composition is not understood", whole(), "SUM(read.unknown)"),
    computed("first_unread", "The first of them", text(9),
             'IF(unread=0,"",IFERROR(INDEX(read.ref,MATCH(1,read.unknown,0))&"",""))'),
    computed("others", "Other fibers together, in the US", whole(), "SUMPRODUCT(fibers.small,fibers.printed)"),
    computed("others_said", "In words", text(24), 'IF(others=0,"",others&"% other fiber"&IF(SUM(fibers.small)>1,"s",""))'),
))  # fmt: skip

LARGEST = Table("largest", "The largest of them", ref="A", key="place", spare=0, rows=tuple({"place": n} for n in NAMED), columns=(
    fixed("place", "Place", whole(width=26)),
    computed("order", "In order", number(6), "LARGE(fibers.order,place)"),
    computed("line", "Line above", whole(), "MATCH(order,fibers.order,0)"),
    computed("said", "In words", text(26), 'IF(order<=0,"",INDEX(fibers.printed,line)&"% "&INDEX(fibers.fiber,line))'),
    computed("said_us", "In words, in the US", text(26), 'IF(order<=0,"",IF(INDEX(fibers.small,line)=1,"",said))'),
    computed("words", "With what is before it", text(26), 'IF(said="","",IF(place=1,"",", ")&said)'),
    computed("words_us", "The same in the US", text(26), 'IF(said_us="","",said_us&", ")'),
))  # fmt: skip


def _joined(words: str) -> str:
    return "&".join(f"INDEX(largest.{words},{n})" for n in NAMED)


WHOLE = Form("The whole garment in words", (
    computed("whole_garment", "By weight", text(60), _joined("words")),
    computed("named_us", "By weight, in the US", text(60), f'{_joined("words_us")}&others_said&""'),
    computed("whole_garment_us", "Without a comma at its end", text(60), 'IF(RIGHT(named_us,2)=", ",LEFT(named_us,LEN(named_us)-2),named_us)'),
))  # fmt: skip


_NO_SHARE = "a share that is not typed is none: nothing is said unless all are 100 % together"


def _labeled() -> Iterator[Entry]:
    for n in NAMED:
        yield computed(f"name_{n}", f"Fiber {n}", text(14), f'INDEX(labels.composition.fiber_{n},line)&""')
    for n in NAMED:
        share = f'IF(name_{n}="",0,N(INDEX(labels.composition.share_{n},line)))'
        yield or_zero(_NO_SHARE, computed(f"share_{n}", f"Share {n}", percent(1), share))
    for n in NAMED:
        yield computed(f"order_{n}", f"Place of fiber {n}", number(8), f"IF(share_{n}=0,0,share_{n}-{n}/100000000)")
    for n in NAMED:
        yield computed(f"whole_{n}", f"Whole percents {n}", whole(), f"INT(ROUND(share_{n}*100,6))")
    for n in NAMED:
        yield computed(
            f"rest_{n}",
            f"Left over {n}, in order",
            number(6),
            f"IF(share_{n}=0,0-{n},ROUND(share_{n}*100-whole_{n},6)-{n}/1000000)",
        )
    left, rests, points, orders = (
        f"{name}_{NAMED[0]}:{name}_{NAMED[-1]}" for name in ("whole", "rest", "points", "order")
    )
    for n in NAMED:
        more = f"IF(RANK(rest_{n},{rests})<=100-SUM({left}),1,0)"
        yield computed(
            f"points_{n}", f"Percents {n}, a trace as 1", whole(), f"IF(share_{n}=0,0,MAX(1,whole_{n}+{more}))"
        )
    for n in NAMED:
        taken = f"IF(order_{n}=MAX({orders}),SUM({points})-100,0)"
        yield computed(
            f"word_{n}", f"Fiber {n} in words", text(20), f'IF(share_{n}=0,"",points_{n}-{taken}&"% "&name_{n})'
        )
    yield from _sorted("word", NAMED)
    shares = f"share_{NAMED[0]}:share_{NAMED[-1]}"
    yield computed(
        "words", "In words", text(30), f'IF(ABS(SUM({shares})-1)>0.0005,"",{listed(*(f"sorted_{n}" for n in NAMED))})'
    )


LABELED = Table("labeled", "Compositions typed for labels", ref="F", key="part", mirrors="labels.composition",
                note="Nothing is said of shares that are not 100 % together.", columns=(
    computed("part", "Part", text(26), 'IFERROR(INDEX(labels.composition.part,MATCH(ref,labels.composition.ref,0))&"","")'),
    computed("line", "Line", whole(), "MATCH(ref,labels.composition.ref,0)"),
    *_labeled(),
    computed("of_material", "That of its material", text(30), 'INDEX(labels.composition.of_material,line)&""'),
    computed("against", "Another than that", whole(),
             'IF(OR(words="",of_material="",words=of_material),0,IF(ISERROR(FIND(".",of_material)),1,0))',
             help="Tenths of a percent are not held against whole ones."),
))  # fmt: skip
