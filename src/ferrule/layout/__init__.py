"""Geometry derived from the job: what hangs where on each wall, what lies where on each roof face."""
