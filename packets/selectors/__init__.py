"""What the pages of packets read."""
