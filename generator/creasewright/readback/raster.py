"""Pages of a finished file as a printer's dots: the only door to the rasteriser, which is loaded when a proof is asked for."""

from collections.abc import Iterable, Iterator
from math import floor

from msgspec import Struct

DPI = 600
MM_PER_INCH = 25.4


class PageRaster(Struct, frozen=True):
    """One grey page. Places in mm, origin head-left, y down; a dot (i, k) covers i to i + 1 and k to k + 1."""

    width: int
    height: int
    """Dots."""
    stride: int
    """Bytes from row to row."""
    across: float
    down: float
    """Dots per mm: the rasteriser stretches a page to whole dots."""
    grey: bytes
    """0 black to 255 white."""

    def ink(self, x: float, y: float) -> float:
        """0 (bare) to 255 at a place, between the four nearest dots' middles; 0 outside the page."""
        u, v = x * self.across - 0.5, y * self.down - 0.5
        i, k = floor(u), floor(v)
        if not (0 <= i < self.width - 1 and 0 <= k < self.height - 1):
            return 0.0
        u, v = u - i, v - k
        at = k * self.stride + i
        grey = self.grey
        upper = grey[at] + (grey[at + 1] - grey[at]) * u
        at += self.stride
        lower = grey[at] + (grey[at + 1] - grey[at]) * u
        return 255.0 - upper - (lower - upper) * v


def page_rasters(data: bytes, numbers: Iterable[int], dpi: int = DPI) -> Iterator[PageRaster]:
    """Some pages (counted from 0) of a PDF file given as bytes, one at a time: a page of 600 dpi takes 34 MB."""
    import pypdfium2

    file = pypdfium2.PdfDocument(data)
    try:
        for number in numbers:
            page = file[number]
            wide, high = (float(side) * MM_PER_INCH / 72 for side in page.get_size())
            image = page.render(scale=dpi / 72, grayscale=True)
            grey = bytes(image.buffer)
            yield PageRaster(image.width, image.height, image.stride, image.width / wide, image.height / high, grey)
            image.close()
            page.close()
    finally:
        file.close()
