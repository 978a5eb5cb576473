/**
 * Means of a line of values about so many places, evenly apart; the values themselves where they are fewer. Each place
 * reaches to its neighbours, ever less (a Hann window): boxes side by side would let a weave through that is as fine as
 * a few values, as waves about as long as a place. The places at the ends reach to the end alone, on either side alike,
 * so that a slope stays what it is.
 */
export function softlyPooled(values: Float64Array, places: number): Float64Array {
  const count = values.length;
  if (count <= places) return values;
  const apart = count / places;
  return Float64Array.from({ length: places }, (_, place) => {
    const middle = (place + 0.5) * apart - 0.5;
    const reach = Math.min(apart, middle + 0.5, count - 0.5 - middle);
    let [sum, weights] = [0, 0];
    for (let i = Math.ceil(middle - reach); i <= middle + reach; i++) {
      const weight = 1 + Math.cos((Math.PI * (i - middle)) / reach);
      sum += weight * values[i]!;
      weights += weight;
    }
    return sum / weights;
  });
}

/** What is left of a wave's height in {@link softlyPooled}, of so many cycles over all of the places. */
export function heightLeft(cycles: number, places: number): number {
  const u = (2 * cycles) / places;
  return Math.sin(Math.PI * u) / (Math.PI * u) / (1 - u * u);
}
