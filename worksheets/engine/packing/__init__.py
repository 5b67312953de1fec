"""Laying flat pieces on a bolt of cloth: rows head to tail, and rectangles in a strip."""
