"""What a command answers with where it cannot do what was asked."""


class Refused(Exception):
    """A wish that cannot be met; the message says why, and what can. The command ends with exit code 2."""
