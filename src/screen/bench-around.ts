/** The bench that a part of it stands in, through all shadows between; `null` for what stands by itself. */
export function benchAround(part: Node): HTMLElement | null {
  for (let root = part.getRootNode(); root instanceof ShadowRoot; root = root.host.getRootNode())
    if (root.host.localName === 'evenfield-bench') return root.host as HTMLElement;
  return null;
}
