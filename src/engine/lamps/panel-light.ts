import type { PanelProfile } from './lit-set.ts';
import type { LightAt } from './seen-light.ts';

/**
 * A panel's own light: a smooth rise or fall from its middle to its edges, a slope, and a rim that darkens over a short way
 * in from each edge. Nothing beyond the edges.
 */
export function panelLight(panel: PanelProfile): LightAt {
  const { levelEv, acrossEv, downEv, rightEv, bottomEv, rimEv, rimWidth, halfWidth, halfHeight } = panel;
  return (x, y) => {
    const [fromSide, fromEnd] = [halfWidth - Math.abs(x), halfHeight - Math.abs(y)];
    if (fromSide < 0 || fromEnd < 0) return 0;
    const rise = acrossEv * (x / halfWidth) ** 2 + downEv * (y / halfHeight) ** 2;
    const rim = rimEv * (Math.exp(-fromSide / rimWidth) + Math.exp(-fromEnd / rimWidth));
    return 2 ** (levelEv + rise + rightEv * x + bottomEv * y - rim);
  };
}
