"""What the schema knows and this release leaves alone, each with a note to the designer.

A pair is a group of keys and a key of it, or a key and a value of it. Take a pair out once a
stage works it: nothing else is to be changed.
"""

UNWORKED = frozenset(
    {
        ("`specimen`", "handed"),
    }
)
