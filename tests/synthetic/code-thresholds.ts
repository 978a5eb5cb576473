export type TransferCurve = 'srgb' | 'linear';

/** Linear light of an encoded value, both 0 to 1. Source: IEC 61966-2-1:1999. */
export function decodeSrgb(encoded: number): number {
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
}

/** Encoded value of linear light, both 0 to 1. Source: IEC 61966-2-1:1999. */
export function encodeSrgb(light: number): number {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
}

/** Linear light of an integer code. */
export function lightOfCode(code: number, bits: 8 | 16, curve: TransferCurve): number {
  const encoded = code / (2 ** bits - 1);
  return curve === 'linear' ? encoded : decodeSrgb(encoded);
}

/**
 * A function from linear light to the nearest code after the curve; light outside 0 to 1 clips. It walks a table
 * of the lights midway between codes, which is several times faster than a power per sample.
 */
export function codeRounder(bits: 8 | 16, curve: TransferCurve): (light: number) => number {
  const key = `${bits} ${curve}`;
  const known = rounders.get(key);
  if (known) return known;
  const made = makeRounder(bits, curve);
  rounders.set(key, made);
  return made;
}

const rounders = new Map<string, (light: number) => number>();

function makeRounder(bits: 8 | 16, curve: TransferCurve): (light: number) => number {
  const top = 2 ** bits - 1;
  if (curve === 'linear') {
    return (light) => (light >= 1 ? top : light > 0 ? Math.floor(light * top + 0.5) : 0);
  }
  /** Least light that rounds to code n. */
  const least = new Float64Array(top + 1);
  for (let code = 1; code <= top; code++) least[code] = decodeSrgb((code - 0.5) / top);
  const buckets = bits === 8 ? 1 << 12 : 1 << 18;
  const firstCode = new Uint16Array(buckets);
  let code = 0;
  for (let bucket = 0; bucket < buckets; bucket++) {
    while (code < top && least[code + 1]! <= bucket / buckets) code++;
    firstCode[bucket] = code;
  }
  return (light) => {
    if (!(light > 0)) return 0;
    if (light >= 1) return top;
    let nearest = firstCode[Math.floor(light * buckets)]!;
    while (nearest < top && light >= least[nearest + 1]!) nearest++;
    return nearest;
  };
}
