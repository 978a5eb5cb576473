import type { Setup } from '../setup.ts';
import { lightParameters } from './light-parameters.ts';
import type { LitSet, SourceColour } from './lit-set.ts';
import { type Known, type Parameter, parameterReader } from './parameters.ts';

/** A family of sets: what may differ between them, how likely, and the set that figures stand for. */
export interface SetModel {
  readonly parameters: readonly Parameter[];
  /** The set at so many standard deviations of each parameter from what is expected. */
  setAt(point: Float64Array): LitSet;
}

/**
 * The family of sets of an arrangement, with what was entered as expectations: a tape measure errs by 12 %. Spill,
 * lens and a sheet's lobe are in every family, expected small: how much of them the frame bears out, its fit says.
 * `isTinted`: a family of its own, in which the surface itself tints one side and spill has the lights' colour.
 *
 * Expected values are own choices after usual sets (common practice, no published source).
 */
export function setModel(
  setup: Setup,
  aspect: number,
  castOfFrame: SourceColour,
  isTinted = false,
): SetModel {
  const parameters: Parameter[] = [];
  const known = knownOf(setup);
  const reader = parameterReader(parameters);
  const build = (point: Float64Array): LitSet => {
    const next = reader(point);
    const isPanel = setup.arrangement === 'panel';
    const lights = isPanel ? [] : lightParameters(setup.arrangement, known, castOfFrame, next);
    const panel = isPanel
      ? {
          levelEv: next('panel level', 0, 10),
          acrossEv: next('panel across', 0, 0.4),
          downEv: next('panel down', 0, 0.4),
          rightEv: next('panel to the right', 0, 0.3),
          bottomEv: next('panel to the bottom', 0, 0.3),
          halfWidth: 0.5,
          halfHeight: aspect / 2,
          colour: {
            mired: next('panel mired', castOfFrame.mired, 40),
            duv: next('panel duv', castOfFrame.duv, 0.006),
          },
        }
      : null;
    const cameraDistance = Math.exp(next('camera', ...known.cameraDistance));
    const sheet =
      setup.arrangement === 'behind-sheet'
        ? {
            forwardShare: logistic(next('forward share', -3.5, 1.8)),
            lobeRad: Math.exp(next('lobe', Math.log((22 * Math.PI) / 180), 0.35)),
          }
        : null;
    const mainEv = isPanel ? panel!.levelEv : levelOf(lights);
    const spill = {
      levelEv: mainEv + next('spill level', Math.log2(0.02), Math.log2(5)),
      rightEv: next('spill to the right', 0, 0.6),
      downEv: next('spill down', 0, 0.6),
      colour: {
        mired: castOfFrame.mired + (isTinted ? 0 : next('spill mired', 30, 130)),
        duv: castOfFrame.duv + (isTinted ? 0 : next('spill duv', 0, 0.006)),
      },
    };
    const natural = naturalFallEv(known.cameraDistance[0], aspect);
    const tint = isTinted
      ? {
          rightMired: next('tint to the right', 0, 20),
          downMired: next('tint down', 0, 20),
          duvPerMired: next('tint duv', 0, 0.0003),
          lossEvPerMired: next('tint loss', 0, 0.003),
          soft: Math.exp(next('tint softness', Math.log(0.5), 0.6)),
        }
      : null;
    const hasFrame = isPanel || setup.arrangement === 'behind-sheet';
    const rim = hasFrame
      ? {
          left: next('rim left', -0.06, 0.06),
          right: next('rim right', -0.06, 0.06),
          top: next('rim top', -0.06, 0.06),
          bottom: next('rim bottom', -0.06, 0.06),
          lossEv: Math.exp(next('rim loss', Math.log(1.8), 0.6)),
          soft: Math.exp(next('rim softness', Math.log(0.02), 0.5)),
        }
      : null;
    const lens = {
      squareEv: above0(next('lens square', 0.6 * natural, 0.5 * natural + 0.03), 0.01),
      fourthEv: above0(next('lens fourth', 0, 0.2), 0.02),
      corner: { mired: next('lens mired', 0, 2), duv: next('lens duv', 0, 0.0008) },
    };
    return { lights, panel, sheet, spill, tint, rim, lens, cameraDistance, aspect };
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

function knownOf(setup: Setup): Known {
  const width = setup.frameWidthMm;
  const entered = (
    mm: number | null | undefined,
    usual: number,
    deviation: number,
  ): readonly [number, number] =>
    mm == null || width === null ? [Math.log(usual), deviation] : [Math.log(mm / width), 0.12];
  return {
    lampDistance: (lamp) => entered(setup.lampDistanceMm[lamp], 1.2, 0.5),
    lampRadius: entered(setup.lampWidthMm === null ? null : setup.lampWidthMm / 2, 0.16, 0.5),
    cameraDistance: entered(setup.cameraDistanceMm, 2.5, 0.4),
  };
}

/**
 * cos⁴ of the angle to the corners, in stops: a guide that many lenses beat and none is bound to (D. A. Kerr 2007).
 */
function naturalFallEv(lnCameraDistance: number, aspect: number): number {
  const tangent = Math.hypot(1, aspect) / 2 / Math.exp(lnCameraDistance);
  return 2 * Math.log2(1 + tangent * tangent);
}

/** What can't be below 0, from a figure that can: itself where well above, smoothly towards 0 below. */
function above0(value: number, softness: number): number {
  const scaled = value / softness;
  return scaled > 30 ? value : softness * Math.log1p(Math.exp(scaled));
}

function logistic(value: number): number {
  return 1 / (1 + Math.exp(-value));
}
