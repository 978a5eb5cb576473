import type { PanelProfile } from './lit-set.ts';
import type { LightAt } from './seen-light.ts';

/** A panel's own light: a smooth rise or fall from its middle to its edges, and a slope. Nothing beyond the edges. */
export function panelLight(panel: PanelProfile): LightAt {
  const { levelEv, acrossEv, downEv, rightEv, bottomEv, halfWidth, halfHeight } = panel;
  return (frameX, frameY) => {
    const [x, y] = [frameX - panel.x, frameY - panel.y];
    if (Math.abs(x) > halfWidth || Math.abs(y) > halfHeight) return 0;
    const rise = acrossEv * (x / halfWidth) ** 2 + downEv * (y / halfHeight) ** 2;
    return 2 ** (levelEv + rise + rightEv * x + bottomEv * y);
  };
}
