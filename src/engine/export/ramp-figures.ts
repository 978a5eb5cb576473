import { kelvinAside, TOLD_AT_KELVIN } from '../kelvin-aside.ts';
import type { Profile } from '../profile/profile.ts';
import type { FramePoint } from '../reading.ts';

/**
 * A profile as straight ramps in figures, to be typed into any editor that has a graduated adjustment: one of light
 * with the change of colour along it, which "ramp-only" applies, and instead of its colour the steepest one, which may
 * run another way. Lines of text.
 */
export function rampFigures({ madeFrom, gradient, tintGradient }: Profile): string {
  const lines = [
    `Straight ramps of the light in ${madeFrom.name} (${madeFrom.widthPx} x ${madeFrom.heightPx} pixels, upright)`,
    '',
  ];
  if (gradient.angleDeg === null)
    lines.push(
      `Light: no slope larger than its own plus or minus of ${gradient.plusMinusEv.toFixed(2)} stop.`,
    );
  else {
    const { angleDeg, from, to, ev, mired, duv, explains } = gradient;
    lines.push(
      'Light, as it is: rises towards the end',
      ...placed(angleDeg, from, to),
      `  stops:         ${signed(ev, 2)}${plusMinus(gradient.plusMinusEv, 2)}`,
      `  warmth:        ${warmth(mired, gradient.plusMinusMired)}`,
      `  green-magenta: ${green(duv)}`,
      `  explains:      ${(100 * explains).toFixed(0)} % of the falloff`,
      '',
      'To take it out, lay a ramp from start (nothing) to end (in full) of',
      `  stops:         ${signed(-ev, 2)}`,
      `  warmth:        ${warmth(mired === null ? null : -mired, null)}`,
      `  green-magenta: ${green(duv === null ? null : -duv)}`,
    );
  }
  lines.push('');
  if (tintGradient.angleDeg === null) lines.push('Colour: no change across the frame that has a direction.');
  else {
    const { angleDeg, mired, duv } = tintGradient;
    const instead = gradient.angleDeg === null ? 'Where' : 'Instead of the warmth above, where';
    lines.push(
      `${instead} colour should be taken out along its own angle: a ramp from start (nothing) to end (in full) of`,
      `  angle:         ${angleDeg.toFixed(1)} degrees`,
      ...ends(angleDeg, madeFrom),
      `  warmth:        ${warmth(mired === null ? null : -mired, null)}`,
      `  green-magenta: ${green(duv === null ? null : -duv)}`,
    );
  }
  lines.push(
    '',
    'Angles are clockwise from “to the right”. Places are from the left and top edge; they may lie outside the frame.',
    'Warmth in mired, positive is warmer. Green-magenta in Duv, positive is greener.',
  );
  return `${lines.join('\n')}\n`;
}

function placed(angleDeg: number, from: FramePoint, to: FramePoint): string[] {
  return [
    `  angle:         ${angleDeg.toFixed(1)} degrees`,
    `  start:         ${place(from)} (the darker end)`,
    `  end:           ${place(to)} (the brighter end)`,
  ];
}

/** Where the line of an angle through the region's centre reaches the level of its corners. */
function ends(angleDeg: number, { region, widthPx, heightPx }: Profile['madeFrom']): string[] {
  const { left, top, right, bottom } = region;
  const height = heightPx / widthPx;
  const [x, y] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)];
  const reach = (Math.abs(x) * (right - left) + Math.abs(y) * (bottom - top) * height) / 2;
  const at = (distance: number): FramePoint => ({
    x: (left + right) / 2 + distance * x,
    y: (top + bottom) / 2 + (distance * y) / height,
  });
  return [
    `  start:         ${place(at(-reach))} (the cooler end)`,
    `  end:           ${place(at(reach))} (the warmer end)`,
  ];
}

function place({ x, y }: FramePoint): string {
  return `${(100 * x).toFixed(1)} % across, ${(100 * y).toFixed(1)} % down`;
}

function warmth(mired: number | null, plusMinusMired: number | null): string {
  if (mired === null) return 'not known';
  const kelvin = kelvinAside(mired);
  const aside = kelvin === null || Math.abs(mired) < 0.5 ? '' : ` (about ${kelvin} K at ${TOLD_AT_KELVIN} K)`;
  return `${signed(mired, 0)} mired${plusMinus(plusMinusMired, 0)}${aside}`;
}

function green(duv: number | null): string {
  return duv === null ? 'not known' : `${signed(duv, 4)} Duv`;
}

function plusMinus(value: number | null, digits: number): string {
  return value === null ? '' : `, plus or minus ${value.toFixed(digits)}`;
}

/** With its sign, but for what rounds to nothing. */
function signed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  return Number(text) === 0 ? text : `${value > 0 ? '+' : '-'}${text}`;
}
