import type { Finding } from '../../../src/engine/reading.ts';
import { FINE_KINDS, type PlantedKind } from '../../synthetic/random/planted-cause.ts';
import { kindsOf, type RandomStudio } from '../../synthetic/random/random-studio.ts';
import type { TrueShare } from '../../synthetic/random/true-shares.ts';

/** A finding surer than this tells of a cause; `cannot-tell` never does. */
const TOLD = 0.5;

/** A cause that takes no more than this is not there: of the spread, of the tint and of the cast. */
const NOTHING_EV = 0.03;
const NOTHING_TINT_UV = 0.0008;
const NOTHING_CAST_UV = 0.001;

export interface FalseCauses {
  /** Told, though neither planted nor left there by chance. */
  readonly told: readonly PlantedKind[];
  /** Every kind that the arrangement can have and that is not there, and so could have been told falsely. */
  readonly possible: readonly PlantedKind[];
}

/** Of causes larger than a cell. */
export function falseCauses(truth: readonly TrueShare[], findings: readonly Finding[]): FalseCauses {
  return amongAbsent(
    truth.filter((share) => !isThere(share)).map(({ kind }) => kind),
    findings,
  );
}

/** Of creases, weave and specks, which are there where they were planted and nowhere else. */
export function falseTextures({ planted, setup }: RandomStudio, findings: readonly Finding[]): FalseCauses {
  const isPlanted = (kind: PlantedKind) => planted.some((cause) => cause.kind === kind);
  return amongAbsent(
    kindsOf(setup.arrangement).filter((kind) => FINE_KINDS.has(kind) && !isPlanted(kind)),
    findings,
  );
}

function amongAbsent(absent: readonly PlantedKind[], findings: readonly Finding[]): FalseCauses {
  const told = findings.filter(({ confidence }) => confidence > TOLD);
  return { told: absent.filter((kind) => told.some((finding) => finding.kind === kind)), possible: absent };
}

function isThere({ kind, isPlanted, ev, tintDeltaUv, castDeltaUv }: TrueShare): boolean {
  if (isPlanted || ev > NOTHING_EV || tintDeltaUv > NOTHING_TINT_UV) return true;
  return kind === 'tinted-all-over' && castDeltaUv > NOTHING_CAST_UV;
}
