/** What the files of one folder may import, beside each other. Paths are from the repository's root. */
export interface AllowedImports {
  readonly values: readonly string[];
  /** By `import type` only, in addition. */
  readonly types?: readonly string[];
  readonly packages?: readonly string[];
}

/** The engine's plain data and its error, on which every stage stands; so does `numeric`, a leaf. */
const GROUND = [
  'src/engine/engine-error.ts',
  'src/engine/fetched-part.ts',
  'src/engine/kelvin-aside.ts',
  'src/engine/reading.ts',
  'src/engine/setup.ts',
  'src/engine/tolerance.ts',
  'src/engine/tolerances.ts',
  'src/engine/check-tolerance.ts',
  'src/engine/aim.ts',
  'src/engine/check-aim.ts',
  'src/engine/check-setup.ts',
];

/** The stages in the order of the data: a later one may read an earlier one's types, none reads a later one. */
const STAGES = [
  'intake',
  'response',
  'frame',
  'grid',
  'region',
  'maps',
  'fits',
  'lamps',
  'diagnosis',
  'exposure',
  'moves',
];

function stage(name: string, values: readonly string[], earlier = STAGES.indexOf(name)): AllowedImports {
  return {
    values: [...GROUND, 'src/engine/numeric/', ...values.map((folder) => `src/engine/${folder}/`)],
    types: STAGES.slice(0, earlier).map((folder) => `src/engine/${folder}/`),
  };
}

/** One direction, as data: the longest key that a file's path starts with holds for it. */
export const ALLOWED_IMPORTS: Readonly<Record<string, AllowedImports>> = {
  'src/engine/': { values: GROUND, types: ['src/engine/moves/move.ts'] },
  'src/engine/engine-error.ts': { values: [] },
  'src/engine/read-frame.ts': { values: ['src/engine/'] },
  'src/engine/measure-frame.ts': { values: ['src/engine/'] },
  'src/engine/read-bracket.ts': { values: ['src/engine/'] },
  'src/engine/correct-frame.ts': { values: ['src/engine/'] },
  'src/engine/glance-at-frame.ts': { values: ['src/engine/'] },
  'src/engine/first-look.ts': { values: ['src/engine/'] },
  'src/engine/preview-correction.ts': { values: ['src/engine/'] },
  'src/engine/numeric/': { values: [] },
  'src/engine/colour/': { values: ['src/engine/numeric/'] },
  'src/engine/intake/': stage('intake', []),
  'src/engine/response/': stage('response', ['intake', 'colour']),
  'src/engine/frame/': stage('frame', ['intake', 'response', 'colour']),
  'src/engine/grid/': stage('grid', ['frame']),
  'src/engine/region/': stage('region', ['grid', 'frame', 'colour']),
  'src/engine/maps/': stage('maps', ['grid', 'colour']),
  // The cells themselves too: what their codes' rounding hides is undone there before a surface is fitted.
  'src/engine/fits/': stage('fits', ['grid', 'maps', 'colour']),
  'src/engine/lamps/': stage('lamps', ['maps', 'fits', 'colour']),
  'src/engine/diagnosis/': stage('diagnosis', ['lamps', 'fits', 'maps', 'grid']),
  'src/engine/exposure/': stage('exposure', ['diagnosis', 'fits', 'maps', 'frame', 'colour']),
  'src/engine/moves/': stage('moves', ['exposure', 'diagnosis', 'lamps']),
  'src/engine/aims/': stage(
    'aims',
    ['exposure', 'diagnosis', 'fits', 'maps', 'frame'],
    STAGES.indexOf('moves'),
  ),
  'src/engine/profile/': stage('profile', ['fits', 'maps', 'frame', 'colour'], STAGES.indexOf('lamps')),
  'src/engine/correct/': stage('correct', ['profile', 'frame', 'grid', 'colour'], STAGES.indexOf('maps')),
  // Frames told apart by looks in small: beside the stages that measure, on what tells a blank frame from another.
  'src/engine/sorting/': stage('sorting', ['diagnosis', 'colour'], STAGES.length),
  // A feed's pictures, by the same figures as a frame's; no file, no fit of a set.
  'src/engine/live/': stage('live', ['diagnosis', 'maps', 'grid', 'frame', 'colour'], STAGES.length),
  'src/engine/export/': stage('export', ['intake', 'correct', 'profile', 'colour'], STAGES.length),
  // Readings held against each other: what a Reading says, and what marks of exposure stand for.
  'src/engine/compare/': { values: [...GROUND, 'src/engine/response/marked-times.ts'] },
  'src/plots/': {
    values: [
      ...['src/engine/maps/', 'src/engine/fits/', 'src/engine/colour/', 'src/engine/numeric/'],
      'src/engine/compare/',
      ...['src/engine/profile/left-over.ts', 'src/engine/export/png-chunk-bytes.ts'],
    ],
    types: ['src/engine/'],
    packages: ['d3-array', 'd3-contour'],
  },
  // What is kept on the machine is checked like any other file.
  'src/sources/': {
    values: ['src/engine/response/check-response.ts'],
    types: ['src/engine/'],
    packages: ['idb'],
  },
  'src/takes/': {
    values: [
      ...['src/engine/check-tolerance.ts', 'src/engine/check-aim.ts', 'src/engine/check-setup.ts'],
      'src/engine/response/check-response.ts',
    ],
    types: ['src/engine/'],
    packages: ['idb'],
  },
  'src/screen/': {
    // The engine's tables of plain data are no computing.
    values: [
      ...[
        'src/plots/',
        'src/sources/',
        'src/takes/',
        'workers/engine-client.ts',
        'workers/live-client.ts',
        'workers/batch-workers.ts',
        'workers/correct-batch.ts',
      ],
      ...['src/engine/moves/gel-strengths.ts', 'src/engine/sorting/proposed-set.ts', ...GROUND],
      // Sums over a handful of figures, as one who stands at the camera would do them.
      ...['src/engine/exposure/exposure-goal.ts', 'src/engine/exposure/ways-to-expose.ts'],
    ],
    types: ['src/engine/', 'workers/'],
    packages: ['lit', '@lit/task'],
  },
  'src/': { values: ['src/screen/'] },
  'workers/': { values: ['src/engine/', 'workers/load-libraw.ts'], packages: ['comlink', 'lcms-wasm'] },
  'workers/node-platform.ts': {
    values: ['src/engine/', 'workers/colour-tables.ts', 'workers/raw-decoder.ts'],
    packages: ['node:*', '(computed)'],
  },
  // What others install: the element, the engine for Node, and how both are built.
  'src/package/': {
    values: ['src/engine/', 'src/screen/evenfield-bench.ts', 'workers/node-platform.ts'],
    types: ['src/'],
    packages: ['vite', 'node:*'],
  },
  // Both computed imports: LibRaw's two files are served unchanged, so that another build can be put in their place.
  'workers/load-libraw.ts': { values: [], types: ['workers/'], packages: ['libraw-wasm', '(computed)'] },
  // Frames of known truth would prove nothing if they shared the lamps' formulas.
  'tests/synthetic/': {
    values: ['tests/', 'src/engine/numeric/seeded-random.ts'],
    types: ['src/engine/'],
    packages: ['vitest', 'sharp', 'exifr', 'fast-png', 'node:*'],
  },
};

/** What names say nothing; a file or folder is named for its idea. */
export const EMPTY_NAMES = ['utils', 'util', 'helpers', 'helper', 'common', 'misc', 'core', 'types'];

/** Most lines of a source file. */
export const LONGEST_FILE = 250;
