"""Answers as drawings and as a sheet for print: pure functions from an answer to SVG or HTML."""
