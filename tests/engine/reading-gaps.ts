import type { Move } from '../../src/engine/moves/move.ts';
import type { Reading } from '../../src/engine/reading.ts';

/** Where `null` is an answer by the public contract; map elements included. */
const MAY_BE_NULL = [
  /^frame\.(sha256|exposure(\.\w+)?)$/,
  /^falloff\.evMap\.\d+$/,
  /^tint\.[uv]PrimeMap\.\d+$/,
  /^cast\.(mired|duv|plusMinusMired|plusMinusDuv)$/,
  /^gradient\.(angleDeg|mired|duv|plusMinusDeg|plusMinusMired)$/,
  /^tintGradient\.(angleDeg|mired|duv)$/,
  /^findings\.\d+\.(ev|mired|at|lengthsMm)$/,
  /^predicted$/,
  /^within\.crop$/,
];

/** What each kind of move holds beside what all hold; "?": may be `null`, where only a direction is known. */
const MOVE_FIELDS: Readonly<Record<Move['kind'], string>> = {
  'slide-lamp': 'lamp rightMm? downMm? rightFrameWidths? downFrameWidths?',
  'lamp-distance': 'lamp ratio?',
  'turn-lamp': 'lamp aimRightMm? aimDownMm? aimRightFrameWidths? aimDownFrameWidths?',
  'balance-lamps': 'lamp stops',
  gel: 'lamp miredShift duvShift leavesMired?',
  'lamp-colour': 'lamp miredShift duvShift leavesMired?',
  'white-balance': 'miredShift duvShift',
  'add-diffusion': '',
  'block-stray': 'fromDeg?',
  'frame-tighter': 'left top right bottom',
  expose: 'stops',
};
const FINDING_FIELDS = 'at,confidence,ev,kind,lengthsMm,mired,says';
const EVERY_MOVE = 'kind bringsEv? toward? caution?';

/** Every field of schema `evenfield.reading/1`, from the public contract. */
const FIELDS: Readonly<Record<string, readonly string[]>> = {
  '': 'schema frame region grid falloff tint cast gradient tintGradient clipping noise findings moves predicted within verdict'.split(
    ' ',
  ),
  frame:
    'name sha256 widthPx heightPx orientation bitsPerSample light lightSays colourProfile exposure averagedFrames'.split(
      ' ',
    ),
  region: ['left', 'top', 'right', 'bottom'],
  grid: ['columns', 'rows'],
  falloff:
    'spreadEv plusMinusEv stdEv minOverMax minOverMean ninePointMinOverMax fromCentreMax steepestEvPerFrameWidth brightestAt darkestAt isLowerBound evMap cellPlusMinusEv'.split(
      ' ',
    ),
  tint: ['spreadDeltaUv', 'plusMinusDeltaUv', 'deltaE00Max', 'uPrimeMap', 'vPrimeMap'],
  cast: 'uPrime vPrime deltaUPrime deltaVPrime deltaUv labA labB deltaE00 mired duv plusMinusDeltaUv plusMinusMired plusMinusDuv'.split(
    ' ',
  ),
  gradient: 'angleDeg ev mired duv from to explains plusMinusDeg plusMinusEv plusMinusMired'.split(' '),
  tintGradient: ['angleDeg', 'deltaUv', 'mired', 'duv'],
  clipping: ['highlightShare', 'shadowShare'],
  noise: ['perPixelEv', 'perCellEv'],
  within: ['share', 'crop'],
  verdict: ['even', 'neutral', 'exposed'],
};

/**
 * What a Reading lacks of the public contract: fields that are missing or unknown, numbers that are not finite,
 * `null` where the contract allows none, maps of the wrong length, anything that JSON would change. Empty: nothing.
 */
export function gapsOf(reading: Reading): string[] {
  const gaps: string[] = [];
  const walk = (value: unknown, path: string) => {
    if (value === undefined) gaps.push(`${path} is undefined`);
    else if (value === null) {
      if (!mayBeNull(reading, path)) gaps.push(`${path} is null`);
    } else if (typeof value === 'number') {
      if (!Number.isFinite(value)) gaps.push(`${path} is ${value}`);
      if (Object.is(value, -0)) gaps.push(`${path} is −0, which JSON turns to 0`);
    } else if (typeof value === 'object') {
      for (const [key, child] of Object.entries(value)) walk(child, path ? `${path}.${key}` : key);
    }
  };
  walk(reading, '');
  for (const [path, fields] of Object.entries(FIELDS)) {
    const part = (path ? reading[path as keyof Reading] : reading) as object;
    const present = Object.keys(part).sort();
    if (present.join() !== [...fields].sort().join()) gaps.push(`${path || 'reading'} holds ${present}`);
  }
  reading.findings.forEach((finding, i) => {
    const present = Object.keys(finding).sort();
    if (present.join() !== FINDING_FIELDS) gaps.push(`findings.${i} (${finding.kind}) holds ${present}`);
  });
  reading.moves.forEach((move, i) => {
    const present = Object.keys(move).sort();
    const needed = fieldsOf(move).map((field) => field.replace('?', ''));
    if (present.join() !== needed.sort().join()) gaps.push(`moves.${i} (${move.kind}) holds ${present}`);
  });
  const cells = reading.grid.columns * reading.grid.rows;
  const { falloff, tint } = reading;
  for (const map of [falloff.evMap, tint.uPrimeMap, tint.vPrimeMap])
    if (map.length !== cells) gaps.push(`a map has ${map.length} of ${cells} cells`);
  return gaps;
}

function mayBeNull(reading: Reading, path: string): boolean {
  if (MAY_BE_NULL.some((allowed) => allowed.test(path))) return true;
  const [part, index, field] = path.split('.');
  return part === 'moves' && fieldsOf(reading.moves[Number(index)]!).includes(`${field}?`);
}

function fieldsOf({ kind }: Move): string[] {
  return `${EVERY_MOVE} ${MOVE_FIELDS[kind] ?? ''}`.trim().split(' ');
}
