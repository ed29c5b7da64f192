"""Drawings: plain shapes worked out from counts and measures, and the SVG text made of them."""
