"""Read: what pages show."""
