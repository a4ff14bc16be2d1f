"""The pages of the pack, from the first to the last: what each shows, and for which purposes it is there.

Blocks name entries by their addresses. What is blank is left out, and with it a column, a block or a page of which nothing
is left; what is the brand's own is never there.
"""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.texts import marked

ROOM_MM = 2.0
"""Above and below what is written in by hand."""
ALL = ("quote", "sample", "bulk")
PORTFOLIO = "portfolio"
"""Pages to show somebody: without vendor, prices, contacts and dates."""


@dataclass(frozen=True)
class Drawings:
    """Pictures of fields, side by side."""

    entries: tuple[str, ...]
    across: int = 2
    height_mm: float = 120


@dataclass(frozen=True)
class Facts:
    """Fields with their headings, under a title; `blank` ones are to be written in by hand."""

    title: str
    entries: tuple[str, ...]
    blank: bool = False


@dataclass(frozen=True)
class Rows:
    """A table's rows: of the named columns and families those in which something stands.

    `where` keeps the rows in which that column says that, `unless` all others; `write_in` are columns without anything, to be written in by hand,
    `write_in_each` one for each member of that axis, with so much room above and below.
    `stands_for_blank`: what a blank column means where the one beside it is filled (column, beside, words).
    """

    title: str
    table: str
    columns: tuple[str, ...]
    where: tuple[str, str] | None = None
    unless: tuple[str, str] = ("", "")
    write_in: tuple[str, ...] = ()
    write_in_each: str = ""
    room_mm: float = ROOM_MM
    stands_for_blank: tuple[tuple[str, str, str], ...] = ()


@dataclass(frozen=True)
class TrueSize:
    """Pictures of a table's rows as large as they are made, with a rule to check it by; larger ones to a scale that is said."""

    table: str
    name: str
    picture: str
    width: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class RowDrawings:
    """Pictures of a table's rows, each as wide as the page, with the ref and the words of the named columns below."""

    table: str
    picture: str
    words: tuple[str, ...]
    height_mm: float = 120


@dataclass(frozen=True)
class FitForm:
    """The points of the round that is asked for, as asked, with room for what is measured."""

    table: str
    columns: tuple[str, ...]
    asked: str
    write_in: tuple[str, ...]


@dataclass(frozen=True)
class Lines:
    """So many blank rows to be written in by hand, with a column for `each` member of an axis between the others."""

    title: str
    before: tuple[str, ...]
    after: tuple[str, ...] = ()
    each: str = ""
    count: int = 12


@dataclass(frozen=True)
class Cautions:
    """The safety and legal cautions that apply to the style, by its data."""

    note: str


Block = Drawings | Facts | Rows | TrueSize | RowDrawings | FitForm | Cautions | Lines


@dataclass(frozen=True)
class Page:
    """One page, or as many as its rows take: what stands at the left, and what beside it; `left` is its share of the width.

    One that `follows` begins below the page before it, where there is room for all of it.
    """

    title: str
    left: tuple[Block, ...]
    right: tuple[Block, ...] = ()
    purposes: tuple[str, ...] = ALL
    share: float = 0.5
    follows: bool = False


_CALLOUTS = ("area", "instruction", "stitch", "seam", "density", "allowance", "thread_type")
_WEIGHT = (("weight_unit", "weight", "g/m²"),)
PAGES = (
    Page(marked("The garment"), (Drawings(("style.front", "style.back"), height_mm=120),), (
        Facts("", ("style.name", "style.number", "style.season", "style.description", "style.garment", "style.department", "style.fit", "style.size_range")),
        Rows(marked("Made of"), "materials.bom", ("item", "composition", "weight", "weight_unit"), where=("group", "fabric"), stands_for_blank=_WEIGHT),
    ), purposes=(PORTFOLIO,), share=0.64),
    Page(marked("In its colors"), (
        Drawings(("style.front", "style.view_3"), height_mm=72), Drawings(("style.back", "style.view_4"), height_mm=72),
    ), (Rows("", "colorways.components", ("component", "color", "swatch")),), purposes=(PORTFOLIO,), share=0.6),
    Page(marked("Flats"), (Drawings(("construction.flat_front", "construction.flat_back"), height_mm=140),), purposes=(PORTFOLIO,)),
    Page(marked("Overview"), (
        Drawings(("style.front", "style.back"), height_mm=88), Drawings(("style.view_3", "style.view_4"), height_mm=48),
        Facts("", ("style.contact", "style.contact_email", "style.vendor_contact", "style.vendor_email")),
        Rows(marked("Changes"), "revisions.log", ("revision", "date", "what", "before", "after")),
    ), (
        Facts(marked("The style"), ("style.description", "style.garment", "style.department", "style.age_group", "style.season", "style.fit", "style.body_length",
                            "style.size_range", "style.sample_size", "style.reference")),
        Rows(marked("Fabrics"), "materials.bom", ("item", "composition", "weight", "weight_unit", "zone"), where=("group", "fabric"), stands_for_blank=_WEIGHT),
        Facts(marked("What is asked"), ("style.due", "style.samples_wanted", "style.send_with_sample", "style.sample_address", "style.comments_by",
                                "quote.asked_quantities", "style.delivery", "style.term", "style.place", "style.transport", "style.currency", "style.payment", "style.countries",
                                "style.delivery_until")),
    )),
    Page(marked("Colors"), (
        Drawings(("style.front", "style.view_3"), height_mm=72), Drawings(("style.back", "style.view_4"), height_mm=60),
    ), (
        Rows(marked("Colorways"), "colorways.list", ("name", "code", "status", "note")),
        Rows(marked("Color of each component"), "colorways.components", ("component", "color", "reference", "swatch")),
        Rows(marked("Lab dips"), "colorways.dips", ("component", "colorway", "target_l", "target_a", "target_b", "limit", "light", "decision")),
    ), share=0.36),
    Page(marked("Construction, front"), (Drawings(("construction.flat_front",), across=1, height_mm=130),), (Rows(marked("Callouts"), "construction.callouts", _CALLOUTS, unless=("drawing", "back")),),
         share=0.36),
    Page(marked("Construction, back"), (Drawings(("construction.flat_back",), across=1, height_mm=130),), (
        Rows(marked("Callouts on the back"), "construction.callouts", _CALLOUTS, where=("drawing", "back")),
        Facts(marked("In general"), ("construction.density_unit", "construction.pressing", "construction.matching", "construction.washing", "construction.machines",
                             "quality.substitution")),
        Rows(marked("Seen on the last samples"), "fit.comments", ("seen", "point", "callout", "round", "change"), where=("state", "open")),
    ), share=0.4),
    Page(marked("Close-ups"), (Drawings(("construction.closeups",), across=1, height_mm=150),)),
    Page(marked("Details"), (TrueSize("construction.details", "detail", "shown", "drawn_width", ("callout", "drawn_width", "note")),), purposes=(*ALL, PORTFOLIO)),
    Page(marked("Artwork"), (TrueSize("artwork.pieces", "name", "picture", "width",
                              ("technique", "file", "placement", "point_across", "across", "point_down", "down", "width", "height", "grows", "width_step", "colors")),),
         purposes=(*ALL, PORTFOLIO)),
    Page(marked("Labels"), (
        Rows(marked("Labels, tags and bags"), "labels.items", ("label", "picture", "material", "width", "height", "placement", "fold", "attachment", "colors", "wording", "count")),
        Rows(marked("Composition, drafts"), "labels.composition", ("part", "wording")),
        Facts(marked("Care and origin, drafts"), ("labels.care_text", "labels.composition_text", "labels.origin_text", "labels.supplied_by")),
    )),
    Page(marked("Cautions"), (Cautions(marked("Raised by the data of this style. They are cautions, no advice: local law and an accredited laboratory decide.")),), follows=True),
    Page(marked("Where the points are"), (Drawings(("measurements.own_diagram", "measurements.diagram"), across=1, height_mm=150),)),
    Page(marked("Measurements"), (
        Rows("", "measurements.points", ("point", "how", "extent", "minus", "plus", "critical", "spec")),
        Facts(marked("How these are meant"), ("style.unit", "measurements.method", "measurements.after_wash")),
    )),
    Page(marked("Materials"), (
        Rows("", "materials.bom", ("item", "kind", "zone", "composition", "weight", "weight_unit", "width", "use", "unit", "nominated", "right_side", "color", "note"),
             stands_for_blank=_WEIGHT),
    )),
    Page(marked("Fit form"), (FitForm("fit.points", ("point", "minus", "plus"), "spec", (marked("Measured 1"), marked("Measured 2"), marked("Measured 3"), marked("Remark"))),), purposes=("sample",)),
    Page(marked("Quality and packing"), (
        Facts(marked("In the factory"), ("quality.needle", "quality.metal", "quality.lot", "quality.certificates", "quality.fabric_inspection", "quality.sealed", "quality.documents", "quality.changes",
                                      "quality.late")),
        Facts(marked("Packing"), ("quality.folding", "quality.bag", "quality.bag_warning", "quality.carton_marks", "order.carton_pieces", "order.carton_limit",
                                "order.carton_kind")),
        Rows(marked("Cords"), "quality.cords", ("place", "material", "one_piece", "free", "ends", "tacked", "note")),
    ), (
        Rows(marked("Tests"), "quality.tests", ("test", "method", "limit", "laboratory")),
        Rows(marked("Defects"), "quality.defects", ("defect", "severity", "note")),
    ), purposes=("sample", "bulk")),
    Page(marked("Pieces and markers"), (
        Rows(marked("Cut pieces of a garment"), "yield.pieces", ("piece", "outline", "material", "count")),
    ), (
        Rows(marked("Fabrics as they lie"), "yield.fabrics", ("item", "usable", "nap", "efficiency")),
        Rows(marked("Markers"), "markers.list", ("material", "state", "sizes", "garments", "width", "long", "efficiency", "each", "made_on")),
    ), purposes=("bulk",)),
    Page(marked("Order"), (
        Rows(marked("Pieces"), "order.sizes", ("size", "ordered", "total", "to_cut")),
        Facts("", ("order.number", "order.pieces", "order.overage", "order.pieces_to_cut", "order.cut_by", "order.tolerance", "order.inspector", "order.measured")),
        Facts(marked("Inspection"), ("order.code_letter", "order.aql_critical", "order.sample_critical", "order.accept_critical", "order.aql_major", "order.sample_major",
                                     "order.accept_major", "order.aql_minor", "order.sample_minor", "order.accept_minor")),
        Rows(marked("Deliveries"), "order.deliveries", ("to", "term", "place", "not_before", "not_after", "pieces", "total", "assortment")),
    ), (Rows(marked("Dates back from delivery"), "order.calendar", ("step", "due", "confirmed", "comment")),), purposes=("bulk",), follows=True),
    Page(marked("Approvals and barcodes"), (Rows(marked("Approvals"), "approvals.items", ("item", "about", "kind", "asked", "due", "sent", "courier", "received", "decision", "by", "comment")),),
         (Rows(marked("Barcodes"), "quality.barcodes", ("size", "barcode")),), purposes=("bulk",), share=0.6),
    Page(marked("Markers"), (RowDrawings("markers.list", "picture", ("material", "sizes", "width", "long", "efficiency")),), purposes=("bulk",)),
)  # fmt: skip
_BY_HAND = ("point", "minus", "plus", "spec")
FORMS = (
    Page(marked("Form: measuring a garment"), (Drawings(("measurements.own_diagram", "measurements.diagram"), across=1, height_mm=120),), (
        Rows("", "measurements.points", ("point", "how"), write_in=(marked("Measured"), marked("Remark"))),
    ), share=0.42),
    Page(marked("Form: pieces of one size"), (
        Rows("", "measurements.points", _BY_HAND, write_in=("1", "2", "3", "4", "5", "6", "7", "8")),
        Facts("", ("measurements.method", "measurements.after_wash")),
    )),
    Page(marked("Form: size set"), (Rows("", "measurements.points", _BY_HAND, write_in_each="size"),)),
    Page(marked("Form: swatches and trims"), (
        Rows("", "materials.bom", ("item", "kind", "zone", "nominated", "color"), write_in=(marked("Fixed here"), marked("Approved, date, name")), room_mm=7),
    )),
    Page(marked("Form: quote"), (
        Facts(marked("The offer"), ("quote.fob", "quote.currency", "quote.valid_until", "quote.minimum_style", "quote.minimum_colorway", "quote.surcharge", "quote.lead_time",
                            "quote.sample_price", "quote.term", "quote.place"), blank=True),
    ), (
        Rows(marked("Materials"), "materials.bom", ("item", "unit"), write_in=(marked("Supplier, article"), marked("Price, currency"), marked("Minimum"), marked("Days"))),
    ), share=0.34),
    Page(marked("Form: cut ticket"), (
        Rows(marked("Lays"), "cutting.lays", ("lay", "garments", "plies", "in_marker", "all_plies", "cut", "marker_long"), write_in=(marked("Cut on"), marked("Pieces"), marked("Name"))),
        Rows(marked("Pieces by size"), "order.sizes", ("size", "ordered", "total"), write_in=(marked("Cut"), marked("Sewn"), marked("Packed"))),
    )),
    Page(marked("Form: carton list"), (
        Lines("", (marked("Carton"), marked("Color")), (marked("Pieces"), marked("Net, kg"), marked("Gross, kg")), each="size", count=18),
        Facts("", ("order.carton_pieces", "order.carton_limit", "quality.carton_marks")),
    )),
    Page(marked("Form: changes to sign"), (
        Rows("", "revisions.log", ("revision", "date", "what", "before", "after", "why", "by"), write_in=(marked("Seen, date, name"),)),
    )),
)  # fmt: skip
"""Forms for the floor: printed when they are asked for, written in by hand."""
