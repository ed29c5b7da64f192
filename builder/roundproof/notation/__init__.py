"""Round text and the instruction tree: reading one, writing the other."""
