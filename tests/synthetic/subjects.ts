import type { KnownField } from './known-field.ts';
import type { Subject } from './subject-scene.ts';

type Light = readonly [number, number, number];

/** Signed distance to a box with round corners. */
export function roundBox(
  centreX: number,
  centreY: number,
  halfWidth: number,
  halfHeight: number,
  radius: number,
): Subject['distancePx'] {
  return (x, y) => {
    const right = Math.abs(x - centreX) - halfWidth + radius;
    const down = Math.abs(y - centreY) - halfHeight + radius;
    return Math.hypot(Math.max(right, 0), Math.max(down, 0)) + Math.min(Math.max(right, down), 0) - radius;
  };
}

/** Signed distance to a ring: a handle, with background inside. */
export function ring(
  centreX: number,
  centreY: number,
  radius: number,
  halfThickness: number,
): Subject['distancePx'] {
  return (x, y) => Math.abs(Math.hypot(x - centreX, y - centreY) - radius) - halfThickness;
}

export function joined(...shapes: Subject['distancePx'][]): Subject['distancePx'] {
  return (x, y) => Math.min(...shapes.map((shape) => shape(x, y)));
}

/** An opaque thing, its light shaded from one side to the other and marked with fine stripes. */
export function opaque(distancePx: Subject['distancePx'], light: Light, contrast = 0.3): Subject {
  return {
    distancePx,
    light: (x, y) => {
      const shade = 1 + contrast * Math.sin(x / 37) * Math.cos(y / 53) + 0.1 * contrast * Math.sin(x / 2.5);
      return [light[0] * shade, light[1] * shade, light[2] * shade];
    },
  };
}

/** Flat and clear: passes the light behind it on by one share per channel, and does not bend it. */
export function filter(distancePx: Subject['distancePx'], passes: (x: number, y: number) => Light): Subject {
  return {
    distancePx,
    light: (x, y, [red, green, blue]) => {
      const share = passes(x, y);
      return [share[0] * red, share[1] * green, share[2] * blue];
    },
  };
}

/** Clear glass that shows the background from elsewhere, with a dark line along its rim. */
export function glass(
  distancePx: Subject['distancePx'],
  field: KnownField,
  widthPx: number,
  heightPx: number,
  bentPx: (x: number, y: number) => readonly [number, number],
): Subject {
  return {
    distancePx,
    light: (x, y) => {
      const [right, down] = bentPx(x, y);
      const inFrame = (place: number) => Math.min(Math.max(place, 0), 1);
      const [red, green, blue] = field(inFrame((x + right) / widthPx), inFrame((y + down) / heightPx));
      const depth = -distancePx(x, y);
      const passes = 0.92 * (1 - 0.7 * Math.exp(-0.5 * ((depth - 3) / 1.8) ** 2));
      return [passes * red, passes * green, passes * blue];
    },
  };
}
