"""`python -m ferrule`."""

from ferrule.cli import main

raise SystemExit(main())
