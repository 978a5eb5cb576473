import type { CellGrid } from '../grid/cell-grid.ts';
import { standsInPlateaux } from '../grid/refine-by-blocks.ts';
import { cellCentre } from '../numeric/cell-centre.ts';
import { quantile } from '../numeric/quantile.ts';
import type { Finding, FramePoint } from '../reading.ts';
import { allLuminance } from './all-luminance.ts';
import { confidenceOf } from './confidence.ts';
import { connectedCells } from './connected-cells.ts';
import { creasedCells } from './crease-lines.ts';
import type { DiagnosisInput } from './diagnosis-input.ts';
import { withoutFlicker } from './flicker-wave.ts';
import { leftByRounding } from './left-by-rounding.ts';
import { noisierCells } from './noisier-cells.ts';
import { sideInWords } from './side-in-words.ts';
import { loneShares, spotDepths, spotShares } from './spot-cells.ts';
import { fallWithout } from './spread-without.ts';

/** A spot must be darker than its surroundings by so many deviations of what chance does, and by this much. */
const CHANCE_DEVIATIONS = 7;
const LEAST_DEPTH_EV = 0.012;
/** Rounding errs by up to a step, a JPEG's block by up to one of its own. */
const ROUNDING_STEPS = { plain: 1, jpeg: 1.2 };
/**
 * Pixels set aside as specks tell in cells of this many and more; in smaller ones a JPEG's blocks do as much. Where
 * noise has part of them set aside, that share and this many deviations of it are chance's.
 */
const FEWEST_PIXELS = 150;
const NOISE_SPECK_SHARE = 0.03;
const NOISE_DEVIATIONS = 6;
/** Without a JPEG's blocks noise alone is left in smaller cells too: at most 6 of 64 pixels in clean frames, 9 in woven cloth. */
const FEW_PIXELS_DEVIATIONS = 5.5;
/** Up to this share of a cell only what lies six deviations off was set aside: a few pixels are no chance then. */
const SURE_SHARE = 0.04;
const FEWEST_SPECK_PIXELS = 8;
/** A speck spans at most so many cells; what is larger stands in the light. */
const LARGEST_CELLS = 4;
/** More cells than this share are a texture or a subject. */
const LARGEST_SHARE = 0.05;
const MAD_TO_SIGMA = 1.4826;

/** Dust on the background or the sensor: small dark spots with nothing beside them. */
export function specks({ grid }: Pick<DiagnosisInput, 'grid'>): Finding | null {
  const { columns, rows } = grid;
  const light = allLuminance(grid);
  const depth = spotDepths(withoutFlicker(light.map(Math.log2), grid), columns, rows);
  const sigma = MAD_TO_SIGMA * quantile(depth.map(Math.abs), 0.5) || 0;
  const leastEv = Math.max(LEAST_DEPTH_EV, leftByRounding(grid, ROUNDING_STEPS));
  const noisier = noisierCells(grid);
  const share = spotShares(grid.darkSpeckShare, columns, rows);
  if (grid.pixels.some((n) => n < FEWEST_PIXELS)) {
    // fewer pixels tell less of a line that runs through: more of it is looked at
    const lone = loneShares(grid.darkSpeckShare, columns, rows);
    for (let cell = 0; cell < share.length; cell++)
      if (grid.pixels[cell]! < FEWEST_PIXELS) share[cell] = Math.min(share[cell]!, lone[cell]!);
  }
  const plateaux = standsInPlateaux(grid);
  const strength = depth.map((ev, cell) => {
    const least = plateaux ? 1 : leastShare(grid, cell);
    const floorEv = Math.max(leastEv, CHANCE_DEVIATIONS * noisier[cell]! * sigma);
    return Math.max(ev / floorEv || 0, share[cell]! / least || 0);
  });
  // where creases end, bend or cross, their cells look like spots
  const creased = creasedCells(grid);
  const marked = Uint8Array.from(strength, (value, cell) => (value > 1 && creased[cell] === 0 ? 1 : 0));
  if (marked.reduce((sum, one) => sum + one, 0) > LARGEST_SHARE * marked.length) return null;
  const spots = connectedCells(marked, columns, rows).filter((cells) => isSmall(cells, columns));
  if (spots.length === 0) return null;
  const size = spots.map((cells) =>
    cells.reduce((sum, cell) => sum + Math.max(share[cell]!, depth[cell]! || 0), 0),
  );
  const largest = spots[size.indexOf(Math.max(...size))]!;
  const at = cellCentre(grid, strongestOf(largest, strength));
  const partEv = new Float64Array(light.length);
  for (const cell of spots.flat()) partEv[cell] = -Math.max(0, depth[cell]! || 0);
  return {
    kind: 'specks',
    confidence: confidenceOf(Math.max(...strength.filter((_, cell) => marked[cell] === 1)), 1),
    ev: partEv.some((ev) => ev < 0) ? fallWithout(grid, partEv) : null,
    mired: null,
    at,
    says: sentence(spots.length, at),
    lengthsMm: null,
  };
}

function sentence(count: number, at: FramePoint): string {
  const where = placeInWords(at);
  const what =
    count === 1 ? `One dark speck shows ${where}` : `${count} dark specks show, the largest ${where}`;
  return `${what}; shoot a second frame with the camera moved slightly: specks that keep their place in it are on the sensor, the others on the background.`;
}

/** "in the middle", "at the top left". */
function placeInWords({ x, y }: FramePoint): string {
  const [right, down] = [x - 0.5, y - 0.5];
  if (Math.max(Math.abs(right), Math.abs(down)) < 1 / 6) return 'in the middle';
  return `at the ${sideInWords((Math.atan2(down, right) * 180) / Math.PI)}`;
}

/** The share of a cell's pixels set aside as dark that chance does not reach. */
function leastShare({ pixels, speckShare, jpegDcSteps }: CellGrid, cell: number): number {
  const n = pixels[cell]!;
  if (n < FEWEST_PIXELS)
    return jpegDcSteps === null
      ? NOISE_SPECK_SHARE + FEW_PIXELS_DEVIATIONS * Math.sqrt(NOISE_SPECK_SHARE / n)
      : 1;
  if (speckShare[cell]! <= SURE_SHARE && jpegDcSteps === null) return FEWEST_SPECK_PIXELS / n;
  return NOISE_SPECK_SHARE + NOISE_DEVIATIONS * Math.sqrt(NOISE_SPECK_SHARE / n);
}

function isSmall(cells: readonly number[], columns: number): boolean {
  const across = cells.map((cell) => cell % columns);
  const down = cells.map((cell) => Math.floor(cell / columns));
  const span = (places: number[]) => Math.max(...places) - Math.min(...places) + 1;
  return Math.max(span(across), span(down)) <= LARGEST_CELLS;
}

const strongestOf = (cells: readonly number[], strength: Float64Array) =>
  cells.reduce((high, cell) => (strength[cell]! > strength[high]! ? cell : high));
