import { quickened } from '../field-lattice.ts';
import { type FieldTruth, fieldTruth } from '../field-truth.ts';
import type { KnownField } from '../known-field.ts';
import { photographSet } from '../studio/photograph-set.ts';
import type { Sample } from './sample.ts';

export interface SampleTruth {
  readonly field: KnownField;
  readonly figures: FieldTruth;
  /** Share of the frame where any channel's light passes full scale. */
  readonly clippedShare: number;
  /** Per planted cause: by how much the spread and the largest tint fall when it alone is taken out. */
  readonly causes: readonly {
    readonly kind: string;
    readonly says: string;
    readonly ev: number;
    readonly deltaUv: number;
    readonly castMired: number;
  }[];
}

/** The figures of a sample's light, before noise, clipping and coding, over 75 × 50 or 96 × 64 cells. */
export function sampleTruth(sample: Sample): SampleTruth {
  const field = sampleField(sample);
  const layout = cellLayout(sample);
  const figures = fieldTruth(field, layout);
  const causes = sample.causes.map(({ kind, says, cured }) => {
    const without = fieldTruth(quickened(photographSet(cured).field), layout);
    return {
      kind,
      says,
      ev: figures.spreadEv - without.spreadEv,
      deltaUv: figures.spreadDeltaUv - without.spreadDeltaUv,
      castMired: figures.cast.mired - without.cast.mired,
    };
  });
  return { field, figures, clippedShare: shareOverFull(field), causes };
}

const fields = new Map<string, KnownField>();

/** The light of a sample's set; summed over rays once and then kept, as that is the dear part. */
export function sampleField({ file, set }: Sample): KnownField {
  const field = fields.get(file) ?? quickened(photographSet(set).field);
  fields.set(file, field);
  return field;
}

/** Cells that the public contract asks for: 96 along the long side, fewer where one would fall under 8 px. */
export function cellLayout({ widthPx, heightPx }: Pick<Sample, 'widthPx' | 'heightPx'>) {
  const columns = Math.min(96, Math.floor(widthPx / 8));
  return { columns, rows: Math.round((columns * heightPx) / widthPx), widthPx, heightPx };
}

function shareOverFull(field: KnownField): number {
  const steps = 200;
  let over = 0;
  for (let row = 0; row < steps; row++)
    for (let column = 0; column < steps; column++)
      if (Math.max(...field((column + 0.5) / steps, (row + 0.5) / steps)) >= 1) over++;
  return over / steps ** 2;
}
