"""The colours of a patterned piece, a cell a stitch."""
