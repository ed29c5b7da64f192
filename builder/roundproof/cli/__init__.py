"""The commands, a file each. See `main` for what a command file holds."""
