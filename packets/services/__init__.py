"""What changes packets."""
