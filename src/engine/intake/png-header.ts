import { EngineError } from '../engine-error.ts';
import { checkPictureSize } from './picture-size.ts';

/** PNG's colour types by number, as ISO/IEC 15948:2004 table 11.1 allows them. */
export type PngColour = 'grey' | 'rgb' | 'palette' | 'grey-alpha' | 'rgb-alpha';

/** The IHDR chunk, checked. */
export interface PngHeader {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Bits of one stored sample: 1, 2, 4, 8 or 16. */
  readonly depth: number;
  readonly colour: PngColour;
  /** Samples a pixel as stored; 1 for a palette's index. */
  readonly storedChannels: number;
  readonly interlaced: boolean;
}

const COLOURS: Readonly<Record<number, { colour: PngColour; channels: number; depths: readonly number[] }>> =
  {
    0: { colour: 'grey', channels: 1, depths: [1, 2, 4, 8, 16] },
    2: { colour: 'rgb', channels: 3, depths: [8, 16] },
    3: { colour: 'palette', channels: 1, depths: [1, 2, 4, 8] },
    4: { colour: 'grey-alpha', channels: 2, depths: [8, 16] },
    6: { colour: 'rgb-alpha', channels: 4, depths: [8, 16] },
  };

/**
 * Reads the data of an IHDR chunk and refuses what no decoder could make a picture of.
 * Source: ISO/IEC 15948:2004, 11.2.2.
 *
 * @throws {@link EngineError} `unreadable-file`, `too-large`, `too-small`.
 */
export function readPngHeader(data: Uint8Array): PngHeader {
  if (data.length !== 13) throw damaged(`its header has ${data.length} bytes, 13 were needed`);
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const widthPx = view.getUint32(0);
  const heightPx = view.getUint32(4);
  const [depth, colourType, compression, filter, interlace] = [8, 9, 10, 11, 12].map((at) =>
    view.getUint8(at),
  );
  const known = COLOURS[colourType!];
  if (!known?.depths.includes(depth!))
    throw damaged(`its header claims colour type ${colourType} at ${depth} bits, which PNG does not have`);
  if (compression !== 0 || filter !== 0 || interlace! > 1)
    throw damaged(
      `its header claims coding ${compression}, ${filter}, ${interlace}; 0, 0 and 0 or 1 were needed`,
    );
  checkPictureSize(widthPx, heightPx);
  return {
    widthPx,
    heightPx,
    depth: depth!,
    colour: known.colour,
    storedChannels: known.channels,
    interlaced: interlace === 1,
  };
}

function damaged(found: string): EngineError {
  return new EngineError('unreadable-file', `The PNG is damaged: ${found}. Copy or export it again.`);
}
