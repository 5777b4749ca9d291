"""The pages that belong to no fitting."""

from __future__ import annotations

from fastapi import APIRouter

from puttwright.web.routes import guide, settings

TOP_ROUTERS: tuple[APIRouter, ...] = (settings.router, guide.router)
