import { srgbDecode, srgbEncode } from '../colour/srgb-curve.ts';
import { isMarked } from '../frame/is-marked.ts';
import type { LinearFrame } from '../frame/linear-frame.ts';
import { orientationTurnsSideways } from '../grid/upright-rectangle.ts';
import { type LightPlanes, lightPlanes, seen, turnedPlanes } from './matte/light-planes.ts';

/** A frame averaged in linear light to a few pixels, upright, and which of them hold clipped ones. */
export interface FrameInSmall {
  readonly frame: LinearFrame;
  /** 1 where any pixel averaged was clipped in the file, row-major and upright. */
  readonly clipped: Uint8Array;
  /** Of the file's own pixels, 0 to 1. */
  readonly clippedShare: number;
}

const TOP_CODE = 65535;

/**
 * Averages a frame down to at most so many pixels along its longer side; a smaller one keeps its size. It keeps its
 * colours: only codes are new ones, 16 bits by the curve of sRGB.
 */
export function frameInSmall(frame: LinearFrame, longestPx: number, isGrey: boolean): FrameInSmall {
  const scale = Math.min(1, longestPx / Math.max(frame.widthPx, frame.heightPx));
  const columns = Math.max(1, Math.round(frame.widthPx * scale));
  const rows = Math.max(1, Math.round(frame.heightPx * scale));
  const { fileCodes: _ofItsOwnPixels, ...meaning } = frame;
  const upright = turnedPlanes(lightPlanes(frame, columns, rows), frame.orientation, 1);
  const light = Float64Array.from({ length: TOP_CODE + 1 }, (_, code) => srgbDecode(code / TOP_CODE));
  return {
    frame: {
      ...meaning,
      widthPx: upright.columns,
      heightPx: upright.rows,
      channels: isGrey ? 1 : 3,
      bitsPerSample: 16,
      samples: codesOf(upright, isGrey),
      lightAtCode: { red: light, green: light, blue: light },
      clipCode: TOP_CODE + 1, // what the file held clipped is known from its own pixels
      floorCode: 0,
      orientation: 1,
      jpegDcSteps: null,
    },
    ...clippedPixels(frame, columns, rows),
  };
}

function codesOf({ light }: LightPlanes, isGrey: boolean): Uint16Array {
  const planes = isGrey ? [light[1]] : light;
  const codes = new Uint16Array(light[0].length * planes.length);
  planes.forEach((plane, channel) => {
    for (let i = 0, at = channel; i < plane.length; i++, at += planes.length)
      codes[at] = TOP_CODE * srgbEncode(Math.min(plane[i]!, 1)) + 0.5; // what stands after the point is cut off
  });
  return codes;
}

function clippedPixels(
  frame: LinearFrame,
  columns: number,
  rows: number,
): Pick<FrameInSmall, 'clipped' | 'clippedShare'> {
  const { widthPx, heightPx, channels, samples, clipCode, orientation } = frame;
  const isTurned = orientationTurnsSideways(orientation);
  const [uprightColumns, uprightRows] = isTurned ? [rows, columns] : [columns, rows];
  const clipped = new Uint8Array(columns * rows);
  const read = channels < 3 ? 1 : 3;
  let pixels = 0;
  for (let row = 0, at = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++, at += channels) {
      let isClipped = isMarked(frame, row * widthPx + column);
      for (let channel = 0; channel < read; channel++)
        isClipped = isClipped || samples[at + channel]! >= clipCode;
      if (!isClipped) continue;
      pixels++;
      const [x, y] = seen((column + 0.5) / widthPx, (row + 0.5) / heightPx, orientation);
      clipped[Math.floor(y * uprightRows) * uprightColumns + Math.floor(x * uprightColumns)] = 1;
    }
  }
  return { clipped, clippedShare: pixels / (widthPx * heightPx) };
}
