"""A word in quotes that is compared with an entry is one that the entry can hold."""

import pytest

from sheetgen.declare.entry import computed, designer, fixed, per
from sheetgen.declare.expression import Call, Leaf, Pair, nodes, tree
from sheetgen.declare.kinds import choice, date, number, pick, text
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Caution, Check, Form, Section, Sheet, Table
from sheetgen.declare.words import refuse_wrong_words
from sheetgen.offers.sheets import OFFERS_BOOK
from sheetgen.report.worklist import WORKLIST
from sheetgen.sheets import BOOK

TERMS = Table("terms", "Terms", ref="I", key="term", columns=(fixed("term", "Term", text()), fixed("mode", "Mode", text())), rows=(
    {"term": "FOB", "mode": "sea"}, {"term": "FCA", "mode": "any"},
))  # fmt: skip
FIELDS = (
    designer("unit", "Unit", choice("m", "gram", "pc")),
    designer("transport", "Transport", choice("sea", "air", open=True)),
    designer("term", "Term", pick("goods.terms.term")),
    designer("size", "Size", pick("goods.lines.item")),
    designer("remark", "Remark", text()),
    designer("count", "Count", number()),
    designer("on", "On", date()),
    computed("used", "Used", text(), 'IF(unit="","gram",unit)'),
    computed("state", "State", text(), 'IF(count>1,"open, late",IF(count=1,"open","done"))'),
    computed("free", "Free", text(), 'IF(count=1,"none",remark)'),
    computed("joined", "Joined", text(), 'remark&", too"'),
    computed("round_1", "A", text(), 'IF(count=1,"a",round_2)'),
    computed("round_2", "B", text(), 'IF(count=1,"b",round_1)'),
)
LINES = Table("lines", "Lines", ref="L", key="item", columns=(
    designer("item", "Item", text()), designer("group", "Group", choice("fabric", "trim")), computed("verdict", "V", text(), 'IF(group="trim","in","out")'),
    Section("{size}", axis="size", columns=(designer("paid", "Paid", choice("yes", "no")),)),
))  # fmt: skip


def book_of(*fields, checks=(), cautions=()) -> Book:
    return Book(
        (Sheet("goods", "Goods", (Form("F", (*FIELDS, *fields)), LINES, TERMS), checks=checks, cautions=cautions),),
        axes={},
    )


def says_of(formula: str) -> str:
    """What is refused about a field with this formula; empty if nothing is."""
    try:
        refuse_wrong_words(book_of(computed("new", "New", text(), formula)))
    except DeclarationError as error:
        return str(error)
    return ""


@pytest.mark.parametrize(
    ("formula", "says"),
    [
        ('unit="gran"', "'gran' is no word of goods.unit; is it 'gram'?"),
        ('"gran"=unit', "'gran' is no word of goods.unit; is it 'gram'?"),
        ('IF(unit&""<>"gran",1,0)', "'gran' is no word of goods.unit; is it 'gram'?"),
        ('transport="see"', "'see' is no word of goods.transport; is it 'sea'?"),
        ('term="FOX"', "'FOX' is no word of goods.term; is it 'FOB'?"),
        ('INDEX(terms.mode,MATCH(term,terms.term,0))="see"', "'see' is no word of goods.terms.mode; is it 'sea'?"),
        ('MATCH("FOX",terms.term,0)', "'FOX' is no word of goods.terms.term; is it 'FOB'?"),
        ('MATCH(unit,{"m","gran"},0)', "'gran' is no word of goods.unit; is it 'gram'?"),
        ('EXACT(unit,"gran")', "'gran' is no word of goods.unit; is it 'gram'?"),
        ('COUNTIF(lines.group,"fabrik")', "'fabrik' is no word of goods.lines.group; is it 'fabric'?"),
        ('COUNTIF(lines.group,"<>fabrik")', "'fabrik' is no word of goods.lines.group; is it 'fabric'?"),
        ('SUMIF(lines.group,"fabrik",lines.item)', "'fabrik' is no word of goods.lines.group; is it 'fabric'?"),
        ('COUNTIFS(lines.group,"trim",lines.verdict,"outs")', "'outs' is no word of goods.lines.verdict; is it 'out'?"),
        ('SUMIFS(lines.item,lines.group,"trim",lines.verdict,"outs")', "'outs' is no word of goods.lines.verdict; is it 'out'?"),
        ('IFERROR(INDEX(lines.group,1)&"","")="fabrik"', "'fabrik' is no word of goods.lines.group; is it 'fabric'?"),
        ('IF(count=1,"gran",unit)="m"', "'gran' is no word of goods.unit; is it 'gram'?"),
        ('CHOOSE(1,unit,transport)="see"', "'see' is no word of goods.unit or goods.transport; is it 'sea'?"),
        ('IF(unit,transport,"air")="m"', "'m' is no word of goods.transport"),
        ('used="gran"', "'gran' is no word of goods.used; is it 'gram'?"),
        ('COUNTIF(lines.paid.all,"yess")', "'yess' is no word of goods.lines.paid; is it 'yes'?"),
        ('IF(lines.paid.mine="y",1,0)', "'y' is no word of goods.lines.paid"),
        ('state="late"', "'late' is no word of goods.state"),
        ('state="opened*"', "'opened*' is no word of goods.state; is it 'open'?"),
        ('count="many"', "'many' is no word of goods.count"),
        ('on="today"', "'today' is no word of goods.on"),
    ],
)  # fmt: skip
def test_a_word_that_an_entry_never_holds(formula, says):
    assert says_of(formula) == f"goods.new: {says}"


@pytest.mark.parametrize(
    "formula",
    [
        'unit="gram"', 'unit&""="gram"', 'transport<>"air"', 'term="FOB"', 'MATCH(unit,{"m","gram"},0)', 'used="gram"', 'used="m"',
        'COUNTIF(lines.group,"fabric")', 'COUNTIF(state,"open*")', 'COUNTIF(count,"<0")', 'COUNTIF(count,">=-1.5")',
        'IF(unit="","g",1)', 'unit&" each"="m each"', 'IF(unit="gram","a word that is shown","another")', 'COUNTIF(lines.item,"<="&count)',
        'remark="anything"', 'size="XL"', 'free="anything"', 'joined="anything"', 'IF(unit="gram",remark,"x")="y"', 'TEXT(count,"0.0")="1.0"',
        'round_1="goes in a circle, which the proof of the plain book refuses"',
        'SUMPRODUCT((terms.term=term)*(terms.mode="sea"))', 'COUNTIFS(lines.group,"trim",lines.verdict,"in")',
    ],
)  # fmt: skip
def test_a_word_that_it_may_hold_or_that_cannot_be_known(formula):
    assert says_of(formula) == ""


def test_checks_cautions_and_first_formulas_are_looked_at():
    def refusal(made: Book) -> str:
        with pytest.raises(DeclarationError) as caught:
            refuse_wrong_words(made)
        return str(caught.value)

    wrong = 'COUNTIF(goods.lines.group,"trims")'
    says = "'trims' is no word of goods.lines.group; is it 'trim'?"
    assert refusal(book_of(checks=(Check("odd", "Odd", wrong),))) == f"goods, check 'odd': {says}"
    assert refusal(book_of(cautions=(Caution("cord", "Care.", wrong, "invented"),))) == f"goods, caution 'cord': {says}"
    first = per("size", computed("new", "New", text(), '""', first=wrong))
    assert refusal(book_of(first)) == f"goods.new: {says}"


def test_what_asks_for_an_entry_must_be_able_to_say_so():
    rounds = Table(
        "rounds",
        "R",
        ref="R",
        key="round",
        columns=(fixed("round", "R", text()),),
        rows=({"round": "Proto"}, {"round": "Fit"}),
    )
    now = designer("now", "Now", choice("Proto", "Fitting"))

    def refusal(**asked: str) -> str:
        entry = per("round", designer("value", "V", number()), asked_by="x.now", **asked)
        made = Book((Sheet("x", "X", (Form("F", (now, entry)), rounds)),), axes={"round": "x.rounds"})
        with pytest.raises(DeclarationError) as caught:
            refuse_wrong_words(made)
        return str(caught.value)

    assert refusal(asked_when="Prot") == "x.value: 'Prot' is no word of x.now; is it 'Proto'?"
    assert refusal() == "x.value: 'Fit' is no word of x.now; is it 'Fitting'?"


def test_the_words_of_both_books_are_right():
    for book in (BOOK, OFFERS_BOOK, WORKLIST):
        refuse_wrong_words(book)


def shape(node) -> str:
    """A tree with a bracket around every pair."""
    if isinstance(node, Leaf):
        return node.token.text
    if isinstance(node, Call):
        return f"{node.name}[{';'.join(map(shape, node.arguments))}]"
    return f"({shape(node.left)}{node.sign}{shape(node.right)})"


@pytest.mark.parametrize(
    ("formula", "read"),
    [
        ("a+b*c", "(a+(b*c))"),
        ("a-b-c", "((a-b)-c)"),
        ('a&b+1="x"', '((a&(b+1))="x")'),
        ("a=b>c", "((a=b)>c)"),
        ("-a^2", "((-a)^2)"),
        ("a/-b", "(a/(-b))"),
        ("a^b%", "(a^(b%))"),
        ("SUM(a:b,,c)", "SUM[(a:b);;c]"),
        ("PI()", "PI[]"),
        ('MATCH(a,{"x",2},0)', 'MATCH[a;{["x";2];0]'),
        ("SUM(a.all,a.last+(b))", "SUM[a.all;(a.last+b)]"),
    ],
)
def test_a_formula_as_a_tree(formula, read):
    # a minus in front binds more than a power, as in spreadsheet programs (ECMA-376 part 1, 18.17.2.2, from memory)
    assert shape(tree(formula)) == read


@pytest.mark.parametrize(
    ("formula", "says"),
    [
        ("a+", "something is missing before 'the end'"),
        ("a,b", "',' is one too many in 'a,b'"),
        ("(a,b)", "a bracket holds more than one thing before ',b)'"),
        ("*a", "something is missing before '*a'"),
        ("SUM(a=)", "something is missing before ')'"),
    ],
)
def test_what_is_no_tree(formula, says):
    with pytest.raises(DeclarationError) as caught:
        tree(formula)
    assert str(caught.value) == says


def test_all_nodes_are_gone_through():
    leaves = [node.token.text for node in nodes(tree('IF(a="x",{1,2},-b%)')) if isinstance(node, Leaf)]
    assert [text for text in leaves if text] == ["a", '"x"', "1", "2", "b"]
    assert sum(isinstance(node, Pair) for node in nodes(tree('IF(a="x",{1,2},-b%)'))) == 3
