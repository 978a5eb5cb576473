import type { Background } from './studio-set.ts';

/**
 * Light of a panel over its face: from strips along two edges, which leave the middle darker; hotter in the middle
 * where so asked; with the ripple of its emitters.
 */
export function panelLight(panel: Extract<Background, { kind: 'panel' }>) {
  const edge = Math.cosh(panel.widthMm / 2 / panel.carriesMm);
  const middleEv = panel.middleEv ?? 0;
  return (xMm: number, yMm: number): number => {
    const strips = Math.cosh(xMm / panel.carriesMm) / edge;
    const cornerShare = 0.5 * (((2 * xMm) / panel.widthMm) ** 2 + ((2 * yMm) / panel.heightMm) ** 2);
    const wave =
      Math.cos((2 * Math.PI * xMm) / panel.pitchMm) + Math.cos((2 * Math.PI * yMm) / panel.pitchMm);
    return strips * 2 ** ((panel.rippleEv / 4) * wave - middleEv * cornerShare);
  };
}
