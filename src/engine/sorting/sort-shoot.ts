import { robustSmoothLight } from '../diagnosis/robust-smooth-light.ts';
import { type BeforeLens, beforeLens } from './before-lens.ts';
import type { FrameGlance } from './frame-glance.ts';
import type { ToldKind } from './frame-kind.ts';
import { frameLevels } from './frame-level.ts';

/** Cells within this of smooth light follow it, in stops. */
const SMOOTH_EV = 0.12;
/** Up to these shares of cells off smooth light, or with an outline in them, a frame is blank: dust, a crease. */
const BLANK_OFF_SHARE = 0.008;
const BLANK_EDGE_SHARE = 0.012;
/** So many times over a limit there is no doubt left. */
const CLEARLY_SO = 4;
/** A hand or a card reaches in from a side. */
const LEAST_SIDES_SHARE = 0.055;
/** Where the evidence for a marker is even; own choice, on made shoots. */
const MARKER_EVIDENCE = 1.7;
/** A card that fills the frame is as smooth as a blank: only being out of place tells it. */
const ODD_SMOOTH_SHARE = 0.4;

/**
 * Tells the frames of a shoot apart, in the order they were taken: blank, subject, lamp off, badly exposed, or a marker,
 * a hand or card held before the lens between trials and keepers (common practice, no published source). Goes by looks
 * in small and by one frame's neighbours; the figures of a reading are not to be had from it.
 */
export function sortShoot(glances: readonly FrameGlance[]): ToldKind[] {
  const levels = frameLevels(glances);
  // a frame without light or exposed badly says nothing of what stands before the lens
  const usual = [...glances.keys()].filter((i) => levels[i] === 'usual');
  const evidence = new Map(beforeLens(usual.map((i) => glances[i]!)).map((each, k) => [usual[k]!, each]));
  return glances.map((glance, i): ToldKind => {
    const level = levels[i]!;
    if (level === 'without-light') return { kind: 'lamp-off', confidence: 0.8 };
    if (level !== 'usual') return { kind: 'badly-exposed', confidence: 0.9 };
    const blank = blankness(glance);
    const marker = markerConfidence(evidence.get(i)!, blank > 0.5);
    if (marker > 0.5) return { kind: 'marker', confidence: marker };
    if (blank > 0.5) return { kind: 'blank', confidence: blank * (1 - marker) };
    return { kind: 'subject', confidence: (1 - blank) * (1 - marker) };
  });
}

function blankness(glance: FrameGlance): number {
  if (glance.edgeShare > CLEARLY_SO * BLANK_EDGE_SHARE) return 0;
  const smooth = robustSmoothLight(glance.stops, glance.columns, glance.rows, SMOOTH_EV / 2);
  if (smooth === null) return 0;
  const off = glance.stops.reduce(
    (sum, ev, cell) => sum + (Math.abs(ev - smooth[cell]!) > SMOOTH_EV ? 1 : 0),
    0,
  );
  const excess = Math.max(off / glance.stops.length / BLANK_OFF_SHARE, glance.edgeShare / BLANK_EDGE_SHARE);
  return 1 / (1 + excess ** 2);
}

function markerConfidence({ sidesShare, oddShare }: BeforeLens, isSmooth: boolean): number {
  if (sidesShare < LEAST_SIDES_SHARE || (isSmooth && oddShare < ODD_SMOOTH_SHARE)) return 0;
  const evidence = 10 * Math.min(sidesShare, 0.3) + 5 * Math.max(0, oddShare);
  return 1 / (1 + Math.exp(-4 * (evidence - MARKER_EVIDENCE)));
}
