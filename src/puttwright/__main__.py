"""``python -m puttwright``: the program, where its command is not on the path."""

from puttwright.cli import main

if __name__ == "__main__":
    main(prog_name="puttwright")
