"""Both edges of a join laid side by side, to scale, with which stitch goes to which."""
