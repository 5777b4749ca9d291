"""The pages over a folder, shared with the network, which is this machine alone here."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "web"))

from made_up import made_up

from puttwright.deeds.bootstrap import open_shop
from puttwright.web.serve import serve_shop
from puttwright.web.sharing import Share

shop = open_shop(Path(sys.argv[1]), decide=made_up)
try:
    serve_shop(shop, port=0, share=Share(port=0, name="127.0.0.1"))
finally:
    shop.close()
