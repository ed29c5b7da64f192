"""A pattern on paper: what its page prints as plain values, and the PDF made of them."""
