/** Added to light so that faint differences in the dark do not count as large ones. */
const FAINT = 1 / 2048;
/** Signal over noise at which a single value is believed as much as a smoothed one. */
const PLAIN = 6;
/** As far off the line between the two lights as a subject's own pattern may lie, as a share of its length. */
const PATTERN = 0.3;

export interface Cover {
  /** How much a subject covers of a place, by where its light lies between the two; NaN where these are one. */
  readonly share: number;
  /** 0 to 1: how plainly the two lights can be told apart through the noise. */
  readonly trust: number;
}

/**
 * Parts a place's light between the background's behind it and the subject's own, each red, green and blue. Light that
 * lies off the line between the two, as a dark rim between bright background and bright glass does, is the subject's.
 *
 * @param noise - standard deviation of the light as a share of it.
 */
export function coverOf(light: Float64Array, behind: Float64Array, own: Float64Array, noise: number): Cover {
  let along = 0;
  let whole = 0;
  let away = 0;
  for (let channel = 0; channel < 3; channel++) {
    const scale = 1 / (behind[channel]! + FAINT);
    const apart = (behind[channel]! - own[channel]!) * scale;
    const off = (behind[channel]! - light[channel]!) * scale;
    along += off * apart;
    whole += apart * apart;
    away += off * off;
  }
  const share = along / whole;
  if (Number.isNaN(share)) return { share, trust: 0 };
  const part = Math.min(Math.max(share, 0), 1);
  const beside = Math.max(0, away - 2 * part * along + part * part * whole);
  const scatter = 3 * (PLAIN * noise) ** 2;
  const stray = beside / (beside + scatter + PATTERN ** 2 * whole + Number.MIN_VALUE);
  return {
    share: share < 1 ? share + (1 - share) * stray * stray : share,
    trust: Math.max(whole / (whole + scatter), stray * stray),
  };
}
