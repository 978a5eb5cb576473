/**
 * The discrete Fourier transform of complex values, in place: Σ v[n] · exp(−2πi·kn/N) at every k. Unscaled.
 * Source: Cooley & Tukey 1965, Math. Comput. 19, 297 (radix 2, decimation in time).
 *
 * @throws RangeError where the length is no power of two, or the parts differ in length.
 */
export function fastFourier(real: Float64Array, imaginary: Float64Array): void {
  const n = real.length;
  if (n === 0 || (n & (n - 1)) !== 0 || imaginary.length !== n)
    throw new RangeError(`a transform takes two parts of one power of two, not ${n} and ${imaginary.length}`);
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i >= j) continue;
    [real[i], real[j]] = [real[j]!, real[i]!];
    [imaginary[i], imaginary[j]] = [imaginary[j]!, imaginary[i]!];
  }
  const cosines = new Float64Array(n / 2);
  const sines = new Float64Array(n / 2);
  for (let k = 0; k < n / 2; k++) {
    cosines[k] = Math.cos((2 * Math.PI * k) / n);
    sines[k] = -Math.sin((2 * Math.PI * k) / n);
  }
  for (let half = 1, stride = n / 2; half < n; half *= 2, stride /= 2) {
    for (let start = 0; start < n; start += 2 * half) {
      for (let k = 0, i = start; k < half; k++, i++) {
        const c = cosines[k * stride]!;
        const s = sines[k * stride]!;
        const j = i + half;
        const re = c * real[j]! - s * imaginary[j]!;
        const im = c * imaginary[j]! + s * real[j]!;
        real[j] = real[i]! - re;
        imaginary[j] = imaginary[i]! - im;
        real[i]! += re;
        imaginary[i]! += im;
      }
    }
  }
}
