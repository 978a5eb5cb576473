import type { Tolerance } from './tolerance.ts';

/**
 * Ten mired near daylight: the step in u′v′ taken for tint and cast where a source gives none. The project's own
 * choice, not a standard's. Computed from the Planckian locus (CIE 1931 observer): 10 mired at 5250 K = 0.0047.
 */
export const TEN_MIRED_DELTA_UV = 0.0047;

const OWN_COLOUR_LIMITS = ' Colour limits: 10 mired near daylight, this project’s own choice.';

/** What a frame is judged by where nobody says otherwise. */
export const DEFAULT_TOLERANCE: Tolerance = {
  // Rash & McLean, helmet-display book (US Army), p. 134, quoting Rash et al. 1996: 20 % is 0.32 stop.
  name: '0.3 stop across the frame',
  source:
    'Rash et al. 1996, quoted by Rash & McLean p. 134: any two points of a flat field within 20 % (0.32 stop); ' +
    `and common practice.${OWN_COLOUR_LIMITS}`,
  measure: 'range',
  limit: 0.3,
  tintDeltaUv: TEN_MIRED_DELTA_UV,
  castDeltaUv: TEN_MIRED_DELTA_UV,
};

/**
 * The yardsticks that come with the tool, strictest first after the default. Only figures whose text was seen, or
 * (then their source says "second-hand") that a text summarising the standard gives.
 */
export const TOLERANCES: readonly Tolerance[] = [
  DEFAULT_TOLERANCE,
  {
    // ISO 12646:2013, luminance uniformity measured as in 5.3: "should be within 5 %"; chromaticity uniformity 4.8.
    name: '5 % from the centre, a proofing display’s aim',
    source:
      'ISO 12646:2013, “should”: white within 5 % of the centre, neutrals within 0.01 u′v′ of it. ' +
      'Limit for the cast: 10 mired near daylight, this project’s own choice.',
    measure: 'from-centre',
    limit: 0.05,
    tintDeltaUv: 0.01,
    castDeltaUv: TEN_MIRED_DELTA_UV,
  },
  {
    // ISO 12646:2013, luminance uniformity measured as in 5.3: "shall be within 10 %"; chromaticity uniformity 4.8.
    name: '10 % from the centre, a proofing display’s limit',
    source:
      'ISO 12646:2013, “shall”: white within 10 % of the centre, neutrals within 0.01 u′v′ of it. ' +
      'Limit for the cast: 10 mired near daylight, this project’s own choice.',
    measure: 'from-centre',
    limit: 0.1,
    tintDeltaUv: 0.01,
    castDeltaUv: TEN_MIRED_DELTA_UV,
  },
  {
    // SMPTE ST 431-1:2006 (ISO 26431-1:2008), review room; clause not seen.
    name: '20 % from the centre, a review-room screen',
    source:
      'SMPTE ST 431-1:2006, second-hand: corners at 85 % of the centre, 80 to 90 % allowed; here for every part ' +
      `of the frame.${OWN_COLOUR_LIMITS}`,
    measure: 'from-centre',
    limit: 0.2,
    tintDeltaUv: TEN_MIRED_DELTA_UV,
    castDeltaUv: TEN_MIRED_DELTA_UV,
  },
  {
    // Acceptance of LCD and backlight panels; colour: NUREG-0700 rev. 3, 11.3.1.4.4-3, citing IDMS 2012.
    name: 'Nine points within 75 %, a light panel’s acceptance',
    source:
      'Panel makers’ acceptance, second-hand: darkest of nine points at least 75 % of the brightest. Tint: ' +
      'NUREG-0700 rev. 3, 11.3.1.4.4-3, citing IDMS 2012: 0.02 u′v′ within a smaller field. ' +
      'Limit for the cast: 10 mired near daylight, this project’s own choice.',
    measure: 'nine-point-min-max',
    limit: 0.75,
    tintDeltaUv: 0.02,
    castDeltaUv: TEN_MIRED_DELTA_UV,
  },
  {
    // SPIE tutorial text on CRT displays, chapter 6 (its abstract): film light boxes, centre to edge.
    name: '30 % from centre to edge, a good film light box',
    source:
      'SPIE tutorial text on CRT displays, chapter 6: good light boxes for reading film fall by up to 30 % from ' +
      `centre to edge, hard to discern.${OWN_COLOUR_LIMITS}`,
    measure: 'from-centre',
    limit: 0.3,
    tintDeltaUv: TEN_MIRED_DELTA_UV,
    castDeltaUv: TEN_MIRED_DELTA_UV,
  },
  {
    // EN 12464-1, uniformity U0 (defined in EN 12665) of a typical office's task area; clause not seen.
    name: 'Darkest at least 0.6 of the mean, a desk’s task area',
    source: `EN 12464-1, second-hand: U0 at least 0.60 on a typical task area.${OWN_COLOUR_LIMITS}`,
    measure: 'min-over-mean',
    limit: 0.6,
    tintDeltaUv: TEN_MIRED_DELTA_UV,
    castDeltaUv: TEN_MIRED_DELTA_UV,
  },
  {
    // Farrell & Booth 1984, large-area non-uniformity, quoted in the same book as the default's source.
    name: '1 stop across the frame, the most a large field bears',
    source: `Farrell & Booth 1984, quoted by Rash & McLean: large-area non-uniformity up to 50 %.${OWN_COLOUR_LIMITS}`,
    measure: 'range',
    limit: 1,
    tintDeltaUv: TEN_MIRED_DELTA_UV,
    castDeltaUv: TEN_MIRED_DELTA_UV,
  },
];
