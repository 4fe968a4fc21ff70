"""The house as a graph: who is connected to whom, in which switch position."""
