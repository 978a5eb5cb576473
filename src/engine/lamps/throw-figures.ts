import type { LitSet, SetLight } from './lit-set.ts';

/** Where each figure stands among them; those of three parts run right, down and towards the plane. */
export const PLACE = 0;
/** From the face's middle to the end of its unit, to its right and down. */
export const FACE_RIGHT = 3;
export const FACE_DOWN = 6;
export const AXIS = 9;
export const POWER = 12;
/** 1 − cos of the beam's edge, and how steep that is. */
export const EDGE = 13;
export const STEEPNESS = 14;
/** Share that leaves the sheet evenly, the lobe's height straight on, and its concentration about that. */
export const EVEN = 15;
export const LOBE = 16;
export const CONCENTRATION = 17;
export const CAMERA = 18;
export const FIGURES = 19;

/**
 * All that a light of strength 1 follows from at any spot, as plain numbers: light by light they are so chosen that a
 * face's points go by them linearly. The third part of its place is the way to the plane.
 */
export function throwFigures({ sheet, cameraDistance }: LitSet, light: SetLight): Float64Array {
  const { x, y, distance, face, beamPower, beamEdge } = light;
  const figures = new Float64Array(FIGURES);
  const [toX, toY] = [light.aimX - x, light.aimY - y];
  const length = Math.sqrt(toX * toX + toY * toY + distance * distance);
  const [axisX, axisY, axisZ] = [toX / length, toY / length, distance / length];
  // across the axis: level, and the third that is square to both
  const level = Math.sqrt(axisX * axisX + axisZ * axisZ);
  const [acrossX, acrossZ] = [axisZ / level, -axisX / level];
  const [width, height] = face.kind === 'disc' ? [face.radius, face.radius] : [face.width, face.height];
  figures[PLACE] = x;
  figures[PLACE + 1] = y;
  figures[PLACE + 2] = distance;
  figures[FACE_RIGHT] = width * acrossX;
  figures[FACE_RIGHT + 2] = width * acrossZ;
  figures[FACE_DOWN] = height * axisY * acrossZ;
  figures[FACE_DOWN + 1] = height * level;
  figures[FACE_DOWN + 2] = -height * axisY * acrossX;
  figures[AXIS] = axisX;
  figures[AXIS + 1] = axisY;
  figures[AXIS + 2] = axisZ;
  figures[POWER] = beamPower;
  figures[EDGE] = beamEdge === null ? Number.POSITIVE_INFINITY : 1 - Math.cos(beamEdge.angleRad);
  figures[STEEPNESS] = beamEdge?.steepness ?? 1;
  figures[EVEN] = 1;
  if (sheet === null) return figures;
  const concentration = 1 / sheet.lobeRad ** 2;
  // π times the lobe's density straight on: an even surface sends 1/π of its light into each direction
  const straightOn = concentration / (2 * -Math.expm1(-2 * concentration));
  figures[EVEN] = 1 - sheet.forwardShare;
  figures[LOBE] = sheet.forwardShare * straightOn;
  figures[CONCENTRATION] = concentration;
  figures[CAMERA] = cameraDistance;
  return figures;
}
