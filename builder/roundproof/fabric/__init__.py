"""Rounds worked: what each uses, makes and leaves."""
