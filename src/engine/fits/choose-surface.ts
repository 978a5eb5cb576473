import type { Surface, SurfaceName } from './surface.ts';

/** Surfaces nearer to each other than this can't be told apart by any coding of light. */
const NEGLIGIBLE_EV = 0.0002;

/**
 * The simplest surface whose held-out error lies within one standard error of the best one's.
 *
 * @param surfaces simplest first
 * @throws RangeError for an empty list.
 */
export function chooseSurface(surfaces: readonly Surface[]): { chosen: Surface; because: string } {
  const [first, ...others] = surfaces;
  if (!first) throw new RangeError('there is no surface to choose from');
  const best = others.reduce((a, b) => (b.heldOutEv < a.heldOutEv ? b : a), first);
  const limitEv = best.heldOutEv + Math.max(best.heldOutStandardErrorEv, NEGLIGIBLE_EV);
  const chosen = surfaces.find((surface) => surface.heldOutEv <= limitEv)!;
  return { chosen, because: reasonFor(chosen, best, surfaces) };
}

const NAMED: Readonly<Record<SurfaceName, string>> = {
  plane: 'plane',
  quadratic: 'quadratic',
  radial: 'radial',
  set: 'model of the set',
  spline: 'spline',
};

function reasonFor(chosen: Surface, best: Surface, surfaces: readonly Surface[]): string {
  if (surfaces.length === 1) return `The ${NAMED[chosen.name]} is the only surface that so few cells allow.`;
  const own = `The ${NAMED[chosen.name]} foretells parts of the frame that it was not fitted to within ${stops(chosen.heldOutEv)}`;
  const simpler = surfaces
    .slice(0, surfaces.indexOf(chosen))
    .map((surface) => `the ${NAMED[surface.name]} within ${stops(surface.heldOutEv)}`);
  const only = simpler.length > 0 ? `, ${listed(simpler)} only` : '';
  if (chosen !== best) {
    return `${own}${only}; the ${NAMED[best.name]} reaches ${stops(best.heldOutEv)}, which is no better within its standard error of ${stops(best.heldOutStandardErrorEv)}.`;
  }
  const isRichest = chosen === surfaces[surfaces.length - 1];
  return isRichest ? `${own}${only}.` : `${own}${only}; nothing richer does better.`;
}

function stops(ev: number): string {
  return `${ev.toFixed(4)} EV`;
}

function listed(parts: readonly string[]): string {
  if (parts.length === 1) return parts[0]!;
  return `${parts.slice(0, -1).join(', ')} and ${parts[parts.length - 1]}`;
}
