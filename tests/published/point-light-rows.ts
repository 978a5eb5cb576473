import { type LightMaker, type LightRow, rowOf, type TableLight } from './light-row.ts';
import { numberIn, readTable } from './read-table.ts';

const BEAMS = [
  ['constant', 'cos3'],
  ['lambertian', 'cos4'],
] as const;

/** cos³ of a point of constant intensity, cos⁴ of a small Lambertian one, as shares and in stops. */
export function cosineRows(): LightRow[] {
  return readTable('cosine-falloff').flatMap((row) =>
    BEAMS.flatMap(([beam, column]) => {
      const off = Math.tan((numberIn(row, 'degrees') * Math.PI) / 180);
      const share = (make: LightMaker) => {
        const light = make({ distance: 1, beam });
        return light(off, 0) / light(0, 0);
      };
      const name = `${column} at ${row.degrees}°`;
      return [
        rowOf(row, column, name, share),
        rowOf(row, `${column}_EV`, `${name} in stops`, (make) => Math.log2(share(make))),
      ];
    }),
  );
}

/** A light at the side, so near the plane that it grazes it: the near edge over the far one, incidence taken out. */
export function sideLightRows(): LightRow[] {
  return readTable('side-light').map((row) =>
    rowOf(row, 'near_over_far_EV', `side light ${row.near_widths} widths from the near edge`, (make) => {
      const distance = 1e-3;
      const light = make({ distance, beam: 'constant' });
      const squarely = (x: number) => (light(x, 0) * Math.hypot(x, distance)) / distance;
      const near = numberIn(row, 'near_widths');
      return Math.log2(squarely(near) / squarely(near + 1));
    }),
  );
}

/** Two equal lights of constant intensity over a background of width 1. */
export function twoLightRows(): LightRow[] {
  return readTable('two-lights').map((row) =>
    rowOf(
      row,
      'EV',
      `two lights ${row.distance_widths} widths off, ${row.aside_widths} either side: ${row.figure}`,
      (make) => {
        const light = pair(make, numberIn(row, 'distance_widths'), numberIn(row, 'aside_widths'), 'constant');
        if (row.figure === 'edge_over_centre') return Math.log2(light(0.5) / light(0));
        const levels = Array.from({ length: 401 }, (_, i) => Math.log2(light(i / 400 - 0.5)));
        return Math.max(...levels) - Math.min(...levels);
      },
    ),
  );
}

/** How far either side, over their distance, two equal lights are flattest in the middle: s = d/2 and d/√5. */
export function flattestRows(): LightRow[] {
  return (
    [
      ['constant', 0.5],
      ['lambertian', 0.4472],
    ] as const
  ).map(([beam, printed]) => ({
    name: `two ${beam} lights are flattest at ${printed} of their distance either side`,
    printed,
    halfUnit: 5e-5,
    workedOut: (make) =>
      crossing(0.3, 0.7, (aside) => {
        const light = pair(make, 1, aside, beam);
        return light(0.002) - 2 * light(0) + light(-0.002);
      }),
  }));
}

function pair(make: LightMaker, distance: number, aside: number, beam: TableLight['beam']) {
  const lights = [-aside, aside].map((x) => make({ x, distance, beam }));
  return (x: number) => lights.reduce((sum, light) => sum + light(x, 0), 0);
}

/** A light on the axis of a sheet of diagonal 1: stops from its middle to its corner, and how far back is enough. */
export function sheetRows(): LightRow[] {
  const loss = (make: LightMaker, distance: number, beam: TableLight['beam']) => {
    const light = make({ distance, beam, behindSheet: true });
    return Math.log2(light(0, 0) / light(0.4, 0.3));
  };
  const losses = readTable('light-behind-sheet').flatMap((row) =>
    BEAMS.map(([beam, column]) =>
      rowOf(
        row,
        `${column}_EV`,
        `sheet lit from ${row.distance_diagonals} diagonals behind, ${column}`,
        (make) => loss(make, numberIn(row, 'distance_diagonals'), beam),
      ),
    ),
  );
  const distances = readTable('sheet-distance').flatMap((row) =>
    BEAMS.map(([beam, column]) =>
      rowOf(row, `${column}_diagonals`, `how far for ${row.corner_loss_EV} stops, ${column}`, (make) =>
        crossing(0.5, 5, (distance) => numberIn(row, 'corner_loss_EV') - loss(make, distance, beam)),
      ),
    ),
  );
  return [...losses, ...distances];
}

/** Where a figure rises through 0. */
function crossing(low: number, high: number, figure: (at: number) => number): number {
  let [below, above] = [low, high];
  for (let i = 0; i < 50; i++) {
    const middle = 0.5 * (below + above);
    if (figure(middle) < 0) below = middle;
    else above = middle;
  }
  return 0.5 * (below + above);
}
