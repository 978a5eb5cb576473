/** Pixel bounds, the far ones excluded. */
export interface PixelRectangle {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Whether an Exif orientation exchanges width and height. */
export function orientationTurnsSideways(orientation: number): boolean {
  return orientation >= 5 && orientation <= 8;
}

/** Width and height of a stored picture as it is seen upright. */
export function uprightSize(
  { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number },
  orientation: number,
): { widthPx: number; heightPx: number } {
  return orientationTurnsSideways(orientation)
    ? { widthPx: heightPx, heightPx: widthPx }
    : { widthPx, heightPx };
}

/**
 * Where a rectangle of the upright picture lies in the picture as stored, `storedWidthPx` by `storedHeightPx`.
 * Orientation as in Exif 2.32 tag 274 (1 to 8); any other value counts as 1, as the standard asks of readers.
 */
export function storedRectangle(
  upright: PixelRectangle,
  orientation: number,
  storedWidthPx: number,
  storedHeightPx: number,
): PixelRectangle {
  const { x0, y0, x1, y1 } = upright;
  const w = storedWidthPx;
  const h = storedHeightPx;
  switch (orientation) {
    case 2:
      return { x0: w - x1, y0, x1: w - x0, y1 };
    case 3:
      return { x0: w - x1, y0: h - y1, x1: w - x0, y1: h - y0 };
    case 4:
      return { x0, y0: h - y1, x1, y1: h - y0 };
    case 5:
      return { x0: y0, y0: x0, x1: y1, y1: x1 };
    case 6:
      return { x0: y0, y0: h - x1, x1: y1, y1: h - x0 };
    case 7:
      return { x0: w - y1, y0: h - x1, x1: w - y0, y1: h - x0 };
    case 8:
      return { x0: w - y1, y0: x0, x1: w - y0, y1: x1 };
    default:
      return upright;
  }
}
