import type { StoredImage } from '../intake/stored-image.ts';
import type { CameraResponse } from '../response/camera-response.ts';
import { lightOfResponse } from '../response/light-of-response.ts';
import { interpretColour } from './interpret-colour.ts';
import { lightTable } from './light-table.ts';
import type { LinearFrame } from './linear-frame.ts';

/**
 * Linear light of every code that the file's own colour coding has at a depth, which need not be the file's: what is
 * worked out of 8 bits may be written in 16. A camera's response takes the place of the coding's own curves.
 */
export function lightOfCodes(
  stored: StoredImage,
  bitsPerSample: 8 | 16,
  response?: CameraResponse | null,
): LinearFrame['lightAtCode'] {
  const decode = response ? lightOfResponse(response.channels) : interpretColour(stored).decode;
  const green = lightTable(bitsPerSample, decode.green);
  // a grey picture is neutral by definition: a profile whose curves differ may not tint it
  const isGrey = stored.channels < 3;
  const shared = (of: (code: number) => number) =>
    isGrey || of === decode.green ? green : lightTable(bitsPerSample, of);
  return { red: shared(decode.red), green, blue: shared(decode.blue) };
}
