"""Cutting plans: `bars` and `sheets`, each with one function that plans, on the common ground of `core`."""
