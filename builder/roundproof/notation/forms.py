"""The table of forms: ways of writing the work of a round, and the house style of each.

This table is the grammar's document. A test holds that every row is read, that it is read as the
same tree as its house style, and that house style is what the writer writes.

    items    = item { sep item }          sep = ',' ';' '.' '+' '/' 'and' or nothing
    item     = stitches | group | star | marker
    stitches = [n] unit [n] [x n] tail    unit = stitch | inc | dec | Ntog | skip | chain
    tail     = where it goes, how far, through which loop, in which yarn
    group    = '(' items ')' times        also [ ] and { }
    star     = '*' items ( '*' times | ';' rep from '*' times )
    times    = x n | n times | around | to last n sts | nothing
    marker   = loop | colour | other side | turn | join | leave n sts unworked

Wordings with two meanings (TWO_WAYS) are read both ways; the fabric settles which one holds.
"""

from __future__ import annotations

FORMS: tuple[tuple[str, str], ...] = (
    # as written                                      house style
    ("6 sc in magic ring", "6 sc in magic ring"),
    ("MR, 6 sc", "6 sc in magic ring"),
    ("magic ring with 6 sc", "6 sc in magic ring"),
    ("6 single crochet into a magic circle", "6 sc in magic ring"),
    ("ch 2, 6 sc in 2nd ch from hook", "ch 2, 6 sc in 2nd ch from hook"),
    ("3 sc", "3 sc"),
    ("3sc", "3 sc"),
    ("sc 3", "3 sc"),
    ("sc x 3", "3 sc"),
    ("sc in next 3 sts", "3 sc"),
    ("1 sc in each of the next 3 stitches", "3 sc"),
    ("sc, sc, sc", "3 sc"),
    ("sc in next st", "1 sc"),
    ("sc around", "sc around"),
    ("sc in each st around", "sc around"),
    ("work even", "sc around"),
    ("inc", "inc"),
    ("inc x 6", "inc x 6"),
    ("6 inc", "inc x 6"),
    ("2 sc in next st", "inc"),
    ("2 sc in each of next 3 sts", "inc x 3"),
    ("2 sc in each st around", "inc around"),
    ("inc in each st around", "inc around"),
    ("3 sc in next st", "3 sc in next st"),
    ("hdc inc", "2 hdc in next st"),
    ("(sc, hdc, dc) in next st", "(sc, hdc, dc) in next st"),
    ("2 sc in every 3rd st around", "(2 sc, inc) around"),
    ("dec", "dec"),
    ("sc2tog", "dec"),
    ("sc3tog", "sc3tog"),
    ("2 sc tog", "dec"),
    ("sc next 2 together", "dec"),
    ("inv dec x 6", "inv dec x 6"),
    ("dec around", "dec around"),
    ("sk 1", "sk 1"),
    ("(2 sc, inc) x 6", "(2 sc, inc) x 6"),
    ("[2 sc, inc] 6 times", "(2 sc, inc) x 6"),
    ("(2 sc, inc)6", "(2 sc, inc) x 6"),
    ("(2 sc, inc) 6x", "(2 sc, inc) x 6"),
    ("[6x: inc, 2 sc]", "(inc, 2 sc) x 6"),
    ("*2 sc, inc* x 6", "(2 sc, inc) x 6"),
    ("*2 sc, inc; rep from * around", "(2 sc, inc) around"),
    ("*2 sc, inc* around", "(2 sc, inc) around"),
    ("(2 sc, inc) around", "(2 sc, inc) around"),
    ("*2 sc, inc; rep from * 5 more times", "(2 sc, inc) x 6"),
    ("*2 sc, inc; rep from * to last 3 sts, 3 sc", "(2 sc, inc) to last 3 sts, 3 sc"),
    ("sc to last 2 sts, dec", "sc to last 2 sts, dec"),
    ("((sc, inc) x 2, dec) x 3", "((sc, inc) x 2, dec) x 3"),
    ("BLO: sc around", "BLO: sc around"),
    ("sc in BLO around", "BLO: sc around"),
    ("in back loops only, sc in each st around", "BLO: sc around"),
    ("sc around in FLO", "FLO: sc around"),
    ("3 sc in FLO, 3 sc", "3 sc in FLO, 3 sc"),
    ("sl st in next st", "1 sl st"),
    ("sc around, sl st in first st", "sc around, sl st in first st"),
    ("sc around, join", "sc around, sl st in first st"),
    ("ch 3", "ch 3"),
    ("ch 1, turn", "ch 1, turn"),
    ("leave 6 sts unworked", "leave 6 sts unworked"),
    ("sc 3 through both layers", "3 sc through both layers"),
    # places of their own: other pieces, stitches left, chains made in the round
    ("sc 12 around first leg, ch 3, sc 12 around second leg, sc in each ch",
     "12 sc around first leg, ch 3, 12 sc around second leg, sc along ch"),
    ("sc in next 9 sts of first leg", "9 sc around first leg"),
    ("(2 sc, inc) x 4 around first leg", "(2 sc, inc) x 4 around first leg"),
    ("sc around first leg", "sc around first leg"),
    ("5 sc through first arm and body", "5 sc through first arm and body"),
    ("sc 5 through front of first arm and body", "5 sc through front of first arm and body"),
    ("6 sc in the unworked stitches of round 8", "6 sc in unworked sts of R8"),
    ("sc in each of the 6 sts left unworked in R8", "6 sc in unworked sts of R8"),
    ("sc 5, ch 3, sc 5, 3 sc in the other side of the ch", "5 sc, ch 3, 5 sc, 3 sc along ch"),
    ("12 sc along the path", "12 sc along path"),
    (
        "Ch 7. Sc in 2nd ch from hook, sc 4, 3 sc in last ch, working on the other side sc 4,"
        " 2 sc in last ch",
        "ch 7, sc in 2nd ch from hook, 4 sc, 3 sc in last ch, on the other side: 4 sc,"
        " inc in last ch",
    ),
    (
        "ch 11, sc in 2nd ch from hook and in each ch across",
        "ch 11, sc in 2nd ch from hook, sc around",
    ),
    ("ch 24, join with sl st, sc in each ch around", "ch 24, sl st in first st, sc around"),
    ("sk next st", "sk 1"),
    ("hdc inv dec", "hdc inv dec"),
    ("3 dc in next st x 2", "3 dc in each of next 2 sts"),
    ("(sc, hdc) in each of next 2 sts", "(sc, hdc) in each of next 2 sts"),
    ("(sc, ch 2, sc) in each st", "(sc, ch 2, sc) in each st around"),
    ("sc, 6 inc", "sc, 6 inc"),
    ("1 sc through both layers", "1 sc through both layers"),
    # written out in full, for reading aloud
    ("single crochet in each of the next 5 stitches", "5 sc"),
    ("2 single crochet in the next stitch", "inc"),
    ("2 single crochet in each of the next 3 stitches", "inc x 3"),
    ("single crochet the next 2 stitches together", "dec"),
    ("single crochet each of the next 6 pairs of stitches together", "dec x 6"),
    ("single crochet each of the next 2 groups of 3 stitches together", "sc3tog x 2"),
    ("make an invisible decrease over the next 2 stitches", "inv dec"),
    ("make an invisible decrease over each pair of stitches around", "inv dec around"),
    ("single crochet in the front loop only of the next stitch, then skip 1", "FLO: sc, sk 1"),
    ("skip the next stitch", "sk 1"),
    ("6 single crochet in a magic ring", "6 sc in magic ring"),
    ("chain 2, then single crochet in the second chain from the hook",
     "ch 2, sc in 2nd ch from hook"),
    ("work the following in the next stitch: 1 single crochet, chain 2; end of the group",
     "(sc, ch 2) in next st"),
    ("double crochet in the next stitch, then 2 single crochet in the next stitch."
     " Do this 6 times in all", "(dc, inc) x 6"),
    ("single crochet in the next stitch. Repeat this to the last stitch. Then skip the next"
     " 1 stitch", "(sc) to last 1 st, sk 1"),
    ("single crochet in the next stitch. Then do the following 3 times: 2 single crochet in the"
     " next stitch; end of the repeat. Then chain 1", "sc, (inc) x 3, ch 1"),
    ("in the free front loops of round 6: in the back loops only: single crochet in each stitch"
     " around", "in the free front loops of R6: BLO: sc around"),
    ("join with a slip stitch in the first stitch, then turn the work", "sl st in first st, turn"),
)  # fmt: skip

TWO_WAYS: tuple[tuple[str, str, str], ...] = (
    # as written                          one meaning              the other
    ("*2 sc, inc; rep from * 5 times", "(2 sc, inc) x 5", "(2 sc, inc) x 6"),
    ("(2 sc, inc)", "2 sc, inc", "(2 sc, inc) around"),
    ("inc, 2 sc x 6", "inc, 12 sc", "(inc, 2 sc) x 6"),
    ("inc3", "3 sc in next st", "inc x 3"),
    ("sc", "1 sc", "sc around"),
    ("2 sc, inc, 6 times", "(2 sc, inc) x 6", "2 sc, (inc) x 6"),
)
