"""Rows of the figures, a module a section. Their field names are keys of figures.json: add, do not rename."""
