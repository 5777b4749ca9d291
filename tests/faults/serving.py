"""Serves a shop again and again, each time in a process of its own that can be killed.

Everything is imported once; a line on standard input names a folder, and a copy of
this process opens that shop and serves its pages as the program does. The pid and
what the pages say go to standard output.
"""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "web"))

from made_up import made_up

from puttwright.deeds.bootstrap import open_shop
from puttwright.errors import UserError
from puttwright.web.serve import serve_shop

signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody waits for those that are killed
for line in sys.stdin:
    child = os.fork()
    if child:
        continue
    sys.stdout.write(f"{os.getpid()}\n")
    sys.stdout.flush()
    try:
        shop = open_shop(Path(line.rstrip("\n")), decide=made_up)
        serve_shop(shop, port=0)
        shop.close()
    except UserError as trouble:
        sys.stdout.write(f"{trouble}\n")
        sys.stdout.flush()
    os._exit(0)
