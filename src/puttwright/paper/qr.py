"""A square code that a camera opens, as SVG."""

from __future__ import annotations

import io


def qr_svg(text: str, /) -> str:
    """The QR code (ISO/IEC 18004) of a text, quiet zone included, dark on nothing.

    Parameters
    ----------
    text
        What the camera reads, an address of a page mostly.

    Returns
    -------
    str
        SVG whose size follows its own width; correction level M or better.
    """
    import segno  # noqa: PLC0415 - needed only when something is printed

    stream = io.BytesIO()
    code = segno.make(text, error="m", micro=False)
    code.save(stream, kind="svg", border=4, dark="#000", light=None, xmldecl=False, omitsize=True)
    return stream.getvalue().decode("utf-8")
