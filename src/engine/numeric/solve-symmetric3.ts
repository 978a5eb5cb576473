/**
 * Solves a symmetric positive definite 3 × 3 system by Cholesky's method.
 * `lower` is the lower triangle row by row: a11, a21, a22, a31, a32, a33. Null where it is (nearly) singular.
 */
export function solveSymmetric3(
  [a11, a21, a22, a31, a32, a33]: readonly [number, number, number, number, number, number],
  [b1, b2, b3]: readonly [number, number, number],
): [number, number, number] | null {
  const smallest = 1e-12;
  if (!(a11 > 0)) return null;
  const l11 = Math.sqrt(a11);
  const l21 = a21 / l11;
  const d22 = a22 - l21 * l21;
  if (!(d22 > smallest * a22)) return null;
  const l22 = Math.sqrt(d22);
  const l31 = a31 / l11;
  const l32 = (a32 - l31 * l21) / l22;
  const d33 = a33 - l31 * l31 - l32 * l32;
  if (!(d33 > smallest * a33)) return null;
  const l33 = Math.sqrt(d33);
  const y1 = b1 / l11;
  const y2 = (b2 - l21 * y1) / l22;
  const y3 = (b3 - l31 * y1 - l32 * y2) / l33;
  const x3 = y3 / l33;
  const x2 = (y2 - l32 * x3) / l22;
  return [(y1 - l21 * x2 - l31 * x3) / l11, x2, x3];
}
