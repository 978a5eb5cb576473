import { seenLight } from '../../../src/engine/lamps/seen-light.ts';
import type { LightMaker } from '../../published/light-row.ts';
import { lightOf, setOf } from './set-of.ts';

/**
 * The engine's model of a light, as the tables of textbook radiometry ask for it. Behind a sheet or before a wall is one
 * to the model: an even sheet passes on what it is thrown.
 */
export const lightOfModel: LightMaker = ({ x = 0, y = 0, distance, aimX = x, face, beam }) => {
  const light = lightOf({
    x,
    y,
    distance,
    aimX,
    aimY: y,
    beamPower: beam === 'constant' ? 0 : 1,
    face: face?.kind === 'rectangle' ? face : { kind: 'disc', radius: (face?.diameter ?? 0) / 2 },
  });
  return seenLight(setOf([light], { sheet: { forwardShare: 0, lobeRad: 0.4 } }), light);
};

/** A face's few points may leave this share of its light (0.00004 EV) where it is no larger than it is far. */
export const FEW_POINTS = 2.5e-5;
