"""`python -m sourloam` is the same as the command `sourloam`."""

from sourloam.cli.main import main

if __name__ == "__main__":
    main()
