import type { FacePoints } from './face-points.ts';
import {
  AXIS,
  CAMERA,
  CONCENTRATION,
  EDGE,
  EVEN,
  FACE_DOWN,
  FACE_RIGHT,
  FIGURES,
  LOBE,
  PLACE,
  POWER,
  STEEPNESS,
} from './throw-figures.ts';

/** Spots of the plane, frame widths about the middle of the frame. */
export interface Spots {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Where the edge takes less of a beam than e to the minus this, a millionth, it is not worked out. */
const NOTHING_TAKEN = 14;

/**
 * Light of one lamp of strength 1 on the background plane as the camera sees it, against an even surface of the same
 * transmission or reflectance, summed over the points of its face: cosᵐ(angle to its axis), less at the beam's edge
 * (own formula: in 1 − cos of that angle, so that it is smooth about the axis) × cos(incidence) ÷ distance² (inverse
 * square and the cosine law; a Lambertian face is m = 1). A spot behind the light's face gets nothing.
 *
 * An even surface looks alike from everywhere; a sheet that scatters partly forward sends a lobe on along each ray
 * (von Mises–Fisher about the straight direction), which the camera meets where its line of sight comes near the
 * light: the hot spot.
 */
export function lightThrown(
  figures: Float64Array,
  { count, toPlane, placeX, placeY, share }: PlacedFace,
  spots: Spots,
  into: Float64Array,
): void {
  const [axisX, axisY, axisZ] = [figures[AXIS]!, figures[AXIS + 1]!, figures[AXIS + 2]!];
  const [power, edge, steepness] = [figures[POWER]!, figures[EDGE]!, figures[STEEPNESS]!];
  const inside = edge * Math.exp(-NOTHING_TAKEN / steepness);
  const [even, lobe, concentration] = [figures[EVEN]!, figures[LOBE]!, figures[CONCENTRATION]!];
  const camera = figures[CAMERA]!;
  for (let i = 0; i < into.length; i++) {
    const [x, y] = [spots.x[i]!, spots.y[i]!];
    const sight = concentration === 0 ? 0 : 1 / Math.sqrt(x * x + y * y + camera * camera); // 0: no sheet
    let sum = 0;
    for (let p = 0; p < count; p++) {
      const toX = x - placeX[p]!;
      const toY = y - placeY[p]!;
      const toZ = toPlane[p]!;
      const square = toX * toX + toY * toY + toZ * toZ;
      const inverse = 1 / Math.sqrt(square);
      const cosine = (toX * axisX + toY * axisY + toZ * axisZ) * inverse;
      if (!(cosine > 0)) continue;
      let part = (share[p]! * toZ * inverse) / square;
      if (power !== 0) part *= power === 1 ? cosine : Math.exp(power * Math.log(cosine));
      if (1 - cosine > inside) part /= 1 + Math.exp(steepness * Math.log((1 - cosine) / edge));
      if (lobe !== 0) {
        const straight = (toZ * camera - toX * x - toY * y) * inverse * sight;
        part *= even + lobe * Math.exp(concentration * (straight - 1));
      } else part *= even;
      sum += part;
    }
    into[i] = sum;
  }
}

/**
 * The same light, and into `slopes` how it changes with each of the figures that it follows from: figure by figure, all
 * spots of each.
 */
export function lightThrownSlopes(
  figures: Float64Array,
  { count, toPlane, placeX, placeY, share, right, down }: PlacedFace,
  spots: Spots,
  into: Float64Array,
  slopes: Float64Array,
): void {
  const [axisX, axisY, axisZ] = [figures[AXIS]!, figures[AXIS + 1]!, figures[AXIS + 2]!];
  const [power, edge, steepness] = [figures[POWER]!, figures[EDGE]!, figures[STEEPNESS]!];
  const inside = edge * Math.exp(-NOTHING_TAKEN / steepness);
  const [even, lobe, concentration] = [figures[EVEN]!, figures[LOBE]!, figures[CONCENTRATION]!];
  const camera = figures[CAMERA]!;
  const spotCount = into.length;
  const at = new Float64Array(FIGURES);
  for (let i = 0; i < spotCount; i++) {
    const [x, y] = [spots.x[i]!, spots.y[i]!];
    const sight = concentration === 0 ? 0 : 1 / Math.sqrt(x * x + y * y + camera * camera); // 0: no sheet
    const [sightX, sightY, sightZ] = [-x * sight, -y * sight, camera * sight];
    at.fill(0);
    let sum = 0;
    for (let p = 0; p < count; p++) {
      const toZ = toPlane[p]!;
      const square = (x - placeX[p]!) ** 2 + (y - placeY[p]!) ** 2 + toZ * toZ;
      const inverse = 1 / Math.sqrt(square);
      const [wayX, wayY, wayZ] = [(x - placeX[p]!) * inverse, (y - placeY[p]!) * inverse, toZ * inverse];
      const cosine = wayX * axisX + wayY * axisY + wayZ * axisZ;
      if (!(cosine > 0)) continue;
      const logCosine = Math.log(cosine);
      let part = (share[p]! * wayZ) / square;
      if (power !== 0) part *= power === 1 ? cosine : Math.exp(power * logCosine);
      let byCosine = power / cosine; // of the logarithm of the part, as all below
      let [byEdge, bySteepness] = [0, 0];
      if (1 - cosine > inside) {
        const logToEdge = Math.log((1 - cosine) / edge);
        const left = 1 / (1 + Math.exp(steepness * logToEdge));
        part *= left;
        byCosine += (steepness * (1 - left)) / (1 - cosine);
        byEdge = (steepness * (1 - left)) / edge;
        bySteepness = (left - 1) * logToEdge;
      }
      const straight = wayX * sightX + wayY * sightY + wayZ * sightZ;
      const falling = concentration === 0 ? 1 : Math.exp(concentration * (straight - 1));
      const seen = even + lobe * falling;
      at[EVEN]! += part;
      at[LOBE]! += part * falling;
      const inLobe = part * lobe * falling;
      at[CONCENTRATION]! += inLobe * (straight - 1);
      at[CAMERA]! += inLobe * concentration * sight * (wayZ - straight * sightZ);
      part *= seen;
      sum += part;
      at[AXIS]! += part * byCosine * wayX;
      at[AXIS + 1]! += part * byCosine * wayY;
      at[AXIS + 2]! += part * byCosine * wayZ;
      at[POWER]! += part * logCosine;
      at[EDGE]! += part * byEdge;
      at[STEEPNESS]! += part * bySteepness;
      // along the way from the point to the spot, times how far that is
      const byAxis = part * byCosine * inverse;
      const bySight = inLobe * concentration * inverse;
      const byWay = -(3 * part * inverse + byAxis * cosine + bySight * straight);
      const byX = byAxis * axisX + bySight * sightX + byWay * wayX;
      const byY = byAxis * axisY + bySight * sightY + byWay * wayY;
      const byZ = byAxis * axisZ + bySight * sightZ + byWay * wayZ + part / toZ;
      at[PLACE]! -= byX;
      at[PLACE + 1]! -= byY;
      at[PLACE + 2]! += byZ;
      at[FACE_RIGHT]! -= byX * right[p]!;
      at[FACE_RIGHT + 1]! -= byY * right[p]!;
      at[FACE_RIGHT + 2]! -= byZ * right[p]!;
      at[FACE_DOWN]! -= byX * down[p]!;
      at[FACE_DOWN + 1]! -= byY * down[p]!;
      at[FACE_DOWN + 2]! -= byZ * down[p]!;
    }
    into[i] = sum;
    for (let k = 0; k < FIGURES; k++) slopes[k * spotCount + i] = at[k]!;
  }
}

/** The points of a face where they stand, without those that lie beyond the plane. */
export interface PlacedFace {
  readonly count: number;
  readonly toPlane: Float64Array;
  readonly placeX: Float64Array;
  readonly placeY: Float64Array;
  readonly share: Float64Array;
  readonly right: Float64Array;
  readonly down: Float64Array;
}

export function placedFace(figures: Float64Array, points: FacePoints): PlacedFace {
  const all = points.share.length;
  const values = new Float64Array(6 * all);
  const of = (k: number) => values.subarray(k * all, (k + 1) * all);
  const [toPlane, placeX, placeY, share, right, down] = [of(0), of(1), of(2), of(3), of(4), of(5)];
  let count = 0;
  for (let p = 0; p < all; p++) {
    const [r, d] = [points.right[p]!, points.down[p]!];
    const way = figures[PLACE + 2]! - r * figures[FACE_RIGHT + 2]! - d * figures[FACE_DOWN + 2]!;
    if (!(way > 0)) continue;
    toPlane[count] = way;
    placeX[count] = figures[PLACE]! + r * figures[FACE_RIGHT]! + d * figures[FACE_DOWN]!;
    placeY[count] = figures[PLACE + 1]! + r * figures[FACE_RIGHT + 1]! + d * figures[FACE_DOWN + 1]!;
    share[count] = points.share[p]!;
    right[count] = r;
    down[count++] = d;
  }
  return { count, toPlane, placeX, placeY, share, right, down };
}
