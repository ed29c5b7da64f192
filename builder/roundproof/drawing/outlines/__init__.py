"""The outline of a piece: to scale, with its rounds, yarns and how it lies."""
