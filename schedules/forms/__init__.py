"""Forms: what people type, answered in sentences."""
