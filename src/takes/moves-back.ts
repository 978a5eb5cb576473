import type { Move } from '../engine/moves/move.ts';

/** What was put there or set, to be taken away or set back as a whole. */
type PutThere = Exclude<Move, MoveOfLight | { kind: 'expose' | 'white-balance' | 'frame-tighter' }>;

/** A way to go back, of one light. */
type MoveOfLight = Extract<
  Move,
  { kind: 'slide-lamp' } | { kind: 'lamp-distance' } | { kind: 'turn-lamp' } | { kind: 'balance-lamps' }
>;

/** One step back to how a set stood. */
export type MoveBack =
  | { readonly kind: 'make'; readonly move: Move }
  | { readonly kind: 'undo'; readonly move: PutThere };

/**
 * What takes back moves that were done, light by light: what was put there goes away, ways there and back cancel,
 * several of one kind are one way. What the camera alone did changes no light and needs no taking back. `null` where
 * something was moved by nobody knows how much, or another part of the background framed.
 */
export function movesBack(done: readonly Move[]): readonly MoveBack[] | null {
  const put: PutThere[] = [];
  const moved = new Map<string, { move: MoveOfLight; figures: Figures }>();
  for (const move of done) {
    if (move.kind === 'expose' || move.kind === 'white-balance') continue;
    if (move.kind === 'frame-tighter') return null;
    if (!isOfLight(move)) {
      put.push(move);
      continue;
    }
    const key = `${move.lamp} ${KINDS.indexOf(move.kind)}`;
    const figures = figuresOf(move);
    const before = moved.get(key)?.figures;
    moved.set(key, { move, figures: before === undefined ? figures : together(before, figures) });
  }
  const inOrder = [...moved].toSorted(([a], [b]) => a.localeCompare(b)).map(([, each]) => each);
  if (inOrder.some(({ figures }) => !isKnown(figures))) return null;
  return [
    ...put.toReversed().map((move): MoveBack => ({ kind: 'undo', move })),
    ...inOrder
      .filter(({ move, figures }) => isFar(move, figures))
      .map(({ move, figures }): MoveBack => ({ kind: 'make', move: movedBy(move, figures.map(negative)) })),
  ];
}

/** The figures that say how far a light was moved, in the order in which one light is moved; ratios as logarithms. */
const FIGURES: Record<MoveOfLight['kind'], readonly string[]> = {
  'slide-lamp': ['rightMm', 'downMm', 'rightFrameWidths', 'downFrameWidths'],
  'lamp-distance': ['ratio'],
  'turn-lamp': ['aimRightMm', 'aimDownMm', 'aimRightFrameWidths', 'aimDownFrameWidths'],
  'balance-lamps': ['stops'],
};
const KINDS = Object.keys(FIGURES);

const isOfLight = (move: Move): move is MoveOfLight => move.kind in FIGURES;

/** Less is within what hands miss by, and not worth going back for. Own choice. */
const LEAST: Record<MoveOfLight['kind'], readonly number[]> = {
  'slide-lamp': [5, 5, 0.005, 0.005],
  'lamp-distance': [0.01],
  'turn-lamp': [5, 5, 0.005, 0.005],
  'balance-lamps': [0.05],
};

/** Of a way both in mm and in frame widths; one of the two is enough to know it. */
type Figures = readonly (number | null)[];

function figuresOf(move: MoveOfLight): Figures {
  const named = move as unknown as Readonly<Record<string, number | null>>;
  const figures = FIGURES[move.kind].map((name) => named[name]!);
  return move.kind === 'lamp-distance' ? figures.map((ratio) => ratio && Math.log(ratio)) : figures;
}

/** The move with other figures; it brings what nobody foretold. */
function movedBy(move: MoveOfLight, figures: Figures): Move {
  const told = move.kind === 'lamp-distance' ? figures.map((log) => log && Math.exp(log)) : figures;
  const named = Object.fromEntries(FIGURES[move.kind].map((name, i) => [name, told[i]!]));
  return { ...move, ...named, bringsEv: null, toward: null, caution: null };
}

function together(a: Figures, b: Figures): Figures {
  return a.map((one, i) => {
    const other = b[i]!;
    return one === null || other === null ? null : one + other;
  });
}

const negative = (figure: number | null) => (figure === null ? null : 0 - figure);

function isKnown(figures: Figures): boolean {
  return knownOf(figures).length > 0;
}

/** By so much that hands would set it, in the unit that is known, mm before frame widths. */
function isFar({ kind }: MoveOfLight, figures: Figures): boolean {
  return knownOf(figures).some((i) => Math.abs(figures[i]!) >= LEAST[kind][i]!);
}

/** Which of the figures say how far: across and down in mm, else both in frame widths, or the one there is. */
function knownOf(figures: Figures): number[] {
  const pairs =
    figures.length === 4
      ? [
          [0, 1],
          [2, 3],
        ]
      : [[0]];
  return pairs.find((pair) => pair.every((i) => figures[i] !== null)) ?? [];
}
