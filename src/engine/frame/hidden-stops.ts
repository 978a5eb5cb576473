/**
 * Estimates how many stops of a falloff a camera's usual tone curve would hide between two levels of light decoded
 * without knowing it (1 is white). Negative where it exaggerates.
 *
 * The curve is an estimate, not a measurement: an S in the form y = (1 + c) x^k / (x^k + c) through white, with a
 * contrast of 1.2 at mid grey (common practice, no published source), whose mid grey of 0.18 stands for 1/7.8 of the
 * saturating light (the ratio of the constants 78 and 10 of ISO 12232's two speeds, quoted from memory).
 */
export function hiddenStops(brightDecoded: number, darkDecoded: number): number {
  const scene = Math.log2(sceneLight(brightDecoded) / sceneLight(darkDecoded));
  return scene - Math.log2(brightDecoded / darkDecoded);
}

const MID_GREY_DECODED = 0.18;
const MID_GREY_SCENE = 10 / 78;
const MID_GREY_CONTRAST = 1.2;

const C = solveC();
const K = exponentAt(C);

function sceneLight(decoded: number): number {
  return ((C * decoded) / (1 + C - decoded)) ** (1 / K);
}

/** The slope of log y against log x is k (1 − y / (1 + c)). */
function exponentAt(c: number): number {
  return MID_GREY_CONTRAST / (1 - MID_GREY_DECODED / (1 + c));
}

/** Bisects for the c whose curve passes through mid grey; the decoded mid grey falls as c rises. */
function solveC(): number {
  let low = 0.01;
  let high = 10;
  for (let step = 0; step < 60; step++) {
    const c = (low + high) / 2;
    const power = MID_GREY_SCENE ** exponentAt(c);
    if (((1 + c) * power) / (power + c) > MID_GREY_DECODED) low = c;
    else high = c;
  }
  return (low + high) / 2;
}
