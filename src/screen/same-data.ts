/** Whether two pieces of plain data (as JSON holds them) say the same, whatever the order of their fields. */
export function sameData(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const left = Object.entries(a);
  const right = b as Record<string, unknown>;
  if (left.length !== Object.keys(right).length) return false;
  return left.every(([key, value]) => key in right && sameData(value, right[key]));
}
