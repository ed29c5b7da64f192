"""Where the assembly sets things on a piece: seen from the side, and along its rounds."""
