import { EngineError } from '../engine-error.ts';
import { SURFACE_NAMES, type Surface, type SurfaceName } from '../fits/surface.ts';
import type { LinearRgbSpace } from '../frame/linear-frame.ts';
import type { CellGrid } from '../grid/cell-grid.ts';
import type { Reading } from '../reading.ts';
import { gainLattice } from './gain-lattice.ts';
import { PROFILE_REFERENCES, type Profile, type ProfileReference } from './profile.ts';
import { residualSpreadEv } from './residual-spread.ts';
import { roundedTo6 } from './rounded-to-6.ts';
import { luminanceOf, targetLight } from './target-light.ts';

/** What a profile is made from: the parts of a frame's report that it needs. */
export interface ProfileSource {
  readonly reading: Pick<Reading, 'frame' | 'gradient' | 'tintGradient'>;
  readonly grid: CellGrid;
  readonly surfaces: readonly Surface[];
  readonly chosen: Surface;
  readonly space: LinearRgbSpace;
}

export interface ProfileOptions {
  /** Which of the fitted surfaces to undo; the chosen one where left out. */
  readonly model?: SurfaceName;
  /** The luminance that the region is brought to. */
  readonly reference?: ProfileReference;
  /** Whether to bring the background's mean colour to the file's white. */
  readonly neutral?: boolean;
}

/**
 * The gains that take a blank frame's unevenness and cast out of it and of the frames shot after it.
 *
 * @throws {@link EngineError} `too-small` where the model asked for was not fitted for want of cells, `no-model` where
 * the set was and does not follow the frame.
 * @throws {@link RangeError} where there is no such model or reference.
 */
export function makeProfile(
  report: ProfileSource,
  { model, reference = 'mean', neutral = true }: ProfileOptions = {},
): Profile {
  refuseUnknown('model', model, SURFACE_NAMES);
  refuseUnknown('reference', reference, PROFILE_REFERENCES);
  const { reading, grid, space } = report;
  const surface = model === undefined ? report.chosen : fittedSurface(report, model);
  const target = targetLight(surface, grid, reference);
  const lattice = gainLattice(surface, target, reading.frame);
  const level = luminanceOf(target, grid);
  const { name, sha256, widthPx, heightPx, orientation, exposure } = reading.frame;
  return {
    schema: 'evenfield.profile/1',
    madeFrom: { name, sha256, widthPx, heightPx, orientation, exposure, region: grid.region },
    colourSpace: space.camera === undefined ? space : { name: 'camera-native', camera: space.camera },
    light: reading.frame.light,
    reference,
    // white is where red, green and blue are equal, and equal ones of 1 have a luminance of 1
    neutral: {
      red: neutral ? roundedTo6(level / target[0]) : 1,
      green: neutral ? roundedTo6(level / target[1]) : 1,
      blue: neutral ? roundedTo6(level / target[2]) : 1,
    },
    lattice,
    model: {
      name: surface.name,
      terms: roundedTo6(surface.terms),
      heldOutEv: roundedTo6(surface.heldOutEv),
      residualSpreadEv: roundedTo6(residualSpreadEv(grid, lattice)),
    },
    gradient: reading.gradient,
    tintGradient: reading.tintGradient,
  };
}

function fittedSurface({ surfaces, grid }: ProfileSource, model: SurfaceName): Surface {
  const surface = surfaces.find(({ name }) => name === model);
  if (surface) return surface;
  const fitted = surfaces.map(({ name }) => name).join(', ');
  if (model === 'set')
    throw new EngineError(
      'no-model',
      `No model of the set follows this frame closely enough to correct by. Take one of: ${fitted}.`,
      { fitted },
    );
  throw new EngineError(
    'too-small',
    `A ${model} needs more cells than the ${grid.columns} × ${grid.rows} of this frame. Take one of: ${fitted}.`,
    { columns: grid.columns, rows: grid.rows, fitted },
  );
}

/** Callers from plain JavaScript, and over a wire, can hand in anything. */
function refuseUnknown(option: string, value: unknown, allowed: readonly string[]): void {
  if (value === undefined || allowed.some((name) => name === value)) return;
  throw new RangeError(`${option} is ${JSON.stringify(value)}; expected one of: ${allowed.join(', ')}`);
}
