import { type PicturesByAsking, videoPictures } from './video-pictures.ts';

/** Why no camera can be looked through; the last four are no camera's, but the measuring worker's and the browser's own. */
export type LiveTrouble =
  | 'not-offered'
  | 'refused'
  | 'no-camera'
  | 'in-use'
  | 'lost'
  | 'failed'
  | 'died'
  | 'hung'
  | 'no-canvas'
  | 'altered';

/** Whether a setting stands still: held here, known to be set by itself, or not told by the camera. */
export type Held = 'held' | 'automatic' | 'not-told';

export interface OpenedCamera {
  readonly name: string;
  readonly id: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly exposure: Held;
  readonly whiteBalance: Held;
  /** To be handed to a worker; those that nobody takes in time are dropped. Some browsers hand out none but on asking. */
  readonly pictures: ReadableStream<VideoFrame> | PicturesByAsking;
  stop(): void;
}

export interface CameraName {
  readonly id: string;
  readonly name: string;
}

/** What TypeScript's library does not know yet. Source: W3C, MediaStreamTrack Insertable Media Processing using Streams. */
interface TrackProcessor {
  readonly readable: ReadableStream<VideoFrame>;
}
type MakeProcessor = new (init: { track: MediaStreamTrack; maxBufferSize?: number }) => TrackProcessor;

/** Settings that a camera may offer. Source: W3C, MediaStream Image Capture. */
interface CameraModes {
  readonly exposureMode?: string | string[];
  readonly whiteBalanceMode?: string | string[];
  readonly focusMode?: string | string[];
}
const MODES = ['exposureMode', 'whiteBalanceMode', 'focusMode'] as const;

const processor = () =>
  (globalThis as { MediaStreamTrackProcessor?: MakeProcessor }).MediaStreamTrackProcessor ?? null;

/** Whether this page may ask for a camera: addresses that are not secure may not. */
export function offersCameras(): boolean {
  return typeof navigator.mediaDevices?.getUserMedia === 'function';
}

/** Thrown where a camera can't be opened. */
export class CameraFailure extends Error {
  constructor(readonly trouble: LiveTrouble) {
    super(trouble);
  }
}

/**
 * Opens a camera at 1080 lines where it has them, and has it hold exposure, white balance and focus where it can.
 * @throws {@link CameraFailure}
 */
export async function openCamera(id: string | null, whenLost: () => void): Promise<OpenedCamera> {
  if (!offersCameras()) throw new CameraFailure('not-offered');
  const stream = await navigator.mediaDevices
    .getUserMedia({
      audio: false,
      video: {
        ...(id === null ? {} : { deviceId: { exact: id } }),
        ...{ width: { ideal: 1920 }, height: { ideal: 1080 }, frameRate: { ideal: 30 } },
      },
    })
    .catch((error: unknown) => {
      throw new CameraFailure(TROUBLE_OF[(error as DOMException).name] ?? 'failed');
    });
  const track = stream.getVideoTracks()[0]!;
  track.addEventListener('ended', whenLost); // not told where it is stopped from here
  try {
    const held = await holdSettings(track);
    const { width = 0, height = 0, deviceId = '' } = track.getSettings();
    return {
      ...{ name: track.label, id: deviceId, widthPx: width, heightPx: height, ...held },
      ...(await picturesOf(track)),
    };
  } catch {
    track.stop(); // a camera that nobody looks through is not to stay on
    throw new CameraFailure('failed');
  }
}

async function picturesOf(track: MediaStreamTrack): Promise<Pick<OpenedCamera, 'pictures' | 'stop'>> {
  const Processor = processor();
  if (Processor !== null)
    return {
      pictures: new Processor({ track, maxBufferSize: 1 }).readable,
      stop: () => track.stop(),
    };
  const pictures = await videoPictures(track);
  const stop = () => {
    pictures.stop();
    track.stop();
  };
  return { pictures, stop };
}

const TROUBLE_OF: Readonly<Record<string, LiveTrouble>> = {
  NotAllowedError: 'refused',
  SecurityError: 'refused',
  NotFoundError: 'no-camera',
  OverconstrainedError: 'no-camera',
  NotReadableError: 'in-use',
  AbortError: 'in-use',
};

/** The cameras by name; browsers tell names once one was allowed. */
export async function cameraNames(): Promise<CameraName[]> {
  const devices = await navigator.mediaDevices.enumerateDevices();
  return devices
    .filter(({ kind, deviceId }) => kind === 'videoinput' && deviceId !== '')
    .map(({ deviceId, label }) => ({ id: deviceId, name: label }));
}

/** Has the camera keep what it is set to now, setting by setting, since one that it can't keep would refuse all. */
async function holdSettings(
  track: MediaStreamTrack,
): Promise<Pick<OpenedCamera, 'exposure' | 'whiteBalance'>> {
  const offered = (track.getCapabilities?.() ?? {}) as CameraModes;
  for (const mode of MODES) {
    if (!offered[mode]?.includes('manual')) continue;
    await track
      .applyConstraints({ advanced: [{ [mode]: 'manual' } as MediaTrackConstraintSet] })
      .catch(() => {});
  }
  const settings = track.getSettings() as CameraModes;
  const held = (mode: 'exposureMode' | 'whiteBalanceMode'): Held =>
    settings[mode] === undefined ? 'not-told' : settings[mode] === 'manual' ? 'held' : 'automatic';
  return { exposure: held('exposureMode'), whiteBalance: held('whiteBalanceMode') };
}
