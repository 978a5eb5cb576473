import type { Lab } from './lab.ts';

const DEGREE = Math.PI / 180;

/**
 * CIEDE2000 colour difference with kL = kC = kH = 1. The same both ways round. NaN in, NaN out.
 * Source: G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 color-difference formula: implementation notes,
 * supplementary test data, and mathematical observations", Color Res. Appl. 30(1), 2005, equations 2 to 22
 * (ISO/CIE 11664-6).
 */
export function ciede2000(first: Lab, second: Lab): number {
  const meanChroma = (Math.hypot(first.a, first.b) + Math.hypot(second.a, second.b)) / 2;
  const g = 0.5 * (1 - saturating(meanChroma));
  const a1 = (1 + g) * first.a;
  const a2 = (1 + g) * second.a;
  const c1 = Math.hypot(a1, first.b);
  const c2 = Math.hypot(a2, second.b);
  const h1 = hueDeg(a1, first.b);
  const h2 = hueDeg(a2, second.b);

  const dL = second.lightness - first.lightness;
  const dC = c2 - c1;
  const isGrey = c1 * c2 === 0; // a grey has no hue: the difference is 0 and the mean is the other's (eqs 10, 14)
  const dHue = isGrey ? 0 : shortestTurnDeg(h2 - h1);
  const dH = 2 * Math.sqrt(c1 * c2) * Math.sin((dHue / 2) * DEGREE);

  const l = (first.lightness + second.lightness) / 2;
  const c = (c1 + c2) / 2;
  const h = isGrey ? h1 + h2 : meanHueDeg(h1, h2);

  const t =
    1 -
    0.17 * Math.cos((h - 30) * DEGREE) +
    0.24 * Math.cos(2 * h * DEGREE) +
    0.32 * Math.cos((3 * h + 6) * DEGREE) -
    0.2 * Math.cos((4 * h - 63) * DEGREE);
  const sL = 1 + (0.015 * (l - 50) ** 2) / Math.sqrt(20 + (l - 50) ** 2);
  const sC = 1 + 0.045 * c;
  const sH = 1 + 0.015 * c * t;
  const rotationDeg = 30 * Math.exp(-(((h - 275) / 25) ** 2));
  const rT = -2 * saturating(c) * Math.sin(2 * rotationDeg * DEGREE);
  const l_ = dL / sL;
  const c_ = dC / sC;
  const h_ = dH / sH;
  return Math.sqrt(l_ * l_ + c_ * c_ + h_ * h_ + rT * c_ * h_);
}

function saturating(chroma: number): number {
  const seventh = chroma ** 7;
  return Math.sqrt(seventh / (seventh + 25 ** 7));
}

/** 0 to 360; 0 for a grey. */
function hueDeg(a: number, b: number): number {
  const angle = Math.atan2(b, a) / DEGREE;
  return angle < 0 ? angle + 360 : angle;
}

function shortestTurnDeg(turn: number): number {
  if (turn > 180) return turn - 360;
  return turn < -180 ? turn + 360 : turn;
}

function meanHueDeg(h1: number, h2: number): number {
  const sum = h1 + h2;
  if (Math.abs(h1 - h2) <= 180) return sum / 2;
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
}
