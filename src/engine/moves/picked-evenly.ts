/**
 * So many of a list, evenly from its first to its end: where they come kind by kind, each kind has its share. The first
 * is always among them.
 */
export function pickedEvenly<T>(all: readonly T[], count: number): T[] {
  if (all.length <= count) return [...all];
  return Array.from({ length: count }, (_, i) => all[Math.floor((i * all.length) / count)]!);
}
