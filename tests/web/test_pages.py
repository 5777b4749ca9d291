"""Templates are compiled before anybody's first entry waits for one."""

from __future__ import annotations

from puttwright.web import pages


def test_every_template_is_compiled_once_the_pages_are_ready(monkeypatch) -> None:
    pages._environment.cache_clear()
    compiled: list[str] = []
    environment = pages._environment()
    compile_one = environment.compile
    monkeypatch.setattr(
        environment, "compile", lambda *a, **k: compiled.append(a[1]) or compile_one(*a, **k)
    )

    pages.get_pages_ready()

    assert "green.html" in compiled
    assert sorted(compiled) == environment.list_templates()
    compiled.clear()
    pages.get_pages_ready()
    assert compiled == []
