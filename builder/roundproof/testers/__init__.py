"""What testers send back: their reports read, held against the pattern, and summed up.

Reports are private. Nothing of them may reach a page but counts, and measures in sum.
"""
