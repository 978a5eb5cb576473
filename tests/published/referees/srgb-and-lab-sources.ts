import { xyToXyz, xyzToUvPrime } from '../../../src/engine/colour/chromaticity.ts';
import { ciede2000 } from '../../../src/engine/colour/ciede2000.ts';
import { type Lab, xyzToLab } from '../../../src/engine/colour/lab.ts';
import { rgbToXyzMatrix } from '../../../src/engine/colour/rgb-to-xyz-matrix.ts';
import { srgbDecode, srgbEncode } from '../../../src/engine/colour/srgb-curve.ts';
import { SRGB } from '../../../src/engine/colour/srgb-space.ts';
import { D65 } from '../../../src/engine/colour/white-points.ts';
import { transformVector3, type Vector3 } from '../../../src/engine/numeric/matrix3.ts';
import { numberIn, readTable } from '../read-table.ts';
import { HALF_A_DIGIT, halfUnitOf, ofCell, type RefereedFigure, type RefereedSource } from './refereed.ts';

/** Of sRGB and of differences of colours. */
export function srgbAndLabSources(): RefereedSource[] {
  return [differences(), srgbMatrix(), srgbCurve(), srgbCode(), labOfGrey(), labOfCodes(), uvOfCodes()];
}

function differences(): RefereedSource {
  const figures = readTable('ciede2000-sharma').flatMap((row): RefereedFigure[] => {
    const lab = (end: '1' | '2'): Lab => ({
      lightness: numberIn(row, `L${end}`),
      a: numberIn(row, `a${end}`),
      b: numberIn(row, `b${end}`),
    });
    return [
      ofCell(row, 'dE00', `pair ${row.pair}`, ciede2000(lab('1'), lab('2'))),
      ofCell(row, 'dE00', `pair ${row.pair}, the other way round`, ciede2000(lab('2'), lab('1'))),
    ];
  });
  return {
    title: 'CIEDE2000 of pairs of colours',
    source: 'Sharma, Wu and Dalal 2005, Color Res. Appl. 30(1), table 1',
    marks: ['seen', 'recomputed'],
    unit: 'ΔE00',
    tolerance: HALF_A_DIGIT,
    figures,
  };
}

const LIBRARY = 'documentation and tests of github.com/colour-science/colour';

/** As printed to four digits. */
const SRGB_TO_XYZ = [0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505] as const;

function srgbMatrix(): RefereedSource {
  const own = rgbToXyzMatrix(SRGB.primaries, SRGB.white);
  return {
    title: 'sRGB’s light to XYZ',
    source: `IEC 61966-2-1:1999, as in the ${LIBRARY}`,
    marks: ['seen'],
    unit: 'share of white',
    tolerance: HALF_A_DIGIT,
    figures: SRGB_TO_XYZ.map((printed, i) => ({
      name: `row ${1 + Math.floor(i / 3)}, column ${1 + (i % 3)}`,
      printed,
      own: own[i]!,
      tolerance: 0.5e-4,
    })),
  };
}

function srgbCurve(): RefereedSource {
  return {
    title: 'sRGB’s curve, from light to code',
    source: `worked example in the ${LIBRARY}`,
    marks: ['seen'],
    unit: 'share of full scale',
    tolerance: HALF_A_DIGIT,
    figures: [{ name: 'light 0.18', printed: 0.4613561, own: srgbEncode(0.18), tolerance: 0.5e-7 }],
  };
}

function srgbCode(): RefereedSource {
  const codes = [
    ...[
      [32, '0.01444'],
      [64, '0.05127'],
      [100, '0.12744'],
      [118, '0.18116'],
      [128, '0.215861'],
      [160, '0.35153'],
    ],
    ...[
      [200, '0.57758'],
      [220, '0.71569'],
      [240, '0.87137'],
      [250, '0.95597'],
      [254, '0.99110'],
    ],
  ] as const;
  return {
    title: 'sRGB’s curve, from 8-bit code to light',
    source: 'the equations of IEC 61966-2-1',
    marks: ['recomputed'],
    unit: 'share of white',
    tolerance: HALF_A_DIGIT,
    figures: codes.map(([code, printed]) => ({
      name: `code ${code}`,
      printed: printed as string,
      own: srgbDecode(Number(code) / 255),
      tolerance: halfUnitOf(printed as string),
    })),
  };
}

function labOfGrey(): RefereedSource {
  const white = xyToXyz(D65);
  const rows = [
    ['0.18', '49.4961'],
    ['0.184187', '50.000'],
    ['0.5', '76.0693'],
    ['0.75', '89.3930'],
    ['0.9', '95.9968'],
    ['0.01', '8.9914'],
    ['0.001', '0.9033'],
  ] as const;
  return {
    title: 'L* of greys',
    source: 'the equations of CIE e-ILV 17-23-076',
    marks: ['recomputed'],
    unit: 'L*',
    tolerance: HALF_A_DIGIT,
    figures: rows.map(([y, printed]) => ({
      name: `Y = ${y}`,
      printed,
      own: xyzToLab([Number(y) * white[0], Number(y), Number(y) * white[2]], white).lightness,
      tolerance: halfUnitOf(printed),
    })),
  };
}

/** Worked out with the matrix of four digits and the white that its rows add up to. */
const CODES: readonly (readonly [code: Vector3, lab: readonly string[], uv: readonly string[]])[] = [
  [
    [128, 128, 128],
    ['53.5850', '0.0000', '0.0000'],
    ['0.197841', '0.468323'],
  ],
  [
    [250, 250, 250],
    ['98.2720', '0.0000', '0.0000'],
    ['0.197841', '0.468323'],
  ],
  [
    [255, 250, 245],
    ['98.5211', '0.8017', '2.9795'],
    ['0.200276', '0.471786'],
  ],
  [
    [245, 250, 255],
    ['98.0350', '-0.7436', '-2.9631'],
    ['0.195463', '0.464801'],
  ],
  [
    [250, 255, 250],
    ['99.5131', '-2.5211', '1.8093'],
    ['0.195896', '0.470837'],
  ],
  [
    [255, 245, 255],
    ['97.5452', '5.0714', '-3.5962'],
    ['0.201815', '0.463184'],
  ],
  [
    [240, 235, 225],
    ['93.1798', '-0.0333', '5.4403'],
    ['0.200674', '0.475131'],
  ],
];

const xyzOf = ([r, g, b]: Vector3) =>
  transformVector3(SRGB_TO_XYZ, [srgbDecode(r / 255), srgbDecode(g / 255), srgbDecode(b / 255)]);
const OF_CODES = {
  source: 'the equations of IEC 61966-2-1 and CIE e-ILV, with the matrix of four digits',
  marks: ['recomputed'],
  tolerance: HALF_A_DIGIT,
} as const;

function labOfCodes(): RefereedSource {
  const white = xyzOf([255, 255, 255]);
  const figures = CODES.flatMap(([code, lab]) => {
    const { lightness, a, b } = xyzToLab(xyzOf(code), white);
    return [lightness, a, b].map((own, i) => ({
      name: `${['L*', 'a*', 'b*'][i]} of ${code.join(', ')}`,
      printed: lab[i]!,
      own,
      tolerance: 0.5e-4,
    }));
  });
  return { title: 'L*a*b* of 8-bit sRGB', unit: 'L*, a*, b*', figures, ...OF_CODES };
}

function uvOfCodes(): RefereedSource {
  const figures = CODES.flatMap(([code, , uv]) => {
    const { uPrime, vPrime } = xyzToUvPrime(...xyzOf(code));
    return [uPrime, vPrime].map((own, i) => ({
      name: `${['u′', 'v′'][i]} of ${code.join(', ')}`,
      printed: uv[i]!,
      own,
      tolerance: 0.5e-6,
    }));
  });
  return { title: 'u′v′ of 8-bit sRGB', unit: 'u′v′', figures, ...OF_CODES };
}
