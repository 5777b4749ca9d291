"""Writes readings into a shop again and again, each time in a process that can be killed.

Everything is imported once; a line on standard input says where and from which
numbers on, and a copy of this process writes with the deed the pages use, from
several threads. An entry is acknowledged on standard output when the deed returns.
"""

from __future__ import annotations

import json
import os
import sys
import threading
from pathlib import Path

from puttwright.deeds.bootstrap import Shop, open_shop
from puttwright.deeds.record_reading import record_reading
from puttwright.evidence import Putt


def _write(shop: Shop, *, fitting_id: str, name: str, number: int) -> None:
    while True:
        putt = Putt(seq=0, build_id="B", distance_m=3, holed=False, stop_past_m=0.4)
        kept = record_reading(
            shop.store, shop.clock, fitting_id=fitting_id, reading=putt,
            entry_key=f"{name}-{number}", who=name,
        )  # fmt: skip
        os.write(1, f"{name} {number} {kept.seq}\n".encode())
        number += 1


for line in sys.stdin:
    asked = json.loads(line)
    child = os.fork()
    if child:
        os.write(1, f"pid {child}\n".encode())
        os.waitpid(child, 0)
        os.write(1, b"end\n")
        continue
    shop = open_shop(Path(asked["folder"]))
    for name, number in asked["next"].items():
        threading.Thread(
            target=_write, args=(shop,),
            kwargs={"fitting_id": asked["fitting_id"], "name": name, "number": number},
        ).start()  # fmt: skip
    threading.Event().wait()
