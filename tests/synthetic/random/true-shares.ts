import { uvPrimeOfXyz, type Xyz, xyzOfSrgbLight } from '../colour-truth.ts';
import { photographSet } from '../studio/photograph-set.ts';
import type { StudioSet } from '../studio/studio-set.ts';
import { FINE_KINDS, type PlantedKind } from './planted-cause.ts';
import { kindsOf, type RandomStudio } from './random-studio.ts';
import { takeOut } from './take-out.ts';

const [COLUMNS, ROWS] = [48, 32];

/** What a cause takes of evenness and of neutrality, planted or left by chance: falls when it alone is taken out. */
export interface TrueShare {
  readonly kind: PlantedKind;
  readonly isPlanted: boolean;
  /** Of the spread, in stops. */
  readonly ev: number;
  /** Of the largest distance of colour from the mean, and of the mean's from white; in u′v′. */
  readonly tintDeltaUv: number;
  readonly castDeltaUv: number;
}

/** The true shares of every cause that the studio's arrangement can have, but for those finer than a cell. */
export function trueShares({ set, setup, planted }: RandomStudio): TrueShare[] {
  const whole = figuresOf(set);
  return kindsOf(setup.arrangement)
    .filter((kind) => !FINE_KINDS.has(kind))
    .map((kind) => {
      const without = figuresOf(takeOut(set, kind));
      return {
        kind,
        isPlanted: planted.some((cause) => cause.kind === kind),
        ev: whole.spreadEv - without.spreadEv,
        tintDeltaUv: whole.tintDeltaUv - without.tintDeltaUv,
        castDeltaUv: whole.castDeltaUv - without.castDeltaUv,
      };
    });
}

function figuresOf({ texture, ...set }: StudioSet) {
  const { field } = photographSet({ ...set, exposure: { factor: 1 } });
  const cells = Array.from({ length: COLUMNS * ROWS }, (_, i) =>
    xyzOfSrgbLight(field(((i % COLUMNS) + 0.5) / COLUMNS, (Math.floor(i / COLUMNS) + 0.5) / ROWS)),
  );
  const ev = cells.map(([, luminance]) => Math.log2(luminance));
  const sum = cells.reduce<Xyz>(([x, y, z], cell) => [x + cell[0], y + cell[1], z + cell[2]], [0, 0, 0]);
  const [meanU, meanV] = uvPrimeOfXyz(sum);
  const [whiteU, whiteV] = uvPrimeOfXyz(xyzOfSrgbLight([1, 1, 1]));
  const fromMean = cells.map((cell) => {
    const [u, v] = uvPrimeOfXyz(cell);
    return Math.hypot(u - meanU, v - meanV);
  });
  return {
    spreadEv: Math.max(...ev) - Math.min(...ev),
    tintDeltaUv: Math.max(...fromMean),
    castDeltaUv: Math.hypot(meanU - whiteU, meanV - whiteV),
  };
}
