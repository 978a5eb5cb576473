/** Bands that a light's flicker leaves in a frame that is read line by line. */
export interface FlickerBands {
  readonly periodLines: number;
  /** Lines that the whole frame is read in; a smaller copy of the frame keeps the bands' share of it. */
  readonly ofLines: number;
  /** (brightest − darkest) / (brightest + darkest); source of the form: IES RP-16, percent flicker. */
  readonly modulation: number;
  /** 0: brightest at the first line. */
  readonly phaseDeg: number;
  /** `across`: level bands, as lines are read from the top; `upright`: in a file turned by a quarter. */
  readonly run: 'across' | 'upright';
}

/** What the flicker makes of the light at a place of the frame, 1 on average. */
export function bandShare(bands: FlickerBands): (x: number, y: number) => number {
  const turns = (2 * Math.PI * bands.ofLines) / bands.periodLines;
  const phase = (bands.phaseDeg * Math.PI) / 180;
  return (x, y) => 1 + bands.modulation * Math.cos(turns * (bands.run === 'across' ? y : x) - phase);
}
