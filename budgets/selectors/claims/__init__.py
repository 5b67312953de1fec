"""What may be claimed, what was, what came of it."""
