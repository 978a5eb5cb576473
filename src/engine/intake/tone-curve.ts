/** A profile's curve from code (0 to 1) to linear light (0 to 1). */
export type ToneCurve =
  | { readonly kind: 'exponent'; readonly exponent: number }
  | { readonly kind: 'table'; readonly entries: Float64Array }
  /** (a x + b)^g + e from x = d on, c x + f below. */
  | {
      readonly kind: 'parametric';
      readonly g: number;
      readonly a: number;
      readonly b: number;
      readonly c: number;
      readonly d: number;
      readonly e: number;
      readonly f: number;
    };

/** Linear light at a code, both 0 to 1; never below 0. Tables are read by linear interpolation, as ICC.1 has it. */
export function evaluateToneCurve(curve: ToneCurve, code: number): number {
  return Math.max(0, unclamped(curve, code));
}

function unclamped(curve: ToneCurve, code: number): number {
  if (curve.kind === 'exponent') return code ** curve.exponent;
  if (curve.kind === 'parametric') {
    const { g, a, b, c, d, e, f } = curve;
    return code >= d ? Math.max(0, a * code + b) ** g + e : c * code + f;
  }
  const last = curve.entries.length - 1;
  const position = Math.min(1, Math.max(0, code)) * last;
  const below = Math.min(Math.floor(position), last - 1);
  const low = curve.entries[below]!;
  return low + (curve.entries[below + 1]! - low) * (position - below);
}

/**
 * Reads a curve element, `null` where it is none or can't be evaluated.
 * Source: ICC.1:2010, 10.5 (curveType: no entry is the identity, one a u8Fixed8 exponent) and 10.15
 * (parametricCurveType, table 65: function types 0 to 4).
 */
export function readToneCurve(element: Uint8Array): ToneCurve | null {
  if (element.length < 12) return null;
  const view = new DataView(element.buffer, element.byteOffset, element.byteLength);
  const type = view.getUint32(0);
  const curve = type === CURVE ? readCurve(view) : type === PARAMETRIC ? readParametric(view) : null;
  if (!curve) return null;
  // a curve that does not rise from dark to light can't carry a falloff
  const black = evaluateToneCurve(curve, 0);
  const white = evaluateToneCurve(curve, 1);
  return Number.isFinite(black) && Number.isFinite(white) && white > 0.1 && white > black ? curve : null;
}

const CURVE = 0x63757276; // "curv"
const PARAMETRIC = 0x70617261; // "para"

function readCurve(view: DataView): ToneCurve | null {
  const count = view.getUint32(8);
  if (count === 0) return { kind: 'exponent', exponent: 1 };
  if (12 + 2 * count > view.byteLength) return null;
  if (count === 1) return { kind: 'exponent', exponent: view.getUint16(12) / 256 };
  const entries = new Float64Array(count);
  for (let i = 0; i < count; i++) entries[i] = view.getUint16(12 + 2 * i) / 65535;
  return { kind: 'table', entries };
}

/** Parameters that each function type stores, in this order. */
const STORED = [
  ['g'],
  ['g', 'a', 'b'],
  ['g', 'a', 'b', 'c'],
  ['g', 'a', 'b', 'c', 'd'],
  [...'gabcdef'],
] as const;

function readParametric(view: DataView): ToneCurve | null {
  const functionType = view.getUint16(8);
  const stored = STORED[functionType];
  if (!stored || 12 + 4 * stored.length > view.byteLength) return null;
  const p: Record<string, number> = {};
  stored.forEach((name, i) => {
    p[name] = view.getInt32(12 + 4 * i) / 65536;
  });
  const { g = 1, a = 1, b = 0, c = 0, d = 0, e = 0, f = 0 } = p;
  if (functionType === 0) return { kind: 'exponent', exponent: g };
  // types 1 and 2 switch where a x + b passes 0, and c is an offset on both sides there
  if (functionType <= 2) return a === 0 ? null : { kind: 'parametric', g, a, b, c: 0, d: -b / a, e: c, f: c };
  return { kind: 'parametric', g, a, b, c, d, e, f };
}
