import { type LineProfile, STRIPS } from '../grid/line-profiles.ts';
import { fastFourier } from '../numeric/fast-fourier.ts';
import { quantileOfSorted } from '../numeric/quantile.ts';
import { heightLeft, softlyPooled } from './softly-pooled.ts';
import { fitColumns, fitWave, legendreLines } from './wave-fit.ts';

/** A wave of brightness across the lines of a profile. */
export interface BandWave {
  readonly periodLines: number;
  /** Crest to trough, in stops. */
  readonly depthEv: number;
  /** Of each line, counted from the first: the wave in stops is depthEv / 2 × cos(2π × line / period − phase). */
  readonly phase: number;
  /** How far it stands out of whatever else the profile holds, 1 being what chance and smooth light do often. */
  readonly prominence: number;
}

/** Shortest period, in lines, and fewest periods over the region, that are told from texture and from falloff. */
const SHORTEST_PERIOD_LINES = 10;
const FEWEST_CYCLES = 1.9;
/** From here on a wave is told by its spectrum; below, by what smooth light of as many coefficients would leave. */
export const SPECTRAL_FROM_CYCLES = 7.5;
/** Smooth light under a long wave; without the wave it is allowed three degrees more, the wave's own coefficients. */
const SMOOTH_DEGREES = [2, 4];
export const LONG_WAVE_PLACES = 80;
/** Apart by less than half of what tells two long waves apart. */
const SCAN_CYCLES = 0.15;
/** Smooth light taken out before the spectrum. */
const DETREND_DEGREE = 11;
/** What the neighbouring waves reach by chance: the highest of thousands lies 3.2 times over their median. */
const CHANCE_OVER_MEDIAN = 3.2;
/** Square of how much worse smooth light alone does than by chance. */
const CHANCE_GAIN = 4;
/** Shallower waves, crest to trough, are not looked into. */
const LEAST_DEPTH_EV = 0.004;
/** A strip where the wave has this share of its mean shows it… */
const SHOWN_SHARE = 0.25;
/** …and this share of strips does: flicker crosses the whole frame. */
const SHOWING_STRIPS = 0.8;

/** The strongest wave that crosses every strip of a profile, or `null`. Strips without light are left out. */
export function bandWave(profile: LineProfile): BandWave | null {
  const strips = logStrips(profile);
  if (strips.length < STRIPS / 2 || profile.lines < 2 * SHORTEST_PERIOD_LINES) return null;
  const mean = meanOfStrips(strips);
  // a long wave's skirt reaches into the spectrum of short ones and the other way round: the deeper one is meant
  return [longWave(mean), shortWave(mean)]
    .filter((found) => found !== null)
    .filter(({ cycles }) => isDeep(waveOf(mean, cycles)))
    .map((found) => acrossStrips(found, strips, profile.lines))
    .filter((wave) => wave !== null)
    .reduce<BandWave | null>((deep, wave) => (deep && deep.depthEv >= wave.depthEv ? deep : wave), null);
}

const isDeep = ({ cosine, sine }: { cosine: number; sine: number }) =>
  2 * Math.hypot(cosine, sine) > LEAST_DEPTH_EV;

/** The wave as every strip shows it; `null` where too few do. */
function acrossStrips(found: Found, strips: readonly Float64Array[], lines: number): BandWave | null {
  const shares = strips.map((strip) => waveOf(strip, found.cycles));
  const whole = {
    cosine: shares.reduce((sum, wave) => sum + wave.cosine, 0) / shares.length,
    sine: shares.reduce((sum, wave) => sum + wave.sine, 0) / shares.length,
  };
  const squared = whole.cosine ** 2 + whole.sine ** 2;
  const showing = shares.filter(
    (wave) => wave.cosine * whole.cosine + wave.sine * whole.sine > SHOWN_SHARE * squared,
  ).length;
  if (!(showing >= SHOWING_STRIPS * shares.length)) return null;
  const periodLines = lines / found.cycles;
  // the fits count their phase from the middle of the line of values, half a line off its first centre
  const middle = (lines - 1) / 2;
  return {
    periodLines,
    depthEv: 2 * Math.sqrt(squared),
    phase: Math.atan2(whole.sine, whole.cosine) + (2 * Math.PI * middle) / periodLines,
    prominence: found.prominence,
  };
}

interface Found {
  readonly cycles: number;
  readonly prominence: number;
}

export function logStrips({ lines, light }: LineProfile): Float64Array[] {
  const strips: Float64Array[] = [];
  for (let strip = 0; strip < STRIPS; strip++) {
    const values = Float64Array.from(light.subarray(strip * lines, (strip + 1) * lines), Math.log2);
    if (values.every(Number.isFinite)) strips.push(values);
  }
  return strips;
}

export function meanOfStrips(strips: readonly Float64Array[]): Float64Array {
  return strips[0]!.map((_, line) => strips.reduce((sum, strip) => sum + strip[line]!, 0) / strips.length);
}

/** Cosine and sine parts of a known wave in one strip. */
function waveOf(strip: Float64Array, cycles: number): { cosine: number; sine: number } {
  if (cycles >= SPECTRAL_FROM_CYCLES) return taperedWave(withoutSmooth(strip), cycles);
  const values = softlyPooled(strip, LONG_WAVE_PLACES);
  const { cosine, sine } = fitWave(values, legendreLines(values.length, SMOOTH_DEGREES.at(-1)!), cycles);
  const left = values === strip ? 1 : heightLeft(cycles, values.length);
  return { cosine: cosine / left, sine: sine / left };
}

function withoutSmooth(values: Float64Array): Float64Array {
  const coarse = softlyPooled(values, LONG_WAVE_PLACES);
  const { coefficients } = fitColumns(coarse, legendreLines(coarse.length, DETREND_DEGREE));
  const smooth = legendreLines(values.length, DETREND_DEGREE);
  return values.map((value, i) => {
    let left = value;
    for (let k = 0; k <= DETREND_DEGREE; k++) left -= coefficients[k]! * smooth[k]![i]!;
    return left;
  });
}

/** Fewer cycles than a spectrum resolves: does smooth light with a wave leave far less than smoother light without? */
function longWave(mean: Float64Array): Found | null {
  const values = softlyPooled(mean, LONG_WAVE_PLACES);
  let best: { cycles: number; gain: number } | null = null;
  for (const degree of SMOOTH_DEGREES) {
    const smooth = legendreLines(values.length, degree);
    const alone = fitColumns(values, legendreLines(values.length, degree + 3)).left;
    const gainAt = (cycles: number) => alone / (fitWave(values, smooth, cycles).left + 1e-12);
    let top = { cycles: 0, gain: 0 };
    for (let cycles = FEWEST_CYCLES; cycles <= SPECTRAL_FROM_CYCLES + 1; cycles += SCAN_CYCLES) {
      const gain = gainAt(cycles);
      if (gain > top.gain) top = { cycles, gain };
    }
    const cycles = highestNear(gainAt, top.cycles, SCAN_CYCLES);
    const gain = gainAt(cycles);
    if (best === null || gain > best.gain) best = { cycles, gain };
  }
  if (best === null || best.cycles < FEWEST_CYCLES) return null;
  const share = Math.sqrt(best.gain / CHANCE_GAIN);
  return share > 1 ? { cycles: best.cycles, prominence: share } : null;
}

/** The strongest wave of the spectrum against the waves about as long as it. */
function shortWave(mean: Float64Array): Found | null {
  const values = withoutSmooth(mean);
  const n = values.length;
  let size = 1;
  while (size < 2 * n) size *= 2;
  const real = new Float64Array(size);
  const imaginary = new Float64Array(size);
  for (let i = 0; i < n; i++) real[i] = values[i]! * taper(i, n);
  fastFourier(real, imaginary);
  const perCycle = size / n;
  const last = Math.min(size / 2 - 1, Math.floor((n / SHORTEST_PERIOD_LINES) * perCycle));
  const amplitude = Float64Array.from({ length: last + 1 }, (_, k) => Math.hypot(real[k]!, imaginary[k]!));
  let top = -1;
  for (let k = Math.ceil(SPECTRAL_FROM_CYCLES * perCycle); k <= last; k++)
    if (isCrest(amplitude, k) && (top < 0 || amplitude[k]! > amplitude[top]!)) top = k;
  if (top < 0) return null;
  const clear = Math.ceil(2.5 * perCycle); // the taper spreads a wave over two cycles either side
  const around: number[] = [];
  for (let k = Math.ceil(top / 1.5); k <= Math.min(last, top * 1.5); k++)
    if (Math.abs(k - top) > clear) around.push(amplitude[k]!);
  const chance =
    CHANCE_OVER_MEDIAN *
    quantileOfSorted(
      around.sort((a, b) => a - b),
      0.5,
    );
  if (!(amplitude[top]! > chance)) return null;
  const strength = (cycles: number) => {
    const { cosine, sine } = taperedWave(values, cycles);
    return Math.hypot(cosine, sine);
  };
  return { cycles: highestNear(strength, top / perCycle, 0.5), prominence: amplitude[top]! / chance };
}

const isCrest = (values: Float64Array, k: number) =>
  values[k]! > (values[k - 1] ?? 0) && values[k]! >= (values[k + 1] ?? 0);

const taper = (i: number, n: number) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / n);

function taperedWave(values: Float64Array, cycles: number): { cosine: number; sine: number } {
  const n = values.length;
  let cosine = 0;
  let sine = 0;
  for (let i = 0; i < n; i++) {
    const angle = 2 * Math.PI * cycles * ((i + 0.5) / n - 0.5);
    const value = values[i]! * taper(i, n);
    cosine += value * Math.cos(angle);
    sine += value * Math.sin(angle);
  }
  return { cosine: (4 * cosine) / n, sine: (4 * sine) / n };
}

/** Golden-section search for the highest value within `reach` of a place. */
function highestNear(value: (at: number) => number, at: number, reach: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = at - reach;
  let high = at + reach;
  let [a, b] = [high - golden * (high - low), low + golden * (high - low)];
  let [va, vb] = [value(a), value(b)];
  for (let step = 0; step < 16; step++) {
    if (va > vb) {
      high = b;
      [b, vb] = [a, va];
      a = high - golden * (high - low);
      va = value(a);
    } else {
      low = a;
      [a, va] = [b, vb];
      b = low + golden * (high - low);
      vb = value(b);
    }
  }
  return (low + high) / 2;
}
