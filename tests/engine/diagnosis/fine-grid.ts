import { linearise } from '../../../src/engine/frame/linearise.ts';
import type { CellGrid } from '../../../src/engine/grid/cell-grid.ts';
import { cellsFromFrame } from '../../../src/engine/grid/cells-from-frame.ts';
import { fineStructure } from '../../../src/engine/grid/fine-structure.ts';
import { decodeImage } from '../../../src/engine/intake/decode-image.ts';
import { nodePlatform } from '../../node-platform.ts';
import type { KnownField } from '../../synthetic/known-field.ts';

/** The cells of a file and what lies between them, as a reading makes them, without the fits. */
export async function fineGridOf(bytes: Uint8Array): Promise<CellGrid> {
  const { frame } = linearise(await decodeImage(bytes, nodePlatform, () => {}));
  const grid = cellsFromFrame(frame);
  return { ...grid, fine: fineStructure(frame, grid.region) };
}

/** A field seen through something that lets a share of its light through. */
export function behind(field: KnownField, share: (x: number, y: number) => number): KnownField {
  return (x, y) => {
    const [red, green, blue] = field(x, y);
    const through = share(x, y);
    return [red * through, green * through, blue * through];
  };
}
