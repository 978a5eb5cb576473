import { EngineError } from '../engine-error.ts';
import type { LinearFrame } from '../frame/linear-frame.ts';

/** Nine stops below white: an sRGB code of 6 in 255. What lies below is noise and rounding, lifted or not. */
const BLACK = 2 ** -9;
/** A glass before black shows little but its rims: so much of a frame is enough. */
const LEAST_SHARE = 0.001;
/** Every how manieth pixel is looked at; no divisor of usual widths. */
const EVERY = 7;

/**
 * Refuses a frame in which hardly a pixel holds light.
 *
 * @throws {@link EngineError} `no-light`.
 */
export function refuseBlack({ samples, channels, lightAtCode }: LinearFrame): void {
  const [red, green, blue] =
    channels < 3
      ? [lightAtCode.green, lightAtCode.green, lightAtCode.green]
      : [lightAtCode.red, lightAtCode.green, lightAtCode.blue];
  const [second, third] = channels < 3 ? [0, 0] : [1, 2];
  let pixels = 0;
  let lit = 0;
  for (let at = 0; at < samples.length; at += EVERY * channels) {
    pixels++;
    const isLit =
      red[samples[at]!]! > BLACK ||
      green[samples[at + second]!]! > BLACK ||
      blue[samples[at + third]!]! > BLACK;
    if (isLit) lit++;
  }
  if (lit >= LEAST_SHARE * pixels) return;
  throw new EngineError(
    'no-light',
    `The frame is black: ${lit === 0 ? 'no pixel' : `only ${((100 * lit) / pixels).toFixed(2)} % of it`} holds light ` +
      'within nine stops of white. A light that did not fire, or a lens cap? Take the frame out, or shoot it again.',
    { litShare: lit / pixels },
  );
}
