import { checkAim } from '../engine/check-aim.ts';
import { checkSetup } from '../engine/check-setup.ts';
import { checkTolerance } from '../engine/check-tolerance.ts';
import { checkResponse } from '../engine/response/check-response.ts';
import { checkMoves } from './check-moves.ts';
import {
  each,
  fields,
  finite,
  floats,
  list,
  number,
  oneOf,
  orNothing,
  orNull,
  passing,
  type Shape,
  text,
  truth,
} from './shapes.ts';

const numbers = (names: string) => each(names, number);
const figures = (names: string) => each(names, finite);
const orNulls = (names: string) => each(names, orNull(finite));

const POINT = fields(figures('x y'));
const RECTANGLE = fields(figures('left top right bottom'));
const ESTIMATE = fields(numbers('value plusMinus'));
const JUDGEMENT = oneOf('yes', 'no', 'too-close-to-say');
const CHANNELS = fields(each('red green blue', floats()));

/**
 * Of a two-light set or not: which light it names was checked where it was advised. What a move brings and its caution
 * change nothing, so that whoever says which moves were made may leave them out.
 */
const MOVES: Shape = (value) =>
  passing((moves: never) => checkMoves(moves, 'two-lamps'))(value) &&
  list(
    fields({
      ...each('bringsEv toward', orNothing(orNull(finite))),
      caution: orNothing(orNull(text)),
    }),
  )(value);

const FALLOFF = {
  ...figures('spreadEv plusMinusEv stdEv minOverMax minOverMean ninePointMinOverMax fromCentreMax'),
  ...figures('steepestEvPerFrameWidth cellPlusMinusEv'),
  ...each('brightestAt darkestAt', POINT),
  isLowerBound: truth,
};

const FRAME = fields({
  ...each('name lightSays colourProfile', text),
  ...figures('widthPx heightPx orientation bitsPerSample averagedFrames'),
  sha256: orNull(text),
  light: oneOf('scene-linear', 'response-recovered', 'display-decoded'),
  exposure: orNull(fields({ ...orNulls('seconds fNumber iso focalLengthMm'), takenAt: orNull(text) })),
});

const PREDICTED = orNull(fields(figures('spreadEv plusMinusEv tintDeltaUv')));

/** A reading without its maps. */
const READING = fields({
  schema: oneOf('evenfield.reading/1'),
  frame: FRAME,
  region: RECTANGLE,
  grid: fields(figures('columns rows')),
  falloff: fields(FALLOFF),
  tint: fields(figures('spreadDeltaUv plusMinusDeltaUv deltaE00Max')),
  cast: fields({
    ...figures('uPrime vPrime deltaUPrime deltaVPrime deltaUv labA labB deltaE00 plusMinusDeltaUv'),
    ...orNulls('mired duv plusMinusMired plusMinusDuv'),
  }),
  gradient: fields({
    ...figures('ev explains plusMinusEv'),
    ...orNulls('angleDeg mired duv plusMinusDeg plusMinusMired'),
    ...each('from to', POINT),
  }),
  tintGradient: fields({ ...figures('deltaUv'), ...orNulls('angleDeg mired duv') }),
  clipping: fields(figures('highlightShare shadowShare')),
  noise: fields(figures('perPixelEv perCellEv')),
  findings: list(
    fields({
      ...each('kind says', text),
      confidence: finite,
      ...orNulls('ev mired'),
      at: orNull(POINT),
      lengthsMm: orNothing(orNull(list(finite))), // takes kept by earlier versions have none
    }),
  ),
  moves: MOVES,
  predicted: PREDICTED,
  within: fields({ share: finite, crop: orNull(RECTANGLE) }),
  verdict: fields(each('even neutral exposed', JUDGEMENT)),
});

/** Without an end where no block was left to take the brightest of: of a frame that is nearly all clipped. */
const SAMPLES = fields({
  ...each('x y ev uPrime vPrime', floats()),
  ...numbers('aspect levelEv'),
  exposureEv: orNull(number),
});

/** What no contract promises to be finite is let pass as any number: a refusal loses a take, a figure without an end none. */
const LEVEL = fields({
  ...each(
    'meanEv meanPlusMinusEv brightestEv brightestPlusMinusEv darkestEv darkestPlusMinusEv firstEv overEv',
    orNull(number),
  ),
  ...numbers('meanAtLeastEv clippedShare'),
  firstChannel: oneOf('red', 'green', 'blue'),
  isAssumed: truth,
});

const READ_BY = fields({ camera: orNull(text), response: orNull(passing(checkResponse)) });

const LIT_SET = fields({
  lights: list(
    fields({
      ...numbers('x y distance aimX aimY beamPower strengthEv'),
      face: fields({ kind: oneOf('disc', 'rectangle') }),
      beamEdge: orNull(fields(numbers('angleRad steepness'))),
      colour: fields(numbers('mired duv')),
    }),
  ),
});
const FOUND = list(fields({ set: LIT_SET, figures: (value) => typeof value === 'object' && value !== null }));

const LIGHT = fields({
  ...each('right down distance aimErrorRight aimErrorDown', ESTIMATE),
  ...numbers('rightWithDistance aimRight aimDown'),
});

/** What is drawn and said of the set that was found. */
const SET = fields({
  lights: list(LIGHT),
  balance: orNull(fields(each('ev mired', ESTIMATE))),
  spill: fields({ ...each('share mired', ESTIMATE), fromDeg: orNull(number) }),
  panelRise: orNull(fields(numbers('acrossEv downEv'))),
  offCentre: orNull(fields(each('right down', ESTIMATE))),
  secondFrames: list(fields({ kind: text, leftOverEv: number })),
  mainColour: fields(numbers('mired duv deltaUPrime deltaVPrime')),
  tint: orNull(fields(numbers('mired towardDeg'))),
  ...each('lensCornerEv lensCornerMired', ESTIMATE),
  causes: list(fields({ cause: text, ...numbers('ev plusMinusEv deltaUv confidence') })),
  rivals: list(fields({ causes: list(text), ...numbers('ev plusMinusEv confidence') })),
  sets: list(LIT_SET),
  found: FOUND,
  ...numbers('leftOverEv leftOverUv'),
});

const AIMED: Shape = (value) =>
  fields({ kind: oneOf('clean-white', 'ramp'), aim: passing(checkAim), verdict: JUDGEMENT })(value) &&
  ((value as { kind: string }).kind === 'ramp'
    ? fields({
        ...each('turnDeg turnPlusMinusDeg', orNull(number)),
        ...numbers('moreEv morePlusMinusEv'),
        leftOver: fields(FALLOFF),
      })
    : fields({
        ...numbers('reachedShare reachedShareLeast reachedShareMost overPlusMinusEv'),
        ...each('changeEv changePlusMinusEv overEv', orNull(number)),
        ...each('isOverAtLeast isUnlitInPart', truth),
      }))(value);

const SETUP = passing(checkSetup);
const LENGTHS = list(orNull(finite));
const ROLE = fields({ kind: oneOf('lamp-off', 'shifted', 'stopped-down') });
const SECOND_FRAMES = list(fields({ role: ROLE, samples: SAMPLES, frame: FRAME }));

/** What is small of a take; see {@link TakeFacts}. */
export const TAKE_FACTS = fields({
  ...each('id note', text),
  figures: READING,
  done: orNull(MOVES),
  judgedBy: fields({
    setup: SETUP,
    tolerance: passing(checkTolerance),
    aim: orNothing(passing(checkAim)),
    after: list(text),
  }),
  shotAt: finite,
  summary: fields({ level: LEVEL, readBy: READ_BY, samples: SAMPLES, found: FOUND }),
  foretold: orNull(fields({ moves: MOVES, predicted: PREDICTED })),
  movedSince: orNull(fields({ done: orNull(MOVES), measuredMm: LENGTHS })),
  setup: SETUP,
  measuredMm: LENGTHS,
  region: orNothing(RECTANGLE),
  secondFrames: SECOND_FRAMES,
});

/** What a take of so many cells was judged from, as far as more than the engine looks at it; see {@link TakeEvidence}. */
export const takeEvidence = (cells: number): Shape =>
  fields({
    level: LEVEL,
    aimed: orNull(AIMED),
    samples: SAMPLES,
    set: orNull(SET),
    isSetTrusted: truth,
    fittedWith: fields({
      setup: SETUP,
      secondFrames: list(fields({ role: ROLE, samples: SAMPLES })),
      earlierTakes: list(fields({ setup: SETUP })),
    }),
    grid: fields({
      ...figures('columns rows cellWidthPx cellHeightPx'),
      region: RECTANGLE,
      ...each('light scatter', fields(each('red green blue', floats(cells)))),
      ...each('setAsideLuminance pixels highlightShare shadowShare speckShare darkSpeckShare', floats(cells)),
      lightAtCode: CHANNELS,
      toXyz: list(finite),
    }),
    surfaces: list(
      fields({
        name: text,
        ...each('red green blue', floats()),
        ...numbers('terms heldOutEv heldOutStandardErrorEv'),
      }),
    ),
    chosen: fields({ name: text }),
    space: fields({ name: text }),
    ...each('chosenBecause regionSays', text),
    wholeLight: orNull(fields({ ...figures('columns rows'), luminance: floats() })),
    light: fields({ asRead: fields({ falloff: fields(FALLOFF) }), doubt: fields({ toneCurve: text }) }),
    readBy: READ_BY,
  });
