"""Roundproof: proves and publishes patterns for stuffed crochet."""

__version__ = "0.1.0"
