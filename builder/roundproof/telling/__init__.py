"""Results told: to a terminal, to programs, to services that show annotations."""
