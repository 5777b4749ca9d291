"""What is set stays set; what was not touched stays as it was."""

from __future__ import annotations

from datetime import datetime

from puttwright.store import Store, settings


def test_what_is_set_is_there_and_the_rest_stays(store: Store, now: datetime) -> None:
    with store.writing() as write:
        assert settings.load(write) == {}
        settings.put(write, {"language": "de", "shop": "Nord"}, now=now, who="fitter")
    with store.writing() as write:
        settings.put(write, {"language": "en"}, now=now, who="fitter")

    with store.reading() as look:
        assert settings.load(look) == {"language": "en", "shop": "Nord"}
