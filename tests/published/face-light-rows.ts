import { type LightMaker, type LightRow, rowOf, type TableLight } from './light-row.ts';
import { numberIn, readTable } from './read-table.ts';

/** A figure of a face as large as it is close, which a model may sum from too few points for the last digit. */
export interface FaceRow extends LightRow {
  /** Size of the face over its distance. */
  readonly sizeOverDistance: number;
}

/** A disc of diameter 1 before the spot: light over π L, and how much more a point would throw. */
export function discRows(): FaceRow[] {
  const onAxis = readTable('disc-on-axis').flatMap((row) => {
    const distance = numberIn(row, 'diameters');
    const light = (make: LightMaker) =>
      make({ distance, face: { kind: 'disc', diameter: 1 }, beam: 'lambertian' })(0, 0);
    const asPoint = 1 / distance ** 2;
    const name = `disc ${row.diameters} diameters off`;
    const rows = [rowOf(row, 'share_of_pi_L', name, (make) => light(make) / 4)];
    if (row.point_error_percent !== '')
      rows.push(
        rowOf(
          row,
          'point_error_percent',
          `${name}, a point instead`,
          (make) => (asPoint / light(make) - 1) * 100,
        ),
      );
    if (row.point_error_EV !== '')
      rows.push(
        rowOf(row, 'point_error_EV', `${name}, a point instead, stops`, (make) =>
          Math.log2(asPoint / light(make)),
        ),
      );
    return rows.map((each) => ({ ...each, sizeOverDistance: 1 / distance }));
  });
  const offAxis = readTable('disc-off-axis').map((row) => {
    const [distance, radius] = [numberIn(row, 'height'), numberIn(row, 'radius')];
    const name = `disc at h ${row.height}, r ${row.radius}, a ${row.aside}`;
    return {
      ...rowOf(row, 'factor', name, (make) => {
        const face = { kind: 'disc', diameter: 2 * radius } as const;
        return make({ distance, face, beam: 'lambertian' })(numberIn(row, 'aside'), 0) * radius ** 2;
      }),
      sizeOverDistance: (2 * radius) / distance,
    };
  });
  return [...onAxis, ...offAxis];
}

/** A square panel of side 1, in one or in pieces: light over π L before its middle, and stops beside it. */
export function panelRows(pieces = 1): FaceRow[] {
  return readTable('square-panel').map((row) => {
    const distance = numberIn(row, 'distance');
    const aside = numberIn(row, 'aside');
    const middles = places(1, 1 / pieces).map((place) => place - 0.5);
    const light = (make: LightMaker) => {
      const lights = middles.flatMap((x) =>
        middles.map((y) => make(pieceOf(1 / pieces, { x, y, distance }))),
      );
      return (x: number, y: number) => lights.reduce((sum, each) => sum + each(x, y), 0) / pieces ** 2;
    };
    const name = `square panel ${row.distance} off`;
    const printed =
      aside === 0
        ? rowOf(row, 'share_of_pi_L', name, (make) => light(make)(0, 0) / Math.PI)
        : rowOf(row, 'aside_EV', `${name}, ${row.aside} aside`, (make) =>
            Math.log2(light(make)(aside, 0) / light(make)(0, 0)),
          );
    return { ...printed, sizeOverDistance: 1 / distance };
  });
}

/** How many pieces make up the shorter side of a rectangle that is summed from small ones. */
const PIECES = 16;

/**
 * View factors of a rectangle from under its corner, and averaged over the strip along its side b. The rectangle is
 * put together from small faces, so that light adding up is all that is asked of a model.
 */
export function rectangleRows(of: 'corner' | 'strip' | 'both' = 'both'): LightRow[] {
  const rows = readTable('rectangle-corner').filter(({ under }) => of === 'both' || under === of);
  return rows.map((row) => {
    const [a, b, c] = [numberIn(row, 'a'), numberIn(row, 'b'), numberIn(row, 'c')];
    const name = `${row.receiver} receiver under the ${row.under} of ${a} × ${b}, ${c} off`;
    return rowOf(row, 'factor', name, (make) => {
      const light = row.receiver === 'parallel' ? parallelTo(make, a, b, c) : squareTo(make, a, b, c);
      if (row.under === 'corner') return light(0);
      const steps = 200;
      return (
        Array.from({ length: steps }, (_, i) => light(((i + 0.5) / steps) * b)).reduce(
          (sum, each) => sum + each,
          0,
        ) / steps
      );
    });
  });
}

/** Light over π L at `along` the side b, straight under the side: the rectangle faces the plane. */
function parallelTo(make: LightMaker, a: number, b: number, c: number): (along: number) => number {
  const size = Math.min(a, b) / PIECES;
  const pieces = places(a, size).flatMap((x) =>
    places(b, size).map((y) => make(pieceOf(size, { x, y, distance: c }))),
  );
  return (along) => pieces.reduce((sum, light) => sum + light(0, along), 0) * (size ** 2 / Math.PI);
}

/** The rectangle stands upright on the plane, c away from the spot: side a rises from it, side b runs along it. */
function squareTo(make: LightMaker, a: number, b: number, c: number): (along: number) => number {
  const size = Math.min(a, b) / PIECES;
  const pieces = places(a, size).flatMap((distance) =>
    places(b, size).map((y) => make(pieceOf(size, { y, distance, aimX: 1e7 }))),
  );
  return (along) => pieces.reduce((sum, light) => sum + light(c, along), 0) * (size ** 2 / Math.PI);
}

const pieceOf = (size: number, at: Omit<TableLight, 'beam'>): TableLight => ({
  ...at,
  face: { kind: 'rectangle', width: size, height: size },
  beam: 'lambertian',
});

/** Middles of pieces along a length. */
const places = (length: number, size: number) =>
  Array.from({ length: Math.round(length / size) }, (_, i) => (i + 0.5) * size);
