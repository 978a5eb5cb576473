import { expect, test } from 'vitest';
import { rampFigures } from '../../../src/engine/export/ramp-figures.ts';
import { latticeOf, profileOf } from '../correct/profile-of.ts';

const lattice = latticeOf(2, 2, () => [0, 0, 0]);
const gradient = {
  angleDeg: 37.04,
  ev: 0.624,
  mired: -12.3,
  duv: 0.0012,
  from: { x: 0.041, y: 0.123 },
  to: { x: 1.04, y: 0.877 },
  explains: 0.931,
  plusMinusDeg: 1,
  plusMinusEv: 0.012,
  plusMinusMired: 1.2,
};

test('rampFigures(profile) tells angle, ends, stops, mired and green–magenta, and the ramp that takes it out', () => {
  const tintGradient = { angleDeg: 120, deltaUv: 0.004, mired: 14.4, duv: -0.0004 };
  expect(
    rampFigures(profileOf(lattice, { gradient, tintGradient })),
  ).toBe(`Straight ramps of the light in empty-sweep.png (720 x 480 pixels, upright)

Light, as it is: rises towards the end
  angle:         37.0 degrees
  start:         4.1 % across, 12.3 % down (the darker end)
  end:           104.0 % across, 87.7 % down (the brighter end)
  stops:         +0.62, plus or minus 0.01
  warmth:        -12 mired, plus or minus 1 (about 400 K at 5500 K)
  green-magenta: +0.0012 Duv
  explains:      93 % of the falloff

To take it out, lay a ramp from start (nothing) to end (in full) of
  stops:         -0.62
  warmth:        +12 mired (about 350 K at 5500 K)
  green-magenta: -0.0012 Duv

Instead of the warmth above, where colour should be taken out along its own angle: a ramp from start (nothing) to end (in full) of
  angle:         120.0 degrees
  start:         76.9 % across, -20.0 % down (the cooler end)
  end:           23.1 % across, 120.0 % down (the warmer end)
  warmth:        -14 mired (about 470 K at 5500 K)
  green-magenta: +0.0004 Duv

Angles are clockwise from “to the right”. Places are from the left and top edge; they may lie outside the frame.
Warmth in mired, positive is warmer. Green-magenta in Duv, positive is greener.
`);
});

test('rampFigures(profile) says where there is no ramp, and what can’t be known', () => {
  const none = rampFigures(profileOf(lattice));
  expect(none).toContain('Light: no slope larger than its own plus or minus of 0.01 stop.');
  expect(none).toContain('Colour: no change across the frame that has a direction.');
  const tintGradient = { angleDeg: 0, deltaUv: 0.004, mired: 14.4, duv: 0 };
  expect(rampFigures(profileOf(lattice, { tintGradient }))).toContain(
    'Where colour should be taken out along its own angle: a ramp from start (nothing) to end (in full) of\n' +
      '  angle:         0.0 degrees\n' +
      '  start:         0.0 % across, 50.0 % down (the cooler end)\n',
  );
  const unknown = rampFigures(
    profileOf(lattice, { gradient: { ...gradient, mired: null, duv: null, plusMinusMired: null } }),
  );
  expect(unknown.match(/not known/g)?.length).toBe(4);
});
