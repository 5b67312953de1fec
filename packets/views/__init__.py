"""Pages of the packets sheet."""
