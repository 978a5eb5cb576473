/** Light flickers at twice the mains: 100 Hz on 50 Hz mains, 120 Hz on 60 Hz. */
const ON_50_HZ = 100;
const ON_60_HZ = 120;

/** Shutter times are marked up to a fifteenth longer than they are ("1/60" is a sixty-fourth): common practice. */
const TRUE_OVER_MARKED = [1, 0.985, 0.97, 0.95, 0.9375];

/** What is left of a light's flicker at a frequency after an exposure, as a share of it: |sin(πfT) / (πfT)|. */
export function flickerAfter(hertz: number, seconds: number): number {
  const turns = Math.PI * hertz * seconds;
  return Math.abs(Math.sin(turns) / turns);
}

/** The same, the most over what the marked time may truly be. */
export function flickerLeft(hertz: number, markedSeconds: number): number {
  return Math.max(...TRUE_OVER_MARKED.map((share) => flickerAfter(hertz, markedSeconds * share)));
}

/** A flicker as light from dark to bright, in stops; of percent flicker as IES RP-16 has it, as a share. */
export function flickerDepthEv(share: number): number {
  return Math.log2((1 + share) / (1 - share));
}

/**
 * What to do about bands that are so deep, crest to trough in stops, at a shutter time. The time a sensor takes from
 * line to line is in no file, so the bands' distance cannot tell the mains; but a light cannot flicker by more than
 * all of itself, and a time that leaves less than was found at one of the two frequencies rules it out.
 */
export function adviceOnFlicker(depthEv: number, seconds: number | null): string {
  if (seconds !== null && seconds > 0) {
    const on50 = flickerDepthEv(flickerLeft(ON_50_HZ, seconds)) > depthEv;
    const on60 = flickerDepthEv(flickerLeft(ON_60_HZ, seconds)) > depthEv;
    if (on50 && !on60) return 'at this shutter time that fits 50 Hz mains, so shoot at 1/50 or 1/100 s';
    if (on60 && !on50) return 'at this shutter time that fits 60 Hz mains, so shoot at 1/60 or 1/120 s';
    if (!on50 && !on60)
      return 'at this shutter time no mains flicker leaves so much, so look for a dimmer or an LED driver, or use flash';
  }
  return 'which mains feed it? Shoot again at 1/50 or 1/100 s on 50 Hz, at 1/60 or 1/120 s on 60 Hz';
}
