import type { LinearFrame } from '../../frame/linear-frame.ts';
import { quantile } from '../../numeric/quantile.ts';
import { codeFinder, codeOfLight } from '../code-finder.ts';
import type { LightRatios } from './light-ratios.ts';

/** Steps that a frame's coding may make by itself where light rises smoothly, in stops. */
export interface CodingSteps {
  readonly levelEv: number;
  readonly colourEv: number;
}

/** Codes by which the mean of three channels may step, each rounded by itself, and two channels against each other. */
const LEVEL_CODES = 1;
const COLOUR_CODES = 3;
/** Blue against the difference that a JPEG codes it by. Source: ITU-T T.871 (JFIF), clause 7. */
const BLUE_PER_CB = 1.772;
/** Steps of such a difference by which neighbouring blocks may fall apart. */
const BLOCK_STEPS = 1.5;

/** Told at the blank's median light, where most of the background lies. */
export function codingSteps({ lightAtCode, jpegDcSteps }: LinearFrame, ratios: LightRatios): CodingSteps {
  const light = quantile(
    ratios.foretold[1].filter((_, at) => at % 11 === 0),
    0.5,
  );
  const finder = codeFinder(lightAtCode.green);
  const code = Math.min(Math.max(1, Math.round(codeOfLight(finder, light))), finder.topCode - 1);
  const perCodeEv = Math.log2(lightAtCode.green[code + 1]! / lightAtCode.green[code - 1]!) / 2;
  if (!Number.isFinite(perCodeEv)) return { levelEv: 0, colourEv: 0 };
  const block = jpegDcSteps ? BLOCK_STEPS * BLUE_PER_CB * jpegDcSteps.chromaCodes : 0;
  return {
    levelEv: perCodeEv * Math.max(LEVEL_CODES, BLOCK_STEPS * (jpegDcSteps?.lumaCodes ?? 0)),
    colourEv: perCodeEv * (COLOUR_CODES + block),
  };
}
