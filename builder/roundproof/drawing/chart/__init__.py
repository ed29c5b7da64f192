"""The stitch chart of a piece: every stitch as its sign, over the ones it is worked into."""
