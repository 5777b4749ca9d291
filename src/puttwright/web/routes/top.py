"""The pages that belong to no fitting."""

from __future__ import annotations

from fastapi import APIRouter

from puttwright.web.routes import (
    backups,
    calculators,
    golfers,
    guide,
    people,
    practice,
    settings,
    trail,
)

TOP_ROUTERS: tuple[APIRouter, ...] = (
    golfers.router,
    people.router,
    calculators.router,
    practice.router,
    settings.router,
    backups.router,
    trail.router,
    guide.router,
)
