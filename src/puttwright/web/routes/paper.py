"""What can be taken along: the golfer's sheet, the build order, the decision, the package."""

from __future__ import annotations

from fastapi import APIRouter, Response

from puttwright.deeds.export_package import export_package
from puttwright.deeds.hand_out import build_order, decision_file, golfers_sheet
from puttwright.web.contexts.heading import quoted
from puttwright.web.here import ShopHere

router = APIRouter()


@router.get("/fittings/{fitting_id}/report.pdf")
def report(fitting_id: str, shop: ShopHere) -> Response:
    """The golfer's sheet."""
    data = golfers_sheet(shop, fitting_id)
    return handed_out(data, kind="application/pdf", name=f"{fitting_id}-sheet.pdf", shown=True)


@router.get("/fittings/{fitting_id}/order.pdf")
def order(fitting_id: str, shop: ShopHere) -> Response:
    """The build order as it would be, before it is kept."""
    data = build_order(shop, fitting_id)
    return handed_out(data, kind="application/pdf", name=f"{fitting_id}-order.pdf", shown=True)


@router.get("/fittings/{fitting_id}/decision.json")
def decision_json(fitting_id: str, shop: ShopHere) -> Response:
    """The decision as a file."""
    data = decision_file(shop, fitting_id)
    return handed_out(data, kind="application/json", name=f"{fitting_id}-decision.json")


@router.get("/fittings/{fitting_id}/package.zip")
def package(fitting_id: str, shop: ShopHere) -> Response:
    """The fitting package."""
    data = export_package(shop.store, fitting_id)
    return handed_out(data, kind="application/zip", name=f"{fitting_id}.zip")


def handed_out(data: bytes, *, kind: str, name: str, shown: bool = False) -> Response:
    """A file, to be shown or taken along."""
    way = "inline" if shown else "attachment"
    disposition = f"{way}; filename*=UTF-8''{quoted(name)}"
    return Response(data, media_type=kind, headers={"Content-Disposition": disposition})
