"""The command line."""


def main() -> None:
    """Placeholder until the first command lands in this same stage."""
