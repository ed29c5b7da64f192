"""What the templates of a pattern's page and of its tester copy print: plain values, nothing to
work out. Markup is HTML that is safe to print; a str is text that the template escapes."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from roundproof.drawing.yarns import YarnMark
from roundproof.frozen import dataclass
from roundproof.pattern.model import Status, Terms


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo as a file for every browser, and in `srcset` as WebP in all sizes: addresses are
    relative to the pattern's page. The `first` of a page is loaded at once."""

    src: str
    width: int
    height: int
    srcset: str = ""
    first: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing with its caption; `title` is what is read out in its place, `words` tell it in
    lines."""

    svg: Markup
    title: str
    caption: Markup
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing that is a file beside the page: `src`, and `left` for left-handed makers, empty
    where that is the same. `title` is what is read out in its place, `words` say what it shows in
    lines, none where the page does so already."""

    kind: str
    name: str
    src: str
    left: str
    width: int
    height: int
    title: str
    caption: Markup
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Photo:
    picture: Picture
    alt: str
    credit: str


@dataclass(frozen=True, slots=True)
class Fact:
    """`more` stands smaller behind the value; `link` is where it leads, empty for nowhere."""

    label: str
    value: Markup
    more: str = ""
    link: str = ""


@dataclass(frozen=True, slots=True)
class Safety:
    """The designer's own words, and the line that names the hazards."""

    note: Markup
    hazards: str


@dataclass(frozen=True, slots=True)
class Thing:
    """A yarn, hook or notion with its box. `hazard` is said beside the warning sign."""

    id: str
    drawing: Markup
    name: Markup
    more: tuple[Markup, ...] = ()
    hazard: str = ""


@dataclass(frozen=True, slots=True)
class Materials:
    summary: str
    legend: str
    things: tuple[Thing, ...]


@dataclass(frozen=True, slots=True)
class RoundRow:
    """A round, or a range with one box for all and one for each (`singles`). `label` is as
    findings name it ("R4-R6"), `shown` as printed; `first` and `rounds` say the same in numbers;
    `tall` is the least pixels its bars need."""

    id: str
    anchors: tuple[str, ...]
    label: str
    shown: str
    first: int
    rounds: int
    bar: Markup
    tall: int | None
    gap: Markup
    work: Markup
    count: str
    count_more: str
    box: str
    remarks: tuple[Markup, ...]
    singles: tuple[str, ...]
    singles_summary: str
    write: str
    is_round: bool = True


@dataclass(frozen=True, slots=True)
class NoteRow:
    """What is said, done or seen between rounds."""

    said: tuple[Markup, ...]
    gap: Markup
    photos: tuple[Photo, ...] = ()
    is_round: bool = False


Row = RoundRow | NoteRow


@dataclass(frozen=True, slots=True)
class PieceWork:
    """A piece with all its rounds. `shown` is its name for either hand. `copies` are the numbers of
    its boxes, where it is made more than once; `uncounted` says how many more there are."""

    id: str
    key: str
    name: str
    shown: Markup
    make: int
    figures: str
    silhouette: Markup
    summary: Markup
    outline: Figure | None
    copies: tuple[int, ...]
    uncounted: str
    yarns: tuple[YarnMark, ...]
    ruffles: bool
    ruler: Markup
    columns: tuple[str, str]
    rows: tuple[Row, ...]
    report: str
    drawn: tuple[Drawn, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the assembly; `back` and `back_words` lead to the round it belongs to; `fit` is
    how its two edges meet, empty for a step that joins none."""

    text: Markup
    back: str = ""
    back_words: str = ""
    fit: Markup = Markup("")


@dataclass(frozen=True, slots=True)
class PieceSizes:
    """What a copy of a piece measures before stuffing, and the time all copies take; a figure that
    cannot be told is empty. `why` says of those why, in sentences."""

    id: str
    name: str
    make: int
    size: Markup
    edge: Markup
    time: str
    why: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sizes:
    """What comes off the hook, piece by piece. `basis` says what the figures rest on."""

    basis: str
    pieces: tuple[PieceSizes, ...]
    making_up: str


@dataclass(frozen=True, slots=True)
class GaugeLine:
    """A line to fill in: the yarn, the pattern's own `stitches` and `rounds` over 10 cm (empty
    where not known), the stitch they are `counted` in where it is no single crochet. `leader` is
    the place of the line it goes with until something is written in it, its own for none."""

    key: str
    yarn: Markup
    words: str
    stitches: str
    rounds: str
    counted: Markup
    leader: int
    guessed: bool


@dataclass(frozen=True, slots=True)
class Predicted:
    """A row of what follows from a gauge: `kind` is "size", "piece", "fit", "notion" or "yarn"."""

    kind: str
    what: Markup
    was: Markup


@dataclass(frozen=True, slots=True)
class OtherGauge:
    """The pattern with every stitch `factor` times as large; `stitches` those of the first yarn
    over 10 cm, `metres` one for each yarn, `notions` sizes of what is set on it."""

    factor: str
    stitches: str
    size: Markup
    metres: tuple[str, ...]
    notions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class InYourYarn:
    """`data` is what the script reckons with, as JSON that may stand in a page."""

    lines: tuple[GaugeLine, ...]
    rows: tuple[Predicted, ...]
    data: Markup
    others: tuple[OtherGauge, ...]


@dataclass(frozen=True, slots=True)
class Word:
    """An abbreviation in both terms, each "short, name", and what is done."""

    us: str
    uk: str
    means: Markup


@dataclass(frozen=True, slots=True)
class ChangeEntry:
    version: str
    date: str
    note: Markup


@dataclass(frozen=True, slots=True)
class PartRow:
    """A part of the specimen, the pieces that stand for it, and what is said of it."""

    part: str
    pieces: Markup
    about: Markup


@dataclass(frozen=True, slots=True)
class Specimen:
    """`statements` carry their source's number."""

    name: str
    lines: tuple[Markup, ...]
    parts: tuple[PartRow, ...]
    simplified: tuple[Markup, ...]
    statements: tuple[Markup, ...]
    references: tuple[Markup, ...]


@dataclass(frozen=True, slots=True)
class Contact:
    """`link` is empty where the words are no address."""

    words: str
    link: str


@dataclass(frozen=True, slots=True)
class Sold:
    """What a preview tells in the place of its rounds: the pieces by name with how many to make,
    and where the whole pattern is to be had."""

    pieces: tuple[tuple[str, int], ...]
    contact: Contact | None


@dataclass(frozen=True, slots=True)
class Booklet:
    """The page as a PDF beside it: its file, what it is called, how large it is."""

    file: str
    label: str
    size: str


@dataclass(frozen=True, slots=True)
class PatternPage:
    """`unlisted` pages ask search engines to pass them by; a `preview` page has no rounds, and
    says in `sold` where they are. `drawn` are the drawings of the assembly."""

    slug: str
    title: str
    description: str
    name: Markup
    lead: Markup
    status: Status
    standing: str
    unlisted: bool
    preview: bool
    terms: Terms
    level: str
    version: str
    date: str
    size_line: Markup
    plate: Figure | None
    facts: tuple[Fact, ...]
    safety: Safety
    care: Markup
    materials: Materials
    yarns: tuple[YarnMark, ...]
    pieces: tuple[PieceWork, ...]
    steps: tuple[Step, ...]
    sizes: Sizes | None
    in_your_yarn: InYourYarn | None
    left_right: Markup
    handed: str
    photos: tuple[Photo, ...]
    specimen: Specimen | None
    words: tuple[Word, ...]
    changes: tuple[ChangeEntry, ...]
    designer: str
    licence: Contact | None
    permissions: tuple[tuple[str, str], ...]
    contact: Contact | None
    credits: tuple[Markup, ...]
    sold: Sold | None
    drawn: tuple[Drawn, ...] = ()


@dataclass(frozen=True, slots=True)
class Total:
    """A piece's figures for the tester to compare with."""

    key: str
    piece: str
    make: str
    rounds: str
    stitches: str


At = tuple[str, ...]
"""The place of an answer in the file that a tester sends back: its keys, from the outermost in."""


@dataclass(frozen=True, slots=True)
class TesterPage:
    """The tester copy: the same rounds with room to write, and the report. `yarns` are those that
    have a name, by their keys; `sizes` what to measure, by key; `remarks` says for the id of each
    round where in the file what is written beside it goes."""

    page: PatternPage
    totals: tuple[Total, ...]
    hook: str
    yarns: tuple[tuple[str, YarnMark], ...]
    sizes: tuple[tuple[str, str], ...]
    remarks: Mapping[str, At]
