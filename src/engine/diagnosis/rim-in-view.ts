import { cellSmoother } from '../maps/smooth-cells.ts';
import type { Finding, FramePoint, FrameRectangle } from '../reading.ts';
import type { Setup } from '../setup.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { type FrameSide, LEAST_DARKER_EV, type RimStrip, rimStrips } from './rim-strips.ts';
import type { WholeLight } from './whole-light.ts';

/** What has a frame of its own that may reach into the picture; a wall has none. */
const FRAMED: Partial<Record<Setup['arrangement'], string>> = { 'behind-sheet': 'sheet', panel: 'panel' };

/**
 * The dark frame of a sheet or panel along one or more sides of the picture. The region that was found leaves it out,
 * so it spoils no figure; what it would have taken is told.
 */
export function rimInView({
  measurement,
  setup,
  wholeLight,
}: Pick<DiagnosisInput, 'measurement' | 'setup' | 'wholeLight'>): Finding | null {
  const framed = FRAMED[setup.arrangement];
  if (!wholeLight || framed === undefined) return null;
  const strips = rimStrips(wholeLight, measurement.region);
  if (strips.length === 0) return null;
  const widest = strips.reduce((wide, strip) => (strip.reach > wide.reach ? strip : wide));
  const surest = Math.max(...strips.map(({ leastEv }) => leastEv));
  return {
    kind: 'rim-in-view',
    confidence: confidenceOf(surest, LEAST_DARKER_EV),
    ev: spreadWith(strips, wholeLight, measurement.region) - measurement.falloff.spreadEv,
    mired: null,
    at: middleOf(widest),
    says: sentence(strips, framed),
    lengthsMm: null,
  };
}

/**
 * Spread of the region's smoothed cells and of the rims together. The rims' own cells are taken as they are: a plane
 * through a rim two cells wide and the light beside it would run far below the rim.
 */
function spreadWith(
  strips: readonly RimStrip[],
  { columns, rows, luminance }: WholeLight,
  region: FrameRectangle,
): number {
  const inside = luminance.map((light, cell) => {
    const [x, y] = [((cell % columns) + 0.5) / columns, (Math.floor(cell / columns) + 0.5) / rows];
    return x > region.left && x < region.right && y > region.top && y < region.bottom ? light : Number.NaN;
  });
  const smoothed = new Float64Array(luminance.length);
  cellSmoother(columns, rows, inside).smooth(inside, smoothed);
  let low = Math.min(...strips.map(({ darkest }) => darkest));
  let high = 0;
  smoothed.forEach((value, cell) => {
    if (Number.isNaN(inside[cell]!)) return;
    if (value < low) low = value; // NaN compares false
    if (value > high) high = value;
  });
  return Math.log2(high / low);
}

function middleOf({ side, reach }: RimStrip): FramePoint {
  const half = reach / 2;
  switch (side) {
    case 'left':
      return { x: half, y: 0.5 };
    case 'right':
      return { x: 1 - half, y: 0.5 };
    case 'top':
      return { x: 0.5, y: half };
    case 'bottom':
      return { x: 0.5, y: 1 - half };
  }
}

const AWAY: Record<FrameSide, string> = {
  left: 'further left',
  right: 'further right',
  top: 'further up',
  bottom: 'further down',
};

function sentence(strips: readonly RimStrip[], framed: string): string {
  const where = listed(
    strips.map(({ side, reach }) => `${side} ${percentOf(reach)} of the ${lengthOf(side)}`),
  );
  const sides = strips.map(({ side }) => side);
  const opposite = ['left,right', 'top,bottom'].some((pair) =>
    pair.split(',').every((side) => sides.includes(side as FrameSide)),
  );
  const away = opposite
    ? `set up a larger ${framed}`
    : `move the ${framed} ${listed(sides.map((side) => AWAY[side]))}`;
  return `The dark rim of the ${framed} is in view: it covers the ${where}, which the figures leave out; frame tighter, or ${away}.`;
}

const lengthOf = (side: FrameSide) =>
  side === 'left' || side === 'right' ? 'frame’s width' : 'frame’s height';

const percentOf = (share: number) => `${Math.max(1, Math.round(share * 100))} %`;

function listed(parts: readonly string[]): string {
  return parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}
