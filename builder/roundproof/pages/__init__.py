"""What the site's pages print: proofs turned into plain values for templates."""
