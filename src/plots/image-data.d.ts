/** The types of d3-array name this, which only a page has; no plot uses it. */
interface ImageData {
  readonly width: number;
}
