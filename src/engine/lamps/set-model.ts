import type { Setup } from '../setup.ts';
import { above0 } from './above-0.ts';
import { knownLengths } from './known-lengths.ts';
import { lightParameters } from './light-parameters.ts';
import type { LitSet, SourceColour } from './lit-set.ts';
import { type Parameter, parameterReader } from './parameters.ts';

/** A family of sets: what may differ between them, how likely, and the set that figures stand for. */
export interface SetModel {
  readonly parameters: readonly Parameter[];
  /** The set at so many standard deviations of each parameter from what is expected. */
  setAt(point: Float64Array): LitSet;
}

/** Of a lens stopped down to f/8 or so, in each of its two parts (common practice, no published source). */
const USUAL_LENS_EV = 0.08;
/** No lens in use takes more than this in either part. */
const LENS = { tail: 1.2, most: 1.5 } as const;

/** Of a good panel, from the middle of the frame to its sides. */
const USUAL_PANEL_EV = 0.08;

/** What sets one family of sets apart from another. */
export interface FamilyTraits {
  /** The surface itself tints one side. */
  readonly isTinted?: boolean;
  /** The sheet lets much of the light straight through, and the light stands well back. */
  readonly isThin?: boolean;
  /** The panel is as hot all over; the lens takes nothing. */
  readonly isEvenPanel?: boolean;
  readonly isGoodLens?: boolean;
}

/**
 * The family of sets of an arrangement, with what was entered as expectations. Spill, lens and a sheet's lobe are in
 * every family, expected small: how much of them the frame bears out, its fit says. A rim is in none: where one is in
 * view, the region leaves it out. `slipsMade`: so many figures of the changes that led to it may have been missed.
 *
 * Expected values are own choices after usual sets (common practice, no published source).
 */
export function setModel(
  setup: Setup,
  aspect: number,
  colourOfFrame: SourceColour,
  { isTinted = false, isThin = false, isEvenPanel = false, isGoodLens = false }: FamilyTraits = {},
  slipsMade = 0,
): SetModel {
  const parameters: Parameter[] = [];
  const reader = parameterReader(parameters);
  const build = (point: Float64Array): LitSet => {
    const next = reader(point);
    const isPanel = setup.arrangement === 'panel';
    const lengths = knownLengths(setup, next, isThin);
    const lights = isPanel ? [] : lightParameters(setup.arrangement, lengths, colourOfFrame, next);
    const panel = isPanel
      ? {
          x: 0,
          y: 0,
          levelEv: next('panel level', 0, 10),
          acrossEv: isEvenPanel ? 0 : next.rarely('panel across', 16 * USUAL_PANEL_EV),
          downEv: isEvenPanel ? 0 : next.rarely('panel down', 16 * USUAL_PANEL_EV),
          rightEv: next.rarely('panel to the right', 0.08),
          bottomEv: next.rarely('panel to the bottom', 0.08),
          halfWidth: 2, // four times the frame: a camera that is slid still sees it
          halfHeight: 2 * aspect,
          colour: {
            mired: next('panel mired', colourOfFrame.mired, 40),
            duv: next('panel duv', colourOfFrame.duv, 0.006),
          },
        }
      : null;
    const cameraDistance = lengths.cameraDistance();
    const sheet =
      setup.arrangement === 'behind-sheet'
        ? {
            forwardShare: logistic(
              isThin ? next('forward share', -0.5, 0.8) : next('forward share', -3.5, 1.5),
            ),
            lobeRad: Math.exp(next('lobe', Math.log((22 * Math.PI) / 180), 0.35)),
          }
        : null;
    const mainEv = isPanel ? panel!.levelEv : levelOf(lights);
    const spill = {
      // what the room adds is less than the lights throw, or it would be the light
      levelEv: mainEv - above0(-next('spill level', Math.log2(0.02), Math.log2(5)), 0.3),
      rightEv: next('spill to the right', 0, 0.9),
      downEv: next('spill down', 0, 0.9),
      colour: {
        mired: colourOfFrame.mired + next('spill mired', 30, 130),
        duv: colourOfFrame.duv + next('spill duv', 0, 0.012),
      },
    };
    const tint = isTinted
      ? {
          x: 0,
          y: 0,
          rightMired: next('tint to the right', 0, 20),
          downMired: next('tint down', 0, 20),
          duvPerMired: next('tint duv', 0, 0.0003),
          lossEvPerMired: next('tint loss', 0, 0.003),
          soft: Math.exp(next('tint softness', Math.log(0.5), 0.6)),
        }
      : null;
    const lens = {
      squareEv: isGoodLens ? 0 : above0(next.rarely('lens square', USUAL_LENS_EV, LENS), 0.005),
      fourthEv: isGoodLens ? 0 : above0(next.rarely('lens fourth', USUAL_LENS_EV, LENS), 0.005),
      corner: { mired: next.rarely('lens mired', 2), duv: next.rarely('lens duv', 0.0004) },
    };
    const slips = Array.from({ length: slipsMade }, (_, i) => next(`slip ${i}`, 0, 1));
    return { lights, panel, sheet, spill, tint, rim: null, lens, cameraDistance, aspect, slips };
  };
  build(new Float64Array(0)); // names the parameters in the order in which a set is built
  return { parameters, setAt: build };
}

/** Squarely thrown on the plane by all lights together, each before itself, in stops. */
function levelOf(lights: LitSet['lights']): number {
  return Math.log2(
    lights.reduce((sum, { strengthEv, distance }) => sum + 2 ** strengthEv / distance ** 2, 0),
  );
}

function logistic(value: number): number {
  return 1 / (1 + Math.exp(-value));
}
