"""`python -m letterfit`: the command line."""

from letterfit.cli import main

if __name__ == "__main__":
    main()
