"""One module a command: ``add_parser(subparsers)`` says what it takes, ``run(args)`` does it."""
