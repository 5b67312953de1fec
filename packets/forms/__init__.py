"""Forms of the packets sheet."""
