"""Writes patterns and sites: a new draft, a new start."""
