"""Words by which the parts of some notes are known: common practice of the trade, no source."""

from __future__ import annotations

import re

_PARTS = """
    antenna antennae apron arm arms back band base basket bauble beak beard bell belly belt body
    boot boots bottom bow bowl brim bump bumps button cap cape carapace cheek cheeks chest claw
    claws coat collar comb cone crest crown cup disc dress ear earflap ears eye eyebrow eyebrows
    eyelid eyelids eyes face feather feathers feeler feelers feet fin finger fingers fins flap
    flipper flippers float flower foot front gill gills hair hand handle hands hat head heart
    heel hem hood hoof hooves horn horns jaw kneecap leaf leaves leg legs lid limb limbs lip lips
    lower mane mantle mouth muzzle nail neck nose nostril nostrils outer inner paw paws pad pads
    patch peak petal petals pincer pincers pocket pot rim ring roof root roots scale scales scarf
    shell shirt shoe shoes side sides skirt sleeve sleeves snout sock socks sole spike spikes
    spine spines spot spots stalk star stem stinger strap stripe sucker suckers tail tentacle
    tentacles tip toe toes tongue tooth teeth top torso trunk tummy tusk tusks tuft underside
    upper waist wheel wheels whisker whiskers wing wings wrist eyestalk eyestalks rostrum
"""
PARTS = frozenset(_PARTS.split())
"""What pieces are usually called."""

_COLOURS = """
    amber apricot aqua beige black blue bronze brown burgundy camel caramel charcoal cherry
    chestnut chocolate cinnamon clay cobalt copper coral cream crimson denim ecru emerald fawn
    flesh gold golden graphite gray green grey honey indigo ivory jade khaki lavender lemon lilac
    lime magenta maroon mauve mint moss mustard natural navy oatmeal ochre olive orange peach
    petrol pink plum purple raspberry red rose ruby rust saffron sage salmon sand sapphire scarlet
    sienna silver skin slate stone straw tan taupe teal terracotta turquoise vanilla violet walnut
    white wine yellow chalk
"""
COLOURS = frozenset(_COLOURS.split())
SHADES = "light|dark|pale|bright|deep|dusty|soft|medium|mid|off|pastel|hot|baby|royal|sky|warm|cool"

COLOUR = re.compile(
    rf"(?i)(?<![\w-])(?:(?:{SHADES})[ -])*(?:(?:{'|'.join(sorted(COLOURS))})[ -])?"
    rf"(?:{'|'.join(sorted(COLOURS))})(?!\w)(?!-)"
)
"""A colour: 'sand', 'light grey', 'olive green'."""
_FIBRES = "cotton acrylic wool merino alpaca bamboo linen mohair polyester chenille velvet viscose"
FIBRES = _FIBRES.split()
WEIGHTS = (
    (6, r"super[ -]?(?:bulky|chunky)"),
    (5, r"bulky|chunky"),
    (4, r"(?<!light )worsted|aran|10[ -]?ply"),
    (3, r"dk|double[ -]knit(?:ting)?|light worsted|8[ -]?ply"),
    (2, r"sport(?:[ -]?weight)?|5[ -]?ply"),
    (1, r"fingering|sock(?: yarn)?|4[ -]?ply"),
    (0, r"lace(?:[ -]?weight)?|2[ -]?ply"),
)
"""Names of standard weight categories: the yarn standard's, and the British plies beside them."""

YARN = re.compile(
    r"(?i)\b(?:yarns?|wool|cotton|acrylic|dk|worsted|aran|fingering|chunky|bulky|merino|alpaca|"
    r"\d{1,2}[ -]?ply|balls?|skeins?|hanks?|sport ?weight|main colou?r|chenille|velvet|"
    r"colou?r [A-Z])\b"
)
NOTIONS = re.compile(
    r"(?i)\b(?:needles?|eyes?|nose|noses|fib(?:re|er)[ -]?fill(?:ing)?|poly[ -]?fil{1,2}(?:ing)?|"
    r"stuffing|filling|toy fill|wadding|batting|markers?|scissors|pins?|threads?|floss|felt|wire|"
    r"pipe[ -]cleaners?|beads?|buttons?|glue|ribbon|bells?|cardboard|magnets?|kapok|squeaker|"
    r"rattle|pellets|elastic|key ?rings?|keychain|embroidery|tape measure|pompoms?|rice)\b"
)
_NEEDED = (
    r"materials?|supplies|tools|notions|equipment|ingredients|haberdashery|shopping list|"
    r"(?:what |things |for this )?(?:you(?:['’]ll| will)?|i) (?:will )?(?:need|used?)|needed|"
    r"yarns?|colou?rs|yarns? used|(?:crochet )?hooks?|other bits|extras|(?:you )?also need(?:ed)?"
)
SECTIONS = tuple(
    (name, re.compile(rf"(?i)(?:the |some )?(?:{words})(?: (?:&|and|\+|/|or) [a-z]+)*"
                  r"(?: (?:needed|used|list|required|instructions|for this pattern|together))*"))
    for name, words in (
        ("materials", _NEEDED),
        ("gauge", r"gauge|tension|tension square"),
        ("abbreviations", r"abbreviations?|stitch(?:es)?(?: guide| key)?|key|terminology|"
                          r"terms(?: us| uk| american| british)?|"
                          r"legend|glossary|stitch abbreviations|special stitches"),
        ("assembly", r"assembly|assembling|assemble|finishing(?: touches| off)?|making up|"
                     r"to make up|make up|putting (?:it|everything)(?: all)?|construction|"
                     r"sewing(?: up)?|joining|put (?:it|everything)(?: all)?|to finish"),
        ("end", r"(?:about (?:me|us|the (?:author|designer)))|comments?|leave a (?:reply|comment)|"
                r"related(?: posts)?|tags|copyright|share(?: this)?|you may also like.*|"
                r"previous post|next post|follow (?:me|us).*|the end|newsletter"),
        ("about", r"notes?|general notes?|pattern notes?|before you (?:start|begin)|tips?|"
                  r"difficulty|skill level|level|introduction|intro|description|"
                  r"(?:finished )?(?:size|measurements?)|techniques?|the pattern|pattern|"
                  r"instructions?|directions|method|photos?|pictures?|rounds|changes"),
    )
)  # fmt: skip
"""What a heading that is no piece announces."""

ITEMS = re.compile(
    r"(?i)^(?P<what>materials?|supplies|you(?:['’]ll| will)? need|what you(?:['’]ll| will)? need|"
    r"yarns?|colou?rs?|hooks?|hook size|crochet hook|eyes|stuffing|filling|notions|tools|other|"
    r"needle|main colou?r|contrast(?:ing)? colou?r|(?:yarn|colou?r) [A-Z])\b\s*"
    r"(?:\([^)]*\)\s*)?[:=–—-]\s*(?P<rest>\S.*)$"
)
"""A material with what it is, on one line."""
GAUGE = re.compile(r"(?i)^\W*(?:my |the )?(?:gauge|tension)\b\s*[:=–—-]?\s*")

JUNK = re.compile(
    r"(?i)^\W*(?:advertisements?|ads?|sponsored(?: content)?|(?:continue|keep) reading.*|"
    r"(?:click|tap) (?:here|on|to).*|(?:pin|save|share) (?:it|this|for later).*|"
    r"subscribe\b.*|sign up\b.*|https?://\S+|www\.\S+|!\[[^\]]*\]\([^)]*\)|"
    r"\[?(?:image|photo|picture|figure|fig\.?|img|pic|screenshot|caption|video)s?\b"
    r"(?:\s*\d+)?(?:\s*[:.\])–-].*|\s+(?:of|by|from|shows?)\b.*|\s*)|"
    r"page \d+(?:\s*(?:of|/)\s*\d+)?|p\.?\s*\d+(?:\s*/\s*\d+)?|[-–]\s*\d{1,3}\s*[-–]|"
    r"(?:©|\(c\)|copyright\b).*|all rights reserved.*|\d+ (?:comments?|likes|shares)|"
    r"(?:sent from|on .{5,60} wrote:).*|back to top|print this.*|jump to .*|"
    r"posted (?:by|on|in)\b.*|tweet|pinterest|skip to .*)\W*$"
)
"""Lines of web pages, mail and printed pages that say nothing of the work."""
MAIL = re.compile(r"(?i)^(?:from|to|cc|bcc|sent|date|subject|betreff|reply-to|attachments?)\s*:")
GREETS = re.compile(r"(?i)^(?:hi|hello|hey|dear|good (?:morning|evening))\b.{0,40}$")
PARTS_WITH = re.compile(
    r"(?i)^(?:love|cheers|thanks?|thank you|best(?: wishes| regards)?|(?:kind |warm )?regards|"
    r"happy (?:crocheting|hooking|making).*|xx+|bye|see you.*|hugs|enjoy|good luck.*)\s*[,.!]*"
    r"(?:\s+\w+)?$"
)

CRAFT = re.compile(
    r"(?i)\b(?:tail|sew(?:ing|n)?|stuff(?:ing|ed)?|weave|attach|pin|gather|cut|fold|flatten|"
    r"fasten|insert|embroider|eyes?|yarn|stitch(?:es)?|rounds?|rows?|needle|safety|hole|close|"
    r"right side|inside out|thread|knot|leave|join|mark(?:er)?|set aside|repeat|same)\b"
)
"""Words of work: what stands after the last round and has none of them is no part of a piece."""
SEWN = re.compile(
    r"(?i)^(?:\W*\d{1,2}[.)]\s*)?(?:(?:finally|now|then|next|lastly|to finish),?\s+)?"
    r"(?:sew|attach|assemble|pin|position|place|put|embroider|glue|join)\b"
)
_VERBS = """
    add adjust and as at attach before begin bring but carefully carry change check close continue
    cut do don't draw embroider fasten finish fo fold for from gather how if in insert it join keep
    leave make mark move next note now once only place position pull push put rep repeat
    secure see sew skip start stitch stuff take that the then there these this tie to turn until use
    using weave when with work you your we i my after finally optional important remember hint tip
"""
VERBS = frozenset(_VERBS.split())
"""Words that no heading of a piece starts with."""
