import type { CellGrid } from '../grid/cell-grid.ts';
import { PATCH_PX, type PatchSpectrum, WAVES_ACROSS, waveAt } from '../grid/patch-spectrum.ts';
import { quantileOfSorted } from '../numeric/quantile.ts';
import type { Finding } from '../reading.ts';
import { confidenceOf } from './confidence.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { stopsInWords } from './figures-in-words.ts';
import { undithered } from './undithered-step.ts';

/** Threads further apart than this many pixels are no fine texture: fewer waves in a patch. */
const FEWEST_WAVES = 3;
/** A wave's power is held against the middle one of those this many waves off: beyond what a taper and a mean spread. */
const NEAR = 4;
const FAR = 7;
/** Chance, demosaicing and compression raise no wave over this many times its neighbours (the tests print them). */
const CHANCE_RATIO = 4;
/** The same of waves that coding itself makes. */
const CODING_RATIO = 40;
/** Less than this, crest to trough, shows in no print. Own allowance. */
const LEAST_DEPTH_EV = 0.006;
/** Rounding that no noise dithers makes stairs as regular as threads; their waves add up to 1.6 steps. */
const STAIR_STEPS = 2;
/** A mean over 3 × 3 powers holds all of a tapered wave, thinned by so many waves each way. */
const SPREAD_WAVES = 3;

/** The threads of a cloth: a fine regular texture that is the same all over the frame. */
export function weave({ grid }: Pick<DiagnosisInput, 'grid'>): Finding | null {
  const spectrum = grid.fine?.spectrum;
  if (!spectrum || spectrum.patches < 2) return null;
  const crest = strongestWave(spectrum, grid);
  if (crest === null) return null;
  const { depthEv } = crest;
  const floor = Math.max(LEAST_DEPTH_EV, STAIR_STEPS * undithered({ grid, pixelNoise: spectrum.pixelNoise }));
  const sure = Math.min(crest.ratio / CHANCE_RATIO, (depthEv / floor) ** 2);
  if (!(sure > 1)) return null;
  return {
    kind: 'weave',
    confidence: confidenceOf(sure, 1),
    ev: null, // cells average it away: it takes nothing off the spread
    mired: null,
    at: null,
    says: `The cloth’s weave shows all over, threads ${crest.periodPx.toFixed(1)} pixels apart and ${stopsInWords(depthEv)} deep: set it farther behind the subject, or open the aperture until it blurs.`,
    lengthsMm: null,
  };
}

interface Crest {
  readonly ratio: number;
  readonly periodPx: number;
  /** Crest to trough of all waves together that stand out as this one does. */
  readonly depthEv: number;
}

function strongestWave({ power }: PatchSpectrum, grid: CellGrid): Crest | null {
  let best: { ratio: number; x: number; y: number } | null = null;
  let depthEv = 0;
  for (let y = 0; y < PATCH_PX; y++) {
    const down = y > PATCH_PX / 2 ? y - PATCH_PX : y;
    for (let x = 0; x < WAVES_ACROSS; x++) {
      const waves = Math.hypot(x, down);
      // on the edges of the half spectrum a wave stands twice
      if (waves < FEWEST_WAVES || (x % (PATCH_PX / 2) === 0 && down < 0)) continue;
      const here = power[y * WAVES_ACROSS + x]!;
      if (!isCrest(power, x, y, here)) continue;
      const around = powerAround(power, x, y);
      const ratio = here / around;
      if (!(ratio > (isOfTheCoding(x, down, grid) ? CODING_RATIO : CHANCE_RATIO))) continue;
      const variance = (2 * SPREAD_WAVES ** 2 * (here - around)) / PATCH_PX ** 2;
      depthEv += (2 * Math.SQRT2 * Math.sqrt(variance)) / Math.LN2;
      if (best === null || ratio > best.ratio) best = { ratio, ...crestPlace(power, x, down, around) };
    }
  }
  if (best === null) return null;
  return { ratio: best.ratio, periodPx: PATCH_PX / Math.hypot(best.x, best.y), depthEv };
}

/**
 * Waves of two pixels, which demosaicing leaves, and of the blocks that a JPEG codes in: 8 pixels and its parts each
 * way.
 */
function isOfTheCoding(x: number, y: number, grid: CellGrid): boolean {
  const every = grid.jpegDcSteps ? PATCH_PX / 8 : PATCH_PX / 2;
  const off = (waves: number) => Math.abs(waves - every * Math.round(waves / every));
  return off(x) <= 2 && off(y) <= 2 && Math.max(x, Math.abs(y)) > 2;
}

/** Between whole waves: the centre of the power that stands out around a crest. */
function crestPlace(power: Float32Array, x: number, y: number, around: number): { x: number; y: number } {
  let sum = 0;
  let [right, below] = [0, 0];
  for (let dy = -2; dy <= 2; dy++) {
    for (let dx = -2; dx <= 2; dx++) {
      const over = Math.max(0, power[waveAt(x + dx, y + dy)]! - around);
      sum += over;
      right += dx * over;
      below += dy * over;
    }
  }
  return { x: x + right / sum, y: y + below / sum };
}

function isCrest(power: Float32Array, x: number, y: number, here: number): boolean {
  for (let dy = -1; dy <= 1; dy++)
    for (let dx = -1; dx <= 1; dx++) if (power[waveAt(x + dx, y + dy)]! > here) return false;
  return true;
}

/** The middle one of the powers in a ring of waves around. */
function powerAround(power: Float32Array, x: number, y: number): number {
  const ring: number[] = [];
  for (let dy = -FAR; dy <= FAR; dy++) {
    for (let dx = -FAR; dx <= FAR; dx++) {
      const off = Math.hypot(dx, dy);
      if (off < NEAR || off > FAR) continue;
      const down = ((y + dy + PATCH_PX + PATCH_PX / 2) % PATCH_PX) - PATCH_PX / 2;
      if (Math.hypot(x + dx, down) >= FEWEST_WAVES - 1) ring.push(power[waveAt(x + dx, y + dy)]!);
    }
  }
  return quantileOfSorted(
    ring.sort((a, b) => a - b),
    0.5,
  );
}
