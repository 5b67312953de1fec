"""The lanes timeline: pure layout from a chart to the numbers of an SVG; ``rows`` reads models."""
