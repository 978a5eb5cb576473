/** Harmonics of the saw-tooth that rounding makes; the fourth is below a fiftieth of a step once anything dithers. */
const HARMONICS = 4;

/**
 * The error that rounding to codes leaves in each cell's mean, as a function of one unknown phase that all cells
 * share: error(φ) = Σ_k sine_k · cos 2πkφ + cosine_k · sin 2πkφ, in linear light.
 */
export interface ChannelRounding {
  readonly harmonics: number;
  /** `harmonics` values a cell. */
  readonly sine: Float64Array;
  readonly cosine: Float64Array;
}

/** Continuous code of a light, and the light of one code step there. */
function codeAt(lightAtCode: Float64Array, light: number): { code: number; step: number } {
  let low = 0;
  let high = lightAtCode.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (lightAtCode[middle]! <= light) low = middle;
    else high = middle;
  }
  const step = lightAtCode[high]! - lightAtCode[low]!;
  return { code: step > 0 ? low + (light - lightAtCode[low]!) / step : low, step };
}

const sinc = (x: number) => (Math.abs(x) < 1e-9 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));

/**
 * Prepares the rounding error of one channel's cells. The saw-tooth round(c) − c has the harmonics
 * (−1)^k / (πk) · sin 2πkc; averaged over a cell, each shrinks by the characteristic function of the codes in it: a sinc
 * for the slope across and along, a Gaussian for the pixels' noise (dither; B. Widrow and I. Kollár, Quantization Noise,
 * 2008, chapter 5, from memory). `smooth` is the linear light that stands in for the truth, `pixelSigma` the scatter of
 * single pixels in linear light, which includes the rounding's own 1/12 step². NaN cells get no error.
 */
export function channelRounding(
  smooth: Float64Array,
  pixelSigma: Float64Array,
  lightAtCode: Float64Array,
  columns: number,
  rows: number,
): ChannelRounding {
  const count = smooth.length;
  const codes = new Float64Array(count);
  const steps = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const { code, step } = codeAt(lightAtCode, smooth[i]!);
    codes[i] = code;
    steps[i] = step;
  }
  const sine = new Float64Array(count * HARMONICS);
  const cosine = new Float64Array(count * HARMONICS);
  for (let i = 0; i < count; i++) {
    if (!(steps[i]! > 0) || Number.isNaN(smooth[i]!)) continue;
    const column = i % columns;
    const row = Math.floor(i / columns);
    const left = column > 0 ? i - 1 : i;
    const right = column < columns - 1 ? i + 1 : i;
    const up = row > 0 ? i - columns : i;
    const down = row < rows - 1 ? i + columns : i;
    const across = right > left ? (codes[right]! - codes[left]!) / (right - left) : 0;
    const along = down > up ? (codes[down]! - codes[up]!) / ((down - up) / columns) : 0;
    const noise = Math.max(0, (pixelSigma[i]! / steps[i]!) ** 2 - 1 / 12);
    for (let k = 1; k <= HARMONICS; k++) {
      const dither = Math.exp(-2 * (Math.PI * k) ** 2 * noise);
      const amplitude =
        ((k % 2 === 0 ? 1 : -1) / (Math.PI * k)) * dither * sinc(k * across) * sinc(k * along) * steps[i]!;
      const phase = 2 * Math.PI * k * codes[i]!;
      sine[i * HARMONICS + k - 1] = amplitude * Math.sin(phase);
      cosine[i * HARMONICS + k - 1] = amplitude * Math.cos(phase);
    }
  }
  return { harmonics: HARMONICS, sine, cosine };
}
