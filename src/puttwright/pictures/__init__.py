"""Our own drawings as SVG, the same for page and paper: data in, picture out."""
