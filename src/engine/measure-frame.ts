import type { LinearRgbSpace } from './colour/linear-rgb-space.ts';
import { allLuminance } from './diagnosis/all-luminance.ts';
import { refuseSubject } from './diagnosis/refuse-subject.ts';
import type { WholeLight } from './diagnosis/whole-light.ts';
import { EngineError, withFileName } from './engine-error.ts';
import { chooseSurface } from './fits/choose-surface.ts';
import { surfaceAtCells } from './fits/evaluate-surface.ts';
import { fitSurfaces } from './fits/fit-surfaces.ts';
import { type MeasuredCells, measureCells } from './fits/measure-cells.ts';
import type { Surface } from './fits/surface.ts';
import { doubtEv, doubtSays, type LightDoubt } from './frame/light-doubt.ts';
import { linearise } from './frame/linearise.ts';
import { readThroughTables } from './frame/read-through-tables.ts';
import { averageGrids } from './grid/average-grids.ts';
import type { CellGrid } from './grid/cell-grid.ts';
import { cellsFromFrame } from './grid/cells-from-frame.ts';
import { checkRegion } from './grid/check-region.ts';
import { fineStructure } from './grid/fine-structure.ts';
import { flickerSays } from './grid/flicker-says.ts';
import { refineByBlocks, standsInPlateaux } from './grid/refine-by-blocks.ts';
import { refuseWithoutLight } from './grid/refuse-without-light.ts';
import { orientationTurnsSideways } from './grid/upright-rectangle.ts';
import { decodeImage } from './intake/decode-image.ts';
import { readBlockMeans } from './intake/jpeg-block-means.ts';
import type { Platform } from './intake/platform.ts';
import { shotFacts } from './intake/shot-facts.ts';
import type { SecondFrameRole } from './lamps/second-frame.ts';
import type { FrameFacts, FrameRectangle, Measurement } from './reading.ts';
import { findRegion } from './region/find-region.ts';
import type { CameraResponse } from './response/camera-response.ts';
import { checkResponse } from './response/check-response.ts';
import { keptFor } from './response/kept-for.ts';

/** A file as picked, dropped or fetched. */
export interface FrameSource {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface MeasureOptions {
  /** Part of the upright frame to read; where left out, the part that the lit background covers is found. */
  readonly region?: FrameRectangle;
  /** What a second frame of a set shows; left out: it is the blank frame itself. */
  readonly role?: SecondFrameRole;
  /** What light the camera's 8-bit codes stand for; left out: the file's own coding, a tone curve not undone. */
  readonly response?: CameraResponse;
  /** Responses of cameras that are known: gone by where no `response` is given and the file's Exif names its camera. */
  readonly responses?: readonly CameraResponse[];
}

export type ReadPhase = 'opening' | 'decoding' | 'converting' | 'averaging' | 'measuring' | 'fitting';

/** A frame's figures, before anything is made of them. Structured-cloneable. */
export interface MeasuredFrame {
  readonly measurement: Measurement;
  readonly grid: CellGrid;
  /** Every surface that was fitted, simplest first. */
  readonly surfaces: readonly Surface[];
  readonly chosen: Surface;
  /** One sentence saying why that surface was chosen. */
  readonly chosenBecause: string;
  readonly space: LinearRgbSpace;
  /** One sentence where the background was found to cover part of the frame, or could not be told; else empty. */
  readonly regionSays: string;
  /** Light of the whole frame where a part of it was found, for what lies outside; else `null`. */
  readonly wholeLight: WholeLight | null;
  readonly light: LightTrust;
  readonly readBy: ReadBy;
}

/** Which camera a frame is of, as its Exif says, and the response that its light was read by; each `null` where none. */
export interface ReadBy {
  readonly camera: string | null;
  readonly response: CameraResponse | null;
}

/** How far the light can be trusted, for what is foretold from it. */
export interface LightTrust extends Omit<MeasuredCells, 'measurement'> {
  readonly doubt: LightDoubt;
}

/**
 * Measures one frame, or several of one unchanged set-up averaged.
 * @throws {@link EngineError} with a code of the public contract.
 */
export async function measureFrame(
  sources: readonly FrameSource[],
  options: MeasureOptions,
  platform: Platform,
  onProgress: (phase: ReadPhase, fraction: number) => void = () => {},
): Promise<MeasuredFrame> {
  if (sources.length === 0) throw new RangeError('reading needs at least one frame');
  if (options.region) checkRegion(options.region);
  const given = options.response ? [options.response] : (options.responses ?? []);
  for (const response of given) checkResponse(response);
  const opened: OpenedFrame[] = [];
  // frames of one set-up are averaged cell by cell, so that the first one's region is that of all
  for (const source of sources) {
    const region = options.region ?? opened[0]?.grid.region;
    opened.push(
      await withFileName(source.name, openFrame(source, { ...options, region }, platform, onProgress)),
    );
  }
  return measureOpened(opened, options, onProgress);
}

/** What is measured of frames that were opened, averaged. */
export function measureOpened(
  opened: readonly OpenedFrame[],
  options: Pick<MeasureOptions, 'role'>,
  onProgress: (phase: ReadPhase, fraction: number) => void = () => {},
): MeasuredFrame {
  const first = opened[0]!;
  refuseOtherCameras(opened);
  const grid = averageGrids(opened.map((frame) => frame.grid));
  if (options.role?.kind !== 'lamp-off') refuseWithoutLight(grid); // a dark room's light is what is asked for
  if (options.role === undefined) refuseSubject(grid);
  onProgress('fitting', 0);
  const surfaces = options.role?.kind === 'lamp-off' ? surfacesOfRoom(grid) : fitSurfaces(grid);
  const { chosen, because } = chooseSurface(surfaces);
  onProgress('measuring', 0);
  // What stands in for the truth when errors are resampled need not be simple, only close.
  const closest = surfaces.reduce((best, surface) => (surface.heldOutEv < best.heldOutEv ? surface : best));
  const facts = { ...first.facts, averagedFrames: opened.length };
  const { space, regionSays, wholeLight, doubt, readBy } = first;
  const averagedFrom = opened.map((frame) => frame.grid);
  const { measurement, ...light } = measureCells(grid, lightOf(closest, grid), facts, {
    doubtEv: (bright, dark) => doubtEv(doubt, bright, dark),
    averagedFrom,
  });
  onProgress('measuring', 1);
  const says = [
    facts.lightSays,
    doubtSays(doubt, light.brightestLight, light.brightestLight * 2 ** -measurement.falloff.spreadEv),
    flickerSays(averagedFrom, light.flickerEv),
  ];
  const frame = { ...facts, lightSays: says.filter((sentence) => sentence !== '').join(' ') };
  return {
    measurement: { ...measurement, frame },
    ...{ grid, surfaces, chosen, chosenBecause: because, space, regionSays, wholeLight },
    light: { ...light, asRead: { ...light.asRead, frame }, doubt },
    readBy,
  };
}

/** A black frame of the room's light says something too. */
function surfacesOfRoom(grid: CellGrid): Surface[] {
  try {
    return [...fitSurfaces(grid)];
  } catch (error) {
    if (!(error instanceof EngineError) || error.code !== 'no-light') throw error;
    throw new EngineError(
      'no-light',
      'With the lights off this frame is black: at this exposure the room adds nothing that could be measured. To be sure, expose longer (shutter, aperture and ISO are read from the file) and shoot it again.',
      error.detail,
      { cause: error },
    );
  }
}

/** Each camera has a tone curve of its own, and what is assumed of the light is said of all frames alike. */
function refuseOtherCameras(opened: readonly OpenedFrame[]): void {
  const cameras = new Set(opened.flatMap(({ readBy: { camera } }) => camera ?? []));
  if (cameras.size < 2) return;
  throw new EngineError(
    'unsupported-file',
    `These frames were shot with different cameras (${[...cameras].join(', ')}); frames to be averaged must come from one. Choose those of one camera, or read them one by one.`,
    { cameras: [...cameras] },
  );
}

/** A frame as cells, and what its file says of it. */
export interface OpenedFrame {
  readonly facts: FrameFacts;
  readonly grid: CellGrid;
  readonly space: LinearRgbSpace;
  readonly regionSays: string;
  readonly wholeLight: WholeLight | null;
  readonly doubt: LightDoubt;
  readonly readBy: ReadBy;
}

interface OpenOptions extends Pick<MeasureOptions, 'response' | 'responses'> {
  readonly region: FrameRectangle | undefined;
}

async function openFrame(
  { name, bytes }: FrameSource,
  { region, response, responses = [] }: OpenOptions,
  platform: Platform,
  onProgress: (phase: ReadPhase, fraction: number) => void,
): Promise<OpenedFrame> {
  onProgress('opening', 0);
  // beside the decoding where the platform has a thread for it; Chromium 156 takes its caller's: 14 to 18 ms for 7 MB, 260 to 600 for 144 MB
  const sha256 = platform.sha256Hex(bytes);
  sha256.catch(() => {}); // where decoding fails first, nobody waits for it
  const decoded = await decodeImage(bytes, platform, (fraction) => onProgress('decoding', fraction));
  const stored = await readThroughTables(decoded, platform, (fraction) => onProgress('converting', fraction));
  const camera = shotFacts(stored.exif).model;
  const wanted = response ?? keptFor(stored.format, camera, responses);
  const { frame, colourProfile } = linearise(stored, wanted);
  const onAveraged = (fraction: number) => onProgress('averaging', fraction);
  let grid = cellsFromFrame(frame, region, onAveraged);
  const lit = region ? null : findRegion(grid, frame);
  let wholeLight: WholeLight | null = null;
  if (lit?.found) {
    wholeLight = { columns: grid.columns, rows: grid.rows, luminance: allLuminance(grid) };
    grid = cellsFromFrame(frame, lit.region, onAveraged);
  }
  if (stored.format === 'jpeg' && standsInPlateaux(grid)) {
    const blocks = readBlockMeans(bytes);
    if (blocks) grid = refineByBlocks(grid, frame, blocks);
  }
  grid = { ...grid, fine: fineStructure(frame, grid.region) };
  const sideways = orientationTurnsSideways(stored.orientation);
  const full = stored.raw ?? stored; // a sensor's cells are read four to a pixel
  const facts: FrameFacts = {
    name,
    sha256: await sha256,
    widthPx: sideways ? full.heightPx : full.widthPx,
    heightPx: sideways ? full.widthPx : full.heightPx,
    orientation: stored.orientation,
    bitsPerSample: stored.throughTables?.bitsPerSample ?? stored.bitsPerSample,
    light: frame.light,
    lightSays: frame.lightSays,
    colourProfile,
    exposure: stored.exposure,
    averagedFrames: 1,
  };
  const { space, doubt } = frame;
  const readBy = { camera, response: frame.light === 'response-recovered' ? wanted : null };
  return { facts, grid, space, regionSays: lit?.says ?? '', wholeLight, doubt, readBy };
}

/** Linear light of a surface at the cells, NaN where the grid has no measurement. */
function lightOf(surface: Surface, grid: CellGrid): CellGrid['light'] {
  const log = surfaceAtCells(surface, grid);
  const linear = (values: Float64Array) =>
    values.map((value, i) => (Number.isNaN(grid.light.green[i]!) ? Number.NaN : 2 ** value));
  return { red: linear(log.red), green: linear(log.green), blue: linear(log.blue) };
}
