"""The pages over a folder, for the browser tests: decisions made up, or real ones when asked."""

from __future__ import annotations

import os
import sys
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the program itself runs

sys.path.insert(0, str(Path(__file__).parent.parent / "web"))

from made_up import made_up

from puttwright.deeds.bootstrap import decide_now, open_shop
from puttwright.web.serve import serve_shop

folder, port, how = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3]
shop = open_shop(folder, decide=made_up if how == "made-up" else decide_now)
try:
    serve_shop(shop, port=port)
finally:
    shop.close()
