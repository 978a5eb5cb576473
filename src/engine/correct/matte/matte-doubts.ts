import type { FoundMatte } from './find-matte.ts';
import { FARTHEST_SHIFT } from './register-blank.ts';

const LEAST_BACKGROUND = 0.05;
/** Stops between channels from which light or white balance is not that of the blank. */
const OTHER_COLOUR_EV = 0.04;

/** What makes it doubtful that a background was told rightly by its blank, in sentences; empty where nothing does. */
export function matteDoubts({ background, exposureEv, shiftPx, pxPerCell }: FoundMatte): string[] {
  const share = background.reduce((sum, cell) => sum + cell, 0) / background.length;
  const [red, green, blue] = exposureEv;
  const says: string[] = [];
  if (share < LEAST_BACKGROUND)
    says.push(
      `Only ${Math.round(share * 100)} % of the frame looks as its blank does, so hardly anything counts as background. Choose the blank that was shot with this frame, or correct everything.`,
    );
  if (Math.max(Math.abs(red - green), Math.abs(blue - green)) > OTHER_COLOUR_EV)
    says.push(
      `Against the blank the background’s red is ${stops(red - green)} and its blue ${stops(blue - green)} beside green: the light or the white balance has changed, and a cast of that size will stay.`,
    );
  if (shiftPx) {
    const farthest = (FARTHEST_SHIFT - 0.5) * pxPerCell;
    if (Math.max(Math.abs(shiftPx.right), Math.abs(shiftPx.down)) >= farthest)
      says.push(
        `The camera has moved by ${Math.floor(farthest)} pixels or more since the blank, farther than is looked for: dust and weave of the background may count as subject. Shoot a new blank.`,
      );
  }
  return says;
}

function stops(ev: number): string {
  return `${Math.abs(ev).toFixed(2)} stop ${ev < 0 ? 'weaker' : 'stronger'}`;
}
