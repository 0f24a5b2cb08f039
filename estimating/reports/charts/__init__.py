"""Drawings and charts, as SVG text."""
