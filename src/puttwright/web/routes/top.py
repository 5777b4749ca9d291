"""The pages that belong to no fitting."""

from __future__ import annotations

from fastapi import APIRouter

from puttwright.web.routes import calculators, golfers, guide, practice, settings

TOP_ROUTERS: tuple[APIRouter, ...] = (
    golfers.router,
    calculators.router,
    practice.router,
    settings.router,
    guide.router,
)
