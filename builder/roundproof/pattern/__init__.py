"""A pattern's folder read into located values."""
