import type { LiveStep } from '../../../workers/live-feed.ts';
import type { LiveReading } from '../../engine/live/live-reading.ts';
import type { Tolerance } from '../../engine/tolerance.ts';
import type { Held, LiveTrouble, OpenedCamera } from '../../sources/live-camera.ts';
import { chromaticity, decimals, percent, plusMinusStops, stops } from './figures.ts';
import { foundAndAsked } from './judged-words.ts';
import { atPlaceWords, placeWords } from './place-words.ts';
import { colourFigure } from './tolerance-words.ts';
import { warmthDifference } from './warmth.ts';

export const LIVE_TROUBLE_WORDS: Record<LiveTrouble, string> = {
  'not-offered':
    'This page may use no camera here: the browser is too old, or the page’s address not a secure one. Read single frames, or follow the folder that the camera writes to.',
  refused:
    'The browser was not allowed to use a camera. Allow it for this page in the browser’s settings, then look again.',
  'no-camera':
    'There is no camera to look through. Connect one, or a capture device with a camera on it, then look again.',
  'in-use':
    'The camera is in use by another program, or does not answer. Close the other program, then look again.',
  lost: 'The camera has gone: its cable, its battery, or its power saving. Connect it, then look again.',
  failed:
    'The camera’s pictures could not be read. Look again; where it happens again, another camera may work.',
  died: 'What measures the camera’s pictures has stopped: it could not be loaded, or memory ran out. The takes are kept; look again.',
  hung: 'What measures the camera’s pictures has not answered for half a minute, and was ended. The takes are kept; look again.',
  'no-canvas':
    'This browser is too old to measure a camera’s pictures: it lacks OffscreenCanvas. Use a newer one, or read single frames, or follow the folder that the camera writes to.',
  altered:
    'This browser alters pictures that a page reads, to keep it from being recognised; a camera’s can’t be measured then, nor held as a take. Allow this page to read them (a protection against fingerprinting, in the browser’s settings), then look again.',
};

/** What such a picture is not to be trusted for. */
export const FEED_TRUST =
  'A feed states neither its tone curve nor its range, so it shows which way to move, and a shot frame how even it is: ' +
  'the ± allows for a usual curve. Its colours hold among themselves; its cast is against the camera’s own white.';

/** Where pictures are taken off a video. */
export const FEED_ONLY_SEEN =
  'This browser hands out the camera’s pictures only while this page is in sight.';

export const FEED_AIM = 'Here the light is judged by how even it is, whatever the background is to become.';

const HELD: Record<Held, string> = {
  held: 'held',
  automatic: 'automatic',
  'not-told': 'not told by the camera',
};

/** Whether the camera keeps its settings, and what to do where it does not. */
export function heldWords({
  exposure,
  whiteBalance,
}: Pick<OpenedCamera, 'exposure' | 'whiteBalance'>): string {
  const by =
    exposure === whiteBalance
      ? `Exposure and white balance: ${HELD[exposure]}.`
      : `Exposure: ${HELD[exposure]}; white balance: ${HELD[whiteBalance]}.`;
  return exposure === 'held' && whiteBalance === 'held' ? by : `${by} Set them by hand on the camera.`;
}

/** The spread now, large, and where it goes. */
export function liveSentence(reading: LiveReading, tolerance: Tolerance): string {
  const { found, asked } = foundAndAsked(reading.falloff, tolerance);
  const bound = reading.falloff.isLowerBound ? 'at least ' : '';
  return `${bound}${found}; you asked for ${asked}${reading.verdict.even === 'yes' ? ': even enough' : ''}`;
}

export function liveWhere({ falloff }: LiveReading): string {
  return `Hottest ${atPlaceWords(falloff.brightestAt)}; ${placeWords(falloff.darkestAt)} is down.`;
}

/** How sure it is, and how it changes. */
export function settledWords({
  scatterEv,
  curveDoubtEv,
  pictures,
  isMoving,
  trendEvPerS,
}: LiveReading): string {
  const trend =
    trendEvPerS === null || Math.abs(trendEvPerS) < LEAST_TREND_EV_PER_S
      ? ''
      : ` The spread ${trendEvPerS < 0 ? 'falls' : 'grows'} by ${stops(Math.abs(trendEvPerS))} a second.`;
  if (isMoving) return `The light moves.${trend}`;
  if (scatterEv === null) return `Settling: ${pictures} pictures.${trend}`;
  return `${plusMinusStops(scatterEv)} over ${pictures} pictures; ${plusMinusStops(curveDoubtEv)} for the tone curve.${trend}`;
}

const LEAST_TREND_EV_PER_S = 0.05;

export function liveColour({ cast, tintDeltaUv, verdict }: LiveReading, tolerance: Tolerance): string {
  const warmth = cast.mired === null ? null : warmthDifference(cast.mired);
  const opening = {
    yes: 'Neutral enough',
    no: 'Not neutral',
    'too-close-to-say': 'Too close to say whether it is neutral',
  }[verdict.neutral];
  return `${opening}: cast ${chromaticity(cast.deltaUv)} Δu′v′${warmth === null ? '' : `, ${warmth}`}; tint within the frame ${chromaticity(tintDeltaUv)} Δu′v′, you asked for ${colourFigure(tolerance.tintDeltaUv)}.`;
}

/** A level that changes while the light's shape stays is the camera's doing, or the light's power; both are told. */
const DRIFT_EV = 0.15;
const COLOUR_DRIFT_EV = 0.06;

/** What drifts or hides light; empty where nothing does. */
export function driftWords({ levelDriftEv, colourDriftEv, clippedShare, falloff }: LiveReading): string[] {
  const words: string[] = [];
  if (Math.abs(levelDriftEv) > DRIFT_EV)
    words.push(
      `The level has changed by ${levelDriftEv > 0 ? '+' : ''}${stops(levelDriftEv)} while the light’s shape stayed: automatic exposure, or the light’s power.`,
    );
  if (Math.abs(colourDriftEv) > COLOUR_DRIFT_EV)
    words.push(
      'The colour of the whole picture has changed: automatic white balance, or the light warming up.',
    );
  if (falloff.isLowerBound)
    words.push(`${percent(clippedShare)} of it is clipped: expose less, or the falloff hides there.`);
  return words;
}

export function paceWords({ picturesPerSecond, widthPx, heightPx }: LiveStep): string {
  return `${decimals(picturesPerSecond, 0)} pictures a second, ${widthPx}\u00a0×\u00a0${heightPx}`;
}
